"""Listening to a port whose frames are not known: bytes, and when they came."""

import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
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
_LOOK_S: Final = 0.15
"""How often it is looked whether enough was heard."""
_CHARACTERS: Final = 3.0
_HOLE_S: Final = 0.25
_HOLE: Final = 3.0
"""A silence of so many usual ones, and so long, is a hole: a hand may be anywhere after it."""
_LONGEST_ANSWER_S: Final = 1.0


Opener = Callable[[SerialLine, str], OpenPort]


def opened(line: SerialLine, url: str) -> OpenPort:
    """Open a port, exclusively.  Raises LinkError."""
    return Link(line, url, _BLOCK_S)


@dataclass(frozen=True, slots=True)
class Asking:
    """What a gauge is sent, and how often, seconds; nothing when there is no request."""

    request: bytes = b""
    interval_s: float = 0.1


@dataclass(frozen=True, slots=True)
class Heard:
    """Blocks of bytes with the moment each came, seconds, at a line's settings."""

    line: SerialLine
    blocks: tuple[tuple[float, bytes], ...]

    @property
    def sent(self) -> bytes:
        """All of it in a row."""
        return b"".join(block for _, block in self.blocks)

    @property
    def pieces(self) -> Pieces:
        """The bytes, parted at the silences."""
        return tuple(b"".join(block for _, block in group) for group in self._groups())

    @property
    def silence_s(self) -> float:
        """How long the silences are, mostly; 0 when there is none."""
        groups = self._groups()
        quiet = [after[0][0] - before[-1][0] for before, after in pairwise(groups)]
        return median(quiet) if quiet else 0.0

    @property
    def unbroken(self) -> "Heard":
        """The longest part without a hole."""
        least = max(_HOLE_S, _HOLE * self.silence_s)
        parts: list[list[tuple[float, bytes]]] = []
        for block in self.blocks:
            if not parts or block[0] - parts[-1][-1][0] > least:
                parts.append([])
            parts[-1].append(block)
        heard = [Heard(self.line, tuple(part)) for part in parts]
        return max(heard, key=lambda part: part.seconds, default=self)

    @property
    def seconds(self) -> float:
        """From the first block to the last."""
        return self.blocks[-1][0] - self.blocks[0][0] if self.blocks else 0.0

    def goes_on(self, answer_s: float) -> bool:
        """Return whether more came than one answer, which follows its request within that time."""
        groups = self._groups()
        long = bool(groups) and groups[0][-1][0] - groups[0][0][0] > _LONGEST_ANSWER_S
        return long or any(each[0][0] - groups[0][-1][0] > answer_s for each in groups[1:])

    def last(self, count: int) -> "Heard":
        """Return the last so many pieces."""
        groups = self._groups()[-count:]
        return Heard(self.line, tuple(block for group in groups for block in group))

    def _groups(self) -> list[list[tuple[float, bytes]]]:
        least = max(_SILENCE_S, _CHARACTERS * 10.0 / self.line.baud)
        groups: list[list[tuple[float, bytes]]] = []
        for block in self.blocks:
            if groups and block[0] - groups[-1][-1][0] < least:
                groups[-1].append(block)
            else:
                groups.append([block])
        return groups


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
        blocks: list[tuple[float, bytes]] = []
        with closing(self.open(line)) as port:
            begun = self._now_s()
            due, look = begun, begun + _LOOK_S
            while (now := self._now_s()) - begun < most_s:
                if asking.request and now >= due:
                    port.write(asking.request)
                    due = now + asking.interval_s
                if block := port.read(_BLOCK_S):
                    blocks.append((self._now_s(), block))
                if now >= look:
                    if enough(Heard(line, tuple(blocks))):
                        break
                    look = self._now_s() + _LOOK_S
        return Heard(line, tuple(blocks))

    def _now_s(self) -> float:
        return self._now_ns() / _NS
