"""What a setup page shows of a wire: the last bytes as they came, and the counts."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import count
from typing import Final

from daq.words import GaugeStatus

FRAMES: Final = 5
BYTES: Final = 64


@dataclass(frozen=True, slots=True)
class BytesShown:
    """Some bytes for people: in hexadecimal, and as text with a dot for what is none."""

    hex: str
    text: str


@dataclass(frozen=True, slots=True)
class Wire:
    """One opening of a port up to now, some tenths of a second old.

    `frames` are the last good frames without what closes them, the newest last; `last` the
    last bytes whatever they were; `last_bad` those at the end of which a frame was last
    counted as bad; `damaged` of these were whole but for their check value. `came` counts
    bytes; `missing` the unanswered requests in a row; `discarded` the answers that came late or
    unasked.
    """

    run: str = ""
    good: int = 0
    bad: int = 0
    damaged: int = 0
    came: int = 0
    missing: int = 0
    discarded: int = 0
    frames: tuple[BytesShown, ...] = ()
    last: BytesShown | None = None
    last_bad: BytesShown | None = None


def shown(raw: bytes) -> BytesShown:
    """Return bytes as people can read them."""
    text = "".join(chr(byte) if 32 <= byte < 127 else "·" for byte in raw)
    return BytesShown(raw.hex(" "), text)


def counts(status: GaugeStatus, wire: Callable[[], Wire] | None) -> Mapping[str, int]:
    """Good and bad frames as of now: a status is told only when something else of it changes."""
    now = None if wire is None else wire()
    there = status if now is None or now.run != status.run else now
    return {"good": there.good, "bad": there.bad}


def openings(prefix: str) -> Callable[[], str]:
    """Names for the openings of one port, unique for ever."""
    numbers = count(1)
    return lambda: f"{prefix}-{next(numbers)}"
