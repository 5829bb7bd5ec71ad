"""A machine's run of audits: how it was found and how it was left, a stroke from one to the other.

As found is a square, as left a dot; hollow, with its reason, is what does not count.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final, Literal

from daq.plots import marks
from daq.plots.frame import (
    Frame,
    Level,
    Shape,
    beside,
    column,
    columns,
    dates,
    ends,
    half_of,
    heights,
    key,
    levels,
    nothing,
)
from daq.plots.picture import Picture, Twin
from daq.plots.scale import Ruler, scale, within, written

FRAME: Final = Frame(960.0, 340.0, 72.0, 786.0, 40.0, 300.0)
MOST: Final = 200
"""So many audits a picture shows at most."""
_FAR: Final = 1.3
"""A value this many times as far out as any limit is drawn at the picture's edge."""
_WIDEST: Final = 40.0
_STEPS: Final = 6


@dataclass(frozen=True, slots=True)
class Mark:
    """One audit. Values are in the picture's unit, None where there is none.

    `low`, `high`: what was allowed; `smoothed`: the smoothed value as found, and whether it had
    `drifted`. `hollow`: what of it is drawn so, and `why`. An as-found that is hollow and has no
    value stands at the foot of the picture. `note`: what else is said of it.
    """

    name: str
    day: str
    href: str = ""
    found: float | None = None
    left: float | None = None
    low: float | None = None
    high: float | None = None
    smoothed: float | None = None
    drifted: bool = False
    hollow: Literal["", "found", "both"] = ""
    why: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class RunWords:
    """The words of a run; `key` tells its picture from others on a page.

    `says`: what it shows, in a sentence, after its `headline`, if it has one; `empty`: what is said
    instead of the marks where there are none. `up`, `down`: which way values go. `found`, `left`,
    `hollow`: what a square, a dot and a hollow one mean, "" of one that is not there. `head`: the
    table's: audit, date, as found, as left, allowed, smoothed, remarks; a column "" is left out.
    """

    key: str
    title: str
    says: str
    empty: str
    up: str
    down: str
    found: str
    left: str
    hollow: str
    head: tuple[str, ...]
    headline: str = ""


_Placed = Sequence[tuple[Mark, float]]


def run(
    pairs: Sequence[Mark],
    control: Sequence[Level],
    allowed: Sequence[Level],
    told: RunWords,
    digits: int,
) -> Picture:
    """Draw at most `MOST` audits, oldest first.

    `control`: the control limits; `allowed`: the words beside the latest tolerance. `digits`: the
    decimals of every value written.

    Raises:
        ValueError: more audits than that, or a value that is not finite.
    """
    if len(pairs) > MOST:
        raise ValueError(f"audits: found {len(pairs)}; allowed: at most {MOST}")
    up = _heights(pairs, control)
    at, apart = columns(FRAME, len(pairs), _WIDEST)
    placed = tuple(zip(pairs, at, strict=True))
    links = any(each.href for each in pairs)
    inside = (
        marks.unseen(told.key, apart, FRAME.top, FRAME.bottom) if links else "",
        heights(FRAME, up),
        *_allowed(placed, apart, up),
        levels(FRAME, up, control),
        beside(FRAME, up, (*control, *allowed), between=True),
        *_smoothed(placed, up),
        marks.group("marks", *(_mark(pair, x, apart, up, told, digits) for pair, x in placed)),
        dates(FRAME, at, [each.day for each in pairs]),
        ends(FRAME, told.up, told.down),
        key(FRAME, _key(told)) if pairs else nothing(FRAME, told.empty),
    )
    heard = " ".join(filter(None, (told.headline, told.says)))
    svg = marks.drawing("run", FRAME.width, FRAME.height, told.title, heard, *inside, links=links)
    return Picture(svg, _table(pairs, told, digits), told.says, told.headline)


def _heights(pairs: Sequence[Mark], control: Sequence[Level]) -> Ruler:
    core = [0.0, *(each.value for each in control)]
    core += [limit for each in pairs for limit in (each.low, each.high) if limit is not None]
    values = [value for each in pairs for value in (each.found, each.left) if value is not None]
    return scale(within(values, core, _FAR), FRAME.bottom, FRAME.top, _STEPS)


