"""Frames of text taken apart around their number, those of other gauges left out."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.face import TypedFace
from daq.gauges.learn.written import DigitsAt, exponent_of

_OURS: Final = 0.85
_NEAR: Final = 8
"""A number at rest may flicker by so many of its last place."""
_WORD: Final = re.compile(rb"[0-9A-Za-z]+|[^0-9A-Za-z]")
_MARKS: Final = 3

Side = Literal["before", "after"]


@dataclass(frozen=True, slots=True)
class Parted:
    """A frame taken apart around its number; `face` where one was typed beside it."""

    before: bytes
    digits: bytes
    after: bytes
    frame: bytes
    spot: DigitsAt
    face: TypedFace | None = None
    exponent: bytes = b""
    sign: bytes = b""
    fill: bytes = b""

    @property
    def near(self) -> bool:
        """Whether the number is that of the face, but for a flicker."""
        if self.face is None:
            return False
        found = self.spot.number(self.digits, self.exponent, self.face)
        if found is None:
            return True
        return abs(found - abs(self.face.number)).scaleb(self.face.places) <= _NEAR

    def words(self, side: Side) -> list[bytes]:
        """Return what stands on one side, word by word."""
        return _WORD.findall(self.before if side == "before" else self.after)


def ours(cut: Cut, spot: DigitsAt, faces: Sequence[TypedFace]) -> list[Parted]:
    """Return our gauge's frames, those with a face first; none when it cannot be told which."""
    told = [
        [each for frame in frames if (each := _parted(frame, spot, face))]
        for frames, face in zip(cut.held, faces, strict=True)
    ]
    if not all(told):
        return []
    every = [each for group in told for each in group]
    every += [each for frame in cut.frames if (each := _parted(frame, spot, None))]
    if all(_share(group) >= _OURS for group in told):
        return every
    sides: tuple[Side, ...] = ("before", "after")
    for side in sides:
        if (mark := _mark(told, side)) is not None:
            at, word = mark
            return [each for each in every if each.words(side)[at : at + 1] == [word]]
    return []


def _mark(told: Sequence[Sequence[Parted]], side: Side) -> tuple[int, bytes] | None:
    """Return which word, at which place, our frames have and those of others have not."""
    near = [each.words(side) for group in told for each in group if each.near]
    for at in range(max(map(len, near), default=0)):
        seen = Counter(word for words in near for word in words[at : at + 1])
        for word, _ in seen.most_common(_MARKS):
            groups = [
                [each for each in group if each.words(side)[at : at + 1] == [word]]
                for group in told
            ]
            if all(group and _share(group) >= _OURS for group in groups):
                return at, word
    return None


def _share(group: Sequence[Parted]) -> float:
    return sum(each.near for each in group) / len(group)


def _parted(frame: bytes, spot: DigitsAt, face: TypedFace | None) -> Parted | None:
    span = spot.span(frame)
    if span is None:
        return None
    begin, end = span
    exponent = exponent_of(frame, end) if spot.exponent else b""
    after = frame[end + len(exponent) :]
    return Parted(frame[:begin], frame[begin:end], after, frame, spot, face, exponent)
