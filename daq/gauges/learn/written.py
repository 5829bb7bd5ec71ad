"""Numbers that are written out: where in frames of text the digits of a face stand."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.face import TypedFace
from daq.gauges.learn.scaled import WAYS, Scale, Way, counted, line, sizes

_RUN: Final = re.compile(rb"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+")
_WORD: Final = re.compile(rb"[0-9A-Za-z]{3,16}")
_HEX: Final = re.compile(rb"[0-9A-Fa-f]+")
_SHORTEST_HEX, _LONGEST_HEX = 3, 8
_EXPONENT: Final = re.compile(rb"[eE][-+]?[0-9]{1,2}(?![0-9])")
_WHOLE: Final = -1
_LOOKED_AT: Final = 16
"""So many unlike frames of each held still are searched: a number at rest has few."""
_MOST: Final = 12


@dataclass(frozen=True, slots=True)
class DigitsAt:
    """Where a number stands: which run of digits, counted from the front or the back.

    `lead` digits of the run stand before it. It has so many `decimals` (-1: all there are), or
    is `width` digits without a decimal sign (0: all). `exponent`: a power of ten follows. `way`:
    the run is a count in hexadecimal characters, read so. `scale` makes the face's number of it.
    """

    index: int
    lead: int = 0
    decimals: int = _WHOLE
    width: int = 0
    exponent: bool = False
    way: Way | Literal[""] = ""
    scale: Scale | None = None

    def span(self, frame: bytes) -> tuple[int, int] | None:
        """Return where the digits begin and end in a frame; None where it has none there."""
        runs = list((_WORD if self.way else _RUN).finditer(frame))
        if not -len(runs) <= self.index < len(runs):
            return None
        run = runs[self.index]
        if self.way:
            begin, end = run.start() + self.lead, run.start() + self.lead + self.width
            is_hex = end <= run.end() and _HEX.fullmatch(frame, begin, end)
            return (begin, end) if is_hex else None
        begin, text = run.start() + self.lead, run[0][self.lead :]
        whole, point, after = _parted(text)
        if self.decimals != _WHOLE:
            if not point or len(after) < self.decimals:
                return None
            text = text[: len(whole) + 1 + self.decimals]
        elif self.width:
            if point or len(text) < self.width:
                return None
            text = text[: self.width]
        if not text or (self.exponent and not _EXPONENT.match(frame, begin + len(text))):
            return None
        return begin, begin + len(text)

    @property
    def cost(self) -> float:
        """How much is assumed."""
        of_hex = 1.5 + (self.way != "unsigned") if self.way else 2.0 * (self.width > 0)
        scaled = 0.0 if self.scale is None else self.scale.cost
        return (
            (0.5 if self.way else 3.0) * (self.lead > 0)
            + 2.0 * (self.decimals != _WHOLE)
            + of_hex
            + scaled
        )

    def number(self, digits: bytes, exponent: bytes, face: TypedFace) -> Decimal | None:
        """Return how large a face's number is by these digits; None where its sign is mixed in."""
        if self.scale is not None and "offset" in self.scale.keys:
            return None
        scale = Decimal(str(1 if self.scale is None else self.scale.keys.get("scale", 1)))
        if self.way:
            return abs(_count(digits, self.way)) * (
                scale
                if "scale" in (self.scale.keys if self.scale else {})
                else Decimal(1).scaleb(-face.places)
            )
        found = value(digits, exponent)
        if self.scale is not None:
            return abs(found * scale)
        return found if exponent or set(b".,") & set(digits) else found.scaleb(-face.places)


def _count(digits: bytes, way: Way) -> int:
    return counted(int(digits, 16), 4 * len(digits), way)


def value(digits: bytes, exponent: bytes = b"") -> Decimal:
    """Return the number that digits say, with or without a decimal sign."""
    return Decimal(digits.decode().replace(",", ".")).scaleb(int(exponent[1:] or b"0"))


def exponent_of(frame: bytes, end: int) -> bytes:
    """Return the power of ten that follows a number, if one does."""
    hit = _EXPONENT.match(frame, end)
    return hit[0] if hit else b""