def _allowed(placed: _Placed, apart: float, up: Ruler) -> Iterator[str]:
    """Both sides of the tolerance, each audit's own: a step where it was changed."""
    for side in ("low", "high"):
        limits = [(getattr(pair, side), x) for pair, x in placed]
        for limit, stretch in groupby(limits, key=lambda each: each[0]):
            if limit is not None and not up.beyond(limit):
                xs, y = [x for _, x in stretch], up.at(limit)
                yield marks.line(xs[0] - apart / 2.0, y, xs[-1] + apart / 2.0, y, "limit")


def _smoothed(placed: _Placed, up: Ruler) -> Iterator[str]:
    """The smoothed value as a thin line, thick where it has drifted."""
    there = [(pair, x, pair.smoothed) for pair, x in placed if pair.smoothed is not None]
    points = [(x, up.at(value)) for _, x, value in there]
    if len(points) > 1:
        yield marks.path(marks.through(points), "smooth")
    legs = zip((pair.drifted for pair, _, _ in there[1:]), points, points[1:], strict=False)
    for drifted, stretch in groupby(legs, key=lambda leg: leg[0]):
        if drifted:
            along = list(stretch)
            thick = (along[0][1], *(leg[2] for leg in along))
            yield marks.path(marks.through(thick), "smooth drifted")


def _mark(pair: Mark, x: float, apart: float, up: Ruler, told: RunWords, digits: int) -> str:
    half = half_of(apart)
    found, left = _found(pair, x, half, up, told), _end(pair.left, x, half, up, marks.dot)
    stroke = ""
    if pair.found is not None and pair.left is not None:
        stroke = marks.upright(x, up.at(pair.found), up.at(pair.left))
    body = (
        marks.path(stroke + found + left, "hollow" if pair.hollow else "")
        if pair.hollow != "found"
        else marks.path(stroke + left) + marks.path(found, "hollow")
    )
    return column(told.key, x, apart, _says(pair, digits), pair.href, body)


def _found(pair: Mark, x: float, half: float, up: Ruler, told: RunWords) -> str:
    if pair.found is None and pair.hollow and told.found:
        return marks.square(x, FRAME.bottom, half)
    return _end(pair.found, x, half, up, marks.square)


def _end(value: float | None, x: float, half: float, up: Ruler, shape: Shape) -> str:
    """The mark of a value; a wedge at the edge for what lies beyond it."""
    if value is None:
        return ""
    y, beyond = up.at(value), up.beyond(value)
    return marks.wedge(x, y, half, up=beyond > 0) if beyond else shape(x, y, half)


def _says(pair: Mark, digits: int) -> str:
    values = (_value(value, digits) for value in (pair.found, pair.left) if value is not None)
    said = f"{pair.name} {pair.day}: {'→'.join(values)}"
    return f"{said}. {pair.why}" if pair.why else said


def _value(value: float | None, digits: int) -> str:
    return "" if value is None else written(value, digits, plus=True)


def _table(pairs: Sequence[Mark], told: RunWords, digits: int) -> Twin:
    """The newest first."""
    kept = [i for i, name in enumerate(told.head) if name]
    rows = (_row(each, digits) for each in reversed(pairs))
    head = tuple(told.head[i] for i in kept)
    return Twin(head, tuple(tuple(row[i] for i in kept) for row in rows), told.title)


def _row(pair: Mark, digits: int) -> tuple[str, ...]:
    limits = [_value(each, digits) for each in (pair.low, pair.high) if each is not None]
    if pair.high is not None and pair.low == -pair.high:
        limits = [f"±{written(pair.high, digits)}"]
    return (
        pair.name,
        pair.day,
        _value(pair.found, digits),
        _value(pair.left, digits),
        " / ".join(limits),
        _value(pair.smoothed, digits),
        " ".join(filter(None, (pair.why, pair.note))),
    )


def _key(told: RunWords) -> tuple[tuple[str, Shape, str], ...]:
    found, left = ("", marks.square, told.found), ("", marks.dot, told.left)
    return (found, left, ("hollow", marks.square if told.found else marks.dot, told.hollow))
