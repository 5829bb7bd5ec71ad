"""A gauge's frames as they come, decoded by its file, beside their bytes."""

import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Final, Protocol, TextIO

from daq.gauges.config import GaugeConfig
from daq.gauges.hearing import Hearing
from daq.gauges.identity import identity
from daq.gauges.link import Link
from daq.gauges.wire import shown
from daq.words import Said, Sample

_WAIT_S: Final = 0.2
_BAD_SHOWN: Final = 24


class OpenPort(Protocol):
    """An open port."""

    def read(self, wait_s: float) -> bytes:
        """Return the bytes that have come, waiting for the first."""

    def write(self, data: bytes) -> None:
        """Send."""

    def close(self) -> None:
        """Give the port back."""


def rounds(
    config: GaugeConfig, port: OpenPort, now_ns: Callable[[], int], most_s: float
) -> Iterator[tuple[Hearing, bytes, list[Sample]]]:
    """Yield what came in each round of reading a port by a gauge's file, for so many seconds."""
    begun = now_ns()
    hearing = Hearing("gauge", config, "listen", begun)
    while (now := now_ns()) - begun < most_s * 1e9:
        if request := hearing.request(now):
            port.write(request)
        block = port.read(min(_WAIT_S, max(0.001, hearing.wait_s(now))))
        yield hearing, block, hearing.take(block, now_ns())


def listen(
    config: GaugeConfig,
    url: str,
    out: TextIO,
    words: Callable[[Said], str],
    count: int = 0,
    *,
    now_ns: Callable[[], int] = time.monotonic_ns,
    most_s: float = float("inf"),
) -> int:
    """Print frames until there are `count` of them, 0 for no end; return how many came.

    `words` makes words of what is said. A silence is told of after a while, and listening goes
    on, for `most_s` seconds at most.

    Raises:
        LinkError: the port cannot be opened, or has gone.
    """
    good = bad = damaged = 0
    said = ""
    with closing(Link(config.line, url, _WAIT_S, identity(url))) as link:
        for hearing, block, samples in rounds(config, link, now_ns, most_s):
            now = now_ns()
            status = hearing.status(now) if now >= hearing.look_ns else None
            wire = hearing.wire()
            good += len(samples)
            for sample in samples:
                out.write(f"{good:>6} good {wire.bad:>4} bad  {_said(sample)}\n")
            if wire.bad != bad:
                kind = "a damaged one" if wire.damaged != damaged else "a bad frame"
                bad, damaged = wire.bad, wire.damaged
                tail = shown(block[-_BAD_SHOWN:])
                out.write(f"{good:>6} good {bad:>4} bad  {kind:<15}{tail.hex}  |{tail.text}|\n")
            if status is not None and status.say and words(status.say) != said:
                said = words(status.say)
                out.write(f"{said}\n")
            out.flush()
            if count and good >= count:
                break
    return good


def _said(sample: Sample) -> str:
    flags = " ".join(sample.flags)
    return f"{sample.text:>12} {sample.unit}  {shown(sample.raw).hex}  {flags}".rstrip()


def url_of(config: GaugeConfig, port: str, folder: Path) -> str:
    """Return the port to open: `port` if one is given, else that of the gauge's file."""
    return port or config.line.url(folder)