def spots(cut: Cut, faces: Sequence[TypedFace]) -> list[DigitsAt]:
    """Return where all faces stand in the frames that came with them, the simplest first."""
    common: set[DigitsAt] | None = None
    for frames, face in zip(cut.held, faces, strict=True):
        unlike = [frame for frame, _ in Counter(frames).most_common(_LOOKED_AT)]
        here = {spot for frame in unlike for spot in _spots(frame, face)}
        common = here if common is None else common & here
    found = [*(common or ()), *_hexes(cut, faces), *_lines(cut, faces)]
    return sorted(found, key=lambda spot: (spot.cost, spot.index < 0, abs(spot.index)))


def _spots(frame: bytes, face: TypedFace) -> Iterator[DigitsAt]:
    """Yield where a face's digits stand in a frame."""
    runs = list(_RUN.finditer(frame))
    for at, run in enumerate(runs):
        for index in (at, at - len(runs)):
            whole, point, after = _parted(run[0])
            exponent = exponent_of(frame, run.end())
            if exponent and round(value(run[0], exponent), face.places) == abs(face.number):
                yield DigitsAt(index, exponent=True)
            if point:
                yield from _pointed(index, whole, after, face)
            else:
                yield from _plain(index, whole, face)


def _pointed(index: int, whole: bytes, after: bytes, face: TypedFace) -> Iterator[DigitsAt]:
    for lead in range(max(1, len(whole)) if len(whole) < _MOST else 1):
        digits = whole[lead:] or b"0"
        if len(after) >= face.places and value(digits + b"." + after[: face.places]) == abs(
            face.number
        ):
            if not after[face.places :].strip(b"0"):
                yield DigitsAt(index, lead)
            if face.places:
                yield DigitsAt(index, lead, face.places)


def _plain(index: int, whole: bytes, face: TypedFace) -> Iterator[DigitsAt]:
    length = len(whole)
    if length > _MOST:
        return
    least = max(2, len(str(face.counts)))
    for lead in range(length):
        for width in range(least, length - lead + 1):
            if int(whole[lead : lead + width]) == face.counts:
                yield DigitsAt(index, lead, width=width)
                if lead + width == length:
                    yield DigitsAt(index, lead)


def _parted(run: bytes) -> tuple[bytes, bytes, bytes]:
    whole, point, after = run.replace(b",", b".").partition(b".")
    return whole, point, after


def _hexes(cut: Cut, faces: Sequence[TypedFace]) -> Iterator[DigitsAt]:
    """Yield where the faces stand as counts in hexadecimal characters."""
    newest = [frames[-1] for frames in cut.held]
    rows = [list(_WORD.finditer(frame)) for frame in newest]
    known = list(sizes(faces[0].places))
    for at in range(min(map(len, rows))):
        words = [row[at][0] for row in rows]
        shortest = min(map(len, words))
        for width in range(min(_LONGEST_HEX, shortest), _SHORTEST_HEX - 1, -1):
            for lead in range(shortest - width + 1):
                parts = [word[lead : lead + width] for word in words]
                if all(map(_HEX.fullmatch, parts)):
                    yield from _as_counts(DigitsAt(at, lead, width=width), parts, faces, known)


def _as_counts(
    spot: DigitsAt,
    parts: Sequence[bytes],
    faces: Sequence[TypedFace],
    known: Sequence[tuple[Fraction, Scale]],
) -> Iterator[DigitsAt]:
    for way in WAYS:
        counts = [_count(part, way) for part in parts]
        for size, scale in known:
            wanted = [Fraction(face.number) / size for face in faces]
            if counts == ([abs(each) for each in wanted] if way == "unsigned" else wanted):
                yield replace(spot, way=way, scale=scale)


def _lines(cut: Cut, faces: Sequence[TypedFace]) -> Iterator[DigitsAt]:
    """Yield numbers that are the faces by a factor, and an offset, of their own."""
    newest = [frames[-1] for frames in cut.held]
    rows = [list(_RUN.finditer(frame)) for frame in newest]
    for at in range(min(map(len, rows))):
        numbers = [
            -value(row[at][0]) if frame[: row[at].start()].endswith(b"-") else value(row[at][0])
            for row, frame in zip(rows, newest, strict=True)
        ]
        scale = line(numbers, faces)
        if scale is not None and scale.keys["scale"] != 1.0:
            yield DigitsAt(at, scale=scale)
