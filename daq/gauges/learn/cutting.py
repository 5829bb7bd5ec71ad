"""Bytes cut into frames: by what closes a line, by the silences, or by how often they repeat."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from daq.gauges.learn.evidence import Evidence, Pieces, Table

_ENDS: Final = (b"\r\n", b"\n\r", b"\r", b"\n", b"\x03", b"\x04", b";")
_LINES: Final = range(2, 9)
"""So many lines may make one frame."""
_FEWEST: Final = 3
_SHORTEST, _LONGEST = 2, 64
_MOST: Final = 0.6
"""So many of the pieces must be of one length to be frames."""
_ALIKE: Final = 0.9
"""A length this near to the best one is as good: the shortest of them is the frame's."""
_STREAM: Final = 4096
_LATEST: Final = 400
"""Frames looked at: the newest."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Frames without what closes them: all, and those while each face was typed.

    `keys` say in a file how they are told apart. `fixed`: all are of one length. `cost` counts
    what had to be assumed.
    """

    keys: Table
    held: tuple[tuple[bytes, ...], ...]
    frames: tuple[bytes, ...]
    cost: float = 0.0
    fixed: bool = field(init=False)

    @property
    def at_least(self) -> int:
        """How many frames ours must at least be, where those of others go between."""
        return len(self.frames) // 4

    def __post_init__(self) -> None:
        """See whether all are of one length."""
        object.__setattr__(self, "fixed", len(set(map(len, self.frames))) == 1)


def cuts(evidence: Evidence) -> Iterator[Cut]:
    """Yield the ways to cut what was heard into frames, the likeliest first."""
    stream = b"".join(evidence.heard)
    for end in _closings(stream):
        for count in (1, *_together(evidence.heard, end)):
            held = tuple(_lines(each.pieces, end, count) for each in evidence.held)
            cut = Cut(
                {"terminator": end.decode("latin-1")},
                held,
                _lines(evidence.heard, end, count)[-_LATEST:],
                0.5 * (count > 1) + 2.0 * (end == b";"),
            )
            if all(held) and cut.frames:
                yield cut
    if evidence.paused and (whole := _by_silence(evidence)):
        yield whole
    else:
        yield from _by_period(evidence)


def _closings(stream: bytes) -> list[bytes]:
    found: list[bytes] = []
    for end in _ENDS:
        if stream.count(end) >= _FEWEST and not any(end in other for other in found):
            found.append(end)
    return found


def _lines(pieces: Pieces, end: bytes, count: int) -> tuple[bytes, ...]:
    """Return the whole lines, so many of them to a frame; what has no beginning is left out."""
    if count == 1:
        return tuple(line for line in b"".join(pieces).split(end)[1:-1] if line)
    found = []
    for piece in pieces:
        *lines, rest = piece.split(end)
        if not rest and len(lines) % count == 0:
            found += [end.join(lines[at : at + count]) for at in range(0, len(lines), count)]
    return tuple(found)


def _together(pieces: Pieces, end: bytes) -> list[int]:
    """Return how many lines come together, if it is always the same and more than one."""
    counts = Counter(piece.count(end) for piece in pieces if piece.endswith(end))
    if not counts:
        return []
    count, times = counts.most_common(1)[0]
    return [count] if count in _LINES and times >= _MOST * sum(counts.values()) else []


def _by_silence(evidence: Evidence) -> Cut | None:
    whole = [piece for piece in evidence.heard if piece]
    if len(whole) < _FEWEST:
        return None
    length, times = Counter(map(len, whole)).most_common(1)[0]
    held = tuple(each.pieces for each in evidence.held)
    if times >= _MOST * len(whole):
        if not _SHORTEST <= length <= _LONGEST:
            return None

        def alike(pieces: Pieces) -> tuple[bytes, ...]:
            # Two that came together are still two.
            return tuple(
                piece[at : at + length]
                for piece in pieces
                if piece and len(piece) % length == 0
                for at in range(0, len(piece), length)
            )
    else:

        def alike(pieces: Pieces) -> tuple[bytes, ...]:
            return tuple(piece for piece in pieces if _SHORTEST <= len(piece) <= _LONGEST)

    cut = Cut({}, tuple(map(alike, held)), alike(tuple(whole))[-_LATEST:], 0.5)
    return cut if all(cut.held) and cut.frames else None


def _by_period(evidence: Evidence) -> Iterator[Cut]:
    stream = max(evidence.heard, key=len, default=b"")
    period = _period(stream[-_STREAM:])
    for begin in _begins(stream, period) if period else ():
        columns = [Counter(stream[begin + at :: period]) for at in range(period)]
        steady = {
            at: column.most_common(1)[0][0]
            for at, column in enumerate(columns)
            if column.most_common(1)[0][1] >= _ALIKE * sum(column.values())
        }
        held = tuple(_every(each.pieces, period, steady) for each in evidence.held)
        frames = _every((stream,), period, steady)[-_LATEST:]
        if all(held) and frames:
            yield Cut({}, held, frames, 1.0)


def _every(pieces: Pieces, period: int, steady: dict[int, int]) -> tuple[bytes, ...]:
    """Return the frames of one length, each piece cut where the steady bytes stand best."""
    found: list[bytes] = []
    for piece in pieces:
        first = max(range(period), key=lambda at: _fits(piece, at, period, steady))
        last = len(piece) - period
        found += [piece[at : at + period] for at in range(first, last + 1, period)]
    return tuple(found)


def _fits(piece: bytes, first: int, period: int, steady: dict[int, int]) -> int:
    return sum(
        byte == steady.get(at)
        for start in range(first, len(piece) - period + 1, period)
        for at, byte in enumerate(piece[start : start + period])
    )


def _period(stream: bytes) -> int:
    """Return after how many bytes the stream is most like itself; 0 when it is not."""
    alike = {
        shift: sum(a == b for a, b in zip(stream, stream[shift:], strict=False))
        / (len(stream) - shift)
        for shift in range(_SHORTEST, min(_LONGEST, len(stream) // 3) + 1)
    }
    best = max(alike.values(), default=0.0)
    return next((shift for shift, part in alike.items() if best and part >= _ALIKE * best), 0)


def _begins(stream: bytes, period: int) -> list[int]:
    """Return where a frame may begin: where bytes that never change begin, or end."""
    steady = [len(set(stream[at::period])) == 1 for at in range(period)]
    edges = [at for at in range(period) if steady[at] != steady[at - 1]]
    return sorted(edges, key=lambda at: not steady[at]) or [0]


PRINTABLE: Final = re.compile(rb"[\t\r\n\x02\x03\x20-\x7e\xb5]*")


def is_text(frames: Sequence[bytes]) -> bool:
    """Return whether frames are of characters."""
    return all(PRINTABLE.fullmatch(frame) for frame in frames)
