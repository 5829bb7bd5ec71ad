"""Frames of fixed length in bytes whose layout is not known: how long, and where they begin."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from daq.gauges.learn.evidence import Pieces
from daq.gauges.learn.extra import Extra
from daq.gauges.learn.layout import Column, columns

_SHORTEST, _LONGEST = 2, 40
_MOST = 0.6
"""So many of the pieces must be of one length to be frames."""
_ALIKE = 0.9
"""A length this near to the best one is as good: the shortest of them is the frame's."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Frames of one length; `paused` when a silence follows each.

    What is `extra` in them is no part of their number.
    """

    frames: tuple[bytes, ...]
    paused: bool
    extra: Extra | None = None

    @property
    def length(self) -> int:
        """Bytes in a frame."""
        return len(self.frames[0])

    def seen(self, symbols: Sequence[str]) -> list[Column]:
        """Return what was seen at each place of the frames' symbols; nothing in what is extra."""
        found = columns(symbols)
        each = max(1, len(found) // self.length)
        beyond = self.extra.at(self.length) if self.extra else ()
        return [Column() if at // each in beyond else seen for at, seen in enumerate(found)]


def cuts(pieces: Pieces) -> list[Cut]:
    """Return the ways to cut the pieces into frames, the likeliest first."""
    whole = [piece for piece in pieces if piece]
    if not whole:
        return []
    length, times = Counter(map(len, whole)).most_common(1)[0]
    if times >= _MOST * len(whole) and times > 1 and _SHORTEST <= length <= _LONGEST:
        return [Cut(tuple(each for each in whole if len(each) == length), True)]
    stream = max(whole, key=len)
    period = _period(stream)
    return [Cut(_from(stream, period, _begin(whole, stream, period)), False)] if period else []


def _period(stream: bytes) -> int:
    """Return after how many bytes the stream is most like itself; 0 when it is not."""
    alike = {
        shift: sum(a == b for a, b in zip(stream, stream[shift:], strict=False))
        / (len(stream) - shift)
        for shift in range(_SHORTEST, min(_LONGEST, len(stream) // 3) + 1)
    }
    best = max(alike.values(), default=0.0)
    return next((shift for shift, part in alike.items() if best and part >= _ALIKE * best), 0)


def _begin(whole: Sequence[bytes], stream: bytes, period: int) -> int:
    """Return where a frame begins: at bytes that are always the same, behind others."""
    columns = [set(stream[at::period]) for at in range(period)]
    steady = [len(each) == 1 for each in columns]
    for at in range(period):
        if steady[at] and not steady[at - 1]:
            return at
    return 0


def _from(stream: bytes, period: int, begin: int) -> tuple[bytes, ...]:
    last = len(stream) - period
    return tuple(stream[at : at + period] for at in range(begin, last + 1, period))
