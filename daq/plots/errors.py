"""A gauge's errors over the lengths it was stepped through, against what they may be."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from statistics import fmean
from typing import Final, Literal

from daq.plots import marks
from daq.plots.frame import Frame, Level, beside, heights, key, levels
from daq.plots.picture import Picture, Twin
from daq.plots.scale import Ruler, scale, written

FRAME: Final = Frame(560.0, 320.0, 76.0, 400.0, 58.0, 278.0)
_ROWS: Final = 6
_ALONG: Final = 8
_HALF: Final = 4.0


@dataclass(frozen=True, slots=True)
class ErrorAt:
    """One reading: the length under the contact, its error, and which way it was come to."""

    length: float
    error: float
    way: Literal["up", "down"]


@dataclass(frozen=True, slots=True)
class ErrorWords:
    """The words. `along`: of the axis below; `head`: length, way, error."""

    title: str
    says: str
    along: str
    up: str
    down: str
    head: tuple[str, ...]


def errors(
    read: Sequence[ErrorAt], lines: Sequence[Level], told: ErrorWords, digits: tuple[int, int]
) -> Picture:
    """Draw each error where its length is, one line through those read upward, one downward.

    `lines`: what they may be. `digits`: the decimals of a length, and of an error.

    Raises:
        ValueError: a value that is not finite.
    """
    along = scale([each.length for each in read], FRAME.left, FRAME.right, _ALONG)
    values = [each.error for each in read] + [each.value for each in lines]
    up = scale(values, FRAME.bottom, FRAME.top, _ROWS)
    down = any(each.way == "down" for each in read)
    inside = (
        heights(FRAME, up),
        *_lengths(along, told.along),
        levels(FRAME, up, lines),
        beside(FRAME, up, lines),
        _way(read, "up", along, up),
        _way(read, "down", along, up),
        key(FRAME, (("", marks.square, told.up), ("hollow", marks.dot, told.down if down else ""))),
    )
    svg = marks.drawing("errors", FRAME.width, FRAME.height, told.title, told.says, *inside)
    words = {"up": told.up, "down": told.down}
    rows = [(each.says, "", written(each.value, digits[1] + each.finer)) for each in lines]
    rows += [
        (written(r.length, digits[0]), words[r.way], written(r.error, digits[1], plus=True))
        for r in read
    ]
    return Picture(svg, Twin(told.head, tuple(rows), told.title), told.says)


def _lengths(along: Ruler, says: str) -> Iterator[str]:
    for tick in along.ticks:
        x = along.at(tick)
        yield marks.line(x, FRAME.bottom, x, FRAME.bottom + 5.0, "base")
        yield marks.words(x, FRAME.bottom + 21.0, written(tick, along.digits), "soft", "middle")
    yield marks.words(FRAME.right + 28.0, FRAME.bottom + 21.0, says, "soft")


def _way(read: Sequence[ErrorAt], way: str, along: Ruler, up: Ruler) -> str:
    """All that was read one way, and a line through the mean at each length."""
    own = sorted((r.length, r.error) for r in read if r.way == way)
    means = [
        (along.at(length), up.at(fmean(error for _, error in here)))
        for length, here in groupby(own, key=lambda each: each[0])
    ]
    shape = marks.square if way == "up" else marks.dot
    drawn = "".join(shape(along.at(length), up.at(error), _HALF) for length, error in own)
    line = marks.path(marks.through(means), "scribe" if way == "up" else "control")
    kind = "" if way == "up" else "hollow"
    return (line if len(means) > 1 else "") + marks.group("marks", marks.path(drawn, kind))
