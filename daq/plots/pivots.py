"""What was learned of where an axis's pivot acts, audit by audit, each with its doubt."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from daq.plots import marks
from daq.plots.frame import Frame, column, columns, dates, half_of, heights, key, nothing
from daq.plots.picture import Picture, Twin
from daq.plots.scale import Ruler, scale, written

FRAME: Final = Frame(960.0, 260.0, 72.0, 786.0, 40.0, 220.0)
_WIDEST: Final = 40.0
_STEPS: Final = 5


@dataclass(frozen=True, slots=True)
class PivotMark:
    """A value and its standard uncertainty, in the picture's unit, as an audit began with it.

    `why`: why it is hollow, "" for one that was learned.
    """

    name: str
    day: str
    value: float
    doubt: float
    href: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class PivotWords:
    """The words, and the `key` by which its picture is told from others on a page.

    `learned`, `hollow`: what a mark means; `head`: audit, date, value, doubt, why.
    """

    key: str
    title: str
    says: str
    empty: str
    learned: str
    hollow: str
    head: tuple[str, str, str, str, str]


def pivots(known: Sequence[PivotMark], told: PivotWords, digits: int) -> Picture:
    """Draw them, oldest first, each with a stroke of its standard uncertainty either way.

    Raises:
        ValueError: a value that is not finite.
    """
    reach = [each.value + sign * each.doubt for each in known for sign in (-1.0, 1.0)]
    up = scale(reach, FRAME.bottom, FRAME.top, _STEPS, 1.0)
    at, apart = columns(FRAME, len(known), _WIDEST)
    links = any(each.href for each in known)
    inside = (
        marks.unseen(told.key, apart, FRAME.top, FRAME.bottom) if links else "",
        heights(FRAME, up),
        marks.group(
            "marks", *(_mark(p, x, apart, up, told, digits) for p, x in zip(known, at, strict=True))
        ),
        dates(FRAME, at, [each.day or each.name for each in known]),
        key(FRAME, (("", marks.square, told.learned), ("hollow", marks.square, told.hollow)))
        if known
        else nothing(FRAME, told.empty),
    )
    svg = marks.drawing(
        "pivots", FRAME.width, FRAME.height, told.title, told.says, *inside, links=links
    )
    rows = tuple(
        (p.name, p.day, written(p.value, digits), f"±{written(p.doubt, digits)}", p.why)
        for p in reversed(known)
    )
    return Picture(svg, Twin(told.head, rows, told.title), told.says)


def _mark(
    known: PivotMark, x: float, apart: float, up: Ruler, told: PivotWords, digits: int
) -> str:
    half = half_of(apart)
    low, high = up.at(known.value - known.doubt), up.at(known.value + known.doubt)
    bars = marks.upright(x, low, high) + marks.level(x, half, low) + marks.level(x, half, high)
    shape = marks.square(x, up.at(known.value), half)
    value = f"{written(known.value, digits)} ±{written(known.doubt, digits)}"
    said = f"{', '.join(filter(None, (known.name, known.day)))}: {value}"
    said = f"{said}. {known.why}" if known.why else said
    body = marks.path(bars + shape, "hollow" if known.why else "")
    return column(told.key, x, apart, said, known.href, body)
