"""Listening to a port whose frames are not known: bytes, and when they came."""

import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median
from typing import Final

from daq.gauges.config import SerialLine
from daq.gauges.learn.evidence import Pieces
from daq.gauges.link import Link
from daq.gauges.listen import OpenPort

_NS: Final = 1e9
_BLOCK_S: Final = 0.02
_SILENCE_S: Final = 0.025
"""Longer than adapters hold bytes back (16 ms: common practice, no source)."""
_LATEST_S: Final = 3.0
_LOOK_S: Final = 0.15
"""How often it is looked whether enough was heard."""
_CHARACTERS: Final = 3.0
_LONGEST_ANSWER_S: Final = 1.0


Opener = Callable[[SerialLine, str], OpenPort]


def opened(line: SerialLine, url: str) -> OpenPort:
    """Open a port, exclusively.  Raises LinkError."""
    return Link(line, url, _BLOCK_S)


@dataclass(frozen=True, slots=True)
class Asking:
    """What a gauge is sent, and how often, seconds; nothing when there is no request.

    `start`: what sets it going, sent once. `echo`: what is sent comes back before the answer.
    """

    request: bytes = b""
    start: bytes = b""
    echo: bool = False
    interval_s: float = 0.1

    @property
    def echoed(self) -> bytes:
        """What comes back of it before each answer."""
        return self.request if self.echo else b""


@dataclass(frozen=True, slots=True)
class Heard:
    """Blocks of bytes with the moment each came, seconds, at a line's settings."""

    line: SerialLine
    blocks: tuple[tuple[float, bytes], ...]
    echo: bytes = b""

    @property
    def sent(self) -> bytes:
        """All of it in a row."""
        return b"".join(block for _, block in self.blocks)

    @property
    def pieces(self) -> Pieces:
        """The bytes, parted at the silences."""
        found = (b"".join(block for _, block in group) for group in self.grouped)
        return tuple(part for piece in found if (part := piece.removeprefix(self.echo)))

    @property
    def silence_s(self) -> float:
        """How long the silences are, mostly; 0 when there is none."""
        groups = self.grouped
        quiet = [after[0][0] - before[-1][0] for before, after in pairwise(groups)]
        return median(quiet) if quiet else 0.0

    @property
    def seconds(self) -> float:
        """From the first block to the last."""
        return self.blocks[-1][0] - self.blocks[0][0] if self.blocks else 0.0

    def last(self, seconds: float) -> "Heard":
        """Return the last so many seconds of it."""
        since = self.blocks[-1][0] - seconds if self.blocks else 0.0
        return replace(self, blocks=tuple(each for each in self.blocks if each[0] >= since))

    def goes_on(self, answer_s: float) -> bool:
        """Return whether more came than one answer, which follows its request within that time."""
        groups = self.grouped
        long = bool(groups) and groups[0][-1][0] - groups[0][0][0] > _LONGEST_ANSWER_S
        return long or any(each[0][0] - groups[0][-1][0] > answer_s for each in groups[1:])

    @property
    def grouped(self) -> list[list[tuple[float, bytes]]]:
        """The blocks, those between two silences together."""
        least = max(_SILENCE_S, _CHARACTERS * 10.0 / self.line.baud)
        groups: list[list[tuple[float, bytes]]] = []
        for block in self.blocks:
            if groups and block[0] - groups[-1][-1][0] < least:
                groups[-1].append(block)
            else:
                groups.append([block])
        return groups


class Listening:
    """One opening of a port, listened at for as long as a conversation lasts."""

    def __init__(
        self, port: OpenPort, line: SerialLine, asking: Asking, now_s: Callable[[], float]
    ) -> None:
        """Send what there is to send at once; hear from now on."""
        self._port = port
        self._asking = asking
        self._now_s = now_s
        self._due = now_s()
        self._blocks: list[tuple[float, bytes]] = []
        self.line = line
        if asking.start:
            port.write(asking.start)

    def poll(self) -> None:
        """Hear what has come, and ask again when it is time.  Raises LinkError."""
        now = self._now_s()
        if self._asking.request and now >= self._due:
            self._port.write(self._asking.request)
            self._due = now + self._asking.interval_s
        if block := self._port.read(_BLOCK_S):
            self._blocks.append((self._now_s(), block))

    def on(self, seconds: float, enough: Callable[[Heard], bool] | None = None) -> "Heard":
        """Hear on for so long, or until what comes is enough; return what came meanwhile."""
        begun = self._now_s()
        look = begun + _LOOK_S
        while (now := self._now_s()) - begun < seconds:
            self.poll()
            if enough is not None and now >= look:
                if enough(self.since(begun)):
                    break
                look = now + _LOOK_S
        return self.since(begun)

    def since(self, moment: float) -> Heard:
        """Return what came since a moment."""
        return replace(self.heard, blocks=tuple(each for each in self._blocks if each[0] >= moment))

    @property
    def heard(self) -> Heard:
        """All that came."""
        return Heard(self.line, tuple(self._blocks), self._asking.echoed)

    @property
    def latest(self) -> Heard:
        """The last of it."""
        return self.since(self._now_s() - _LATEST_S)

    @property
    def last_piece(self) -> Heard:
        """What came between the last silence and now."""
        heard = self.heard
        pieces = heard.grouped[-1:]
        return replace(heard, blocks=tuple(pieces[0]) if pieces else ())

    @property
    def now_s(self) -> float:
        """The moment it is."""
        return self._now_s()

    def close(self) -> None:
        """Give the port back."""
        self._port.close()


class Ear:
    """Opens one port again and again, at other settings each time."""

    def __init__(
        self,
        url: str,
        opener: Opener = opened,
        now_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """Prepare to listen at `url`."""
        self._url = url
        self._opener = opener
        self._now_ns = now_ns

    def open(self, line: SerialLine) -> OpenPort:
        """Open the port.  Raises LinkError."""
        return self._opener(line, self._url)

    def hear(
        self,
        line: SerialLine,
        most_s: float,
        enough: Callable[[Heard], bool],
        asking: Asking = Asking(),
    ) -> Heard:
        """Listen for so long, or until what was heard is enough.  Raises LinkError."""
        with closing(self.listen(line, asking)) as listening:
            return listening.on(most_s, enough)

    def listen(self, line: SerialLine, asking: Asking = Asking()) -> Listening:
        """Open the port and listen until it is closed.  Raises LinkError."""
        return Listening(self.open(line), line, asking, self._now_s)

    def _now_s(self) -> float:
        return self._now_ns() / _NS
