"""A sweep as a part is drawn: from above, the operator at the bottom, and two edges beside it.

From above stands what each place read, and how far off the fitted plane it lies. The edge below is
seen from the front, the one at the right from the operator's right hand: the thin line is square,
the thick one the way the circle leans that the gauge went round, far too steep.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from daq.plots import marks
from daq.plots.picture import Picture, Twin
from daq.plots.scale import written

WIDTH, HEIGHT = 440.0, 448.0
MIDDLE: Final = (178.0, 166.0)
RADIUS: Final = 92.0
EDGE: Final = 108.0
"""Half of an edge."""
BELOW: Final = 352.0
"""How far down the edge lies that is seen from the front."""
ASIDE: Final = 366.0
"""How far right the other one."""
STEEPEST: Final = 22.0
"""So far an edge's end stands off square, of what leans most or is allowed to."""
FURTHEST: Final = 18.0
"""So far the place furthest off the plane stands off the circle."""
_LOW_ARC: Final = 0.45
"""Half of the arc drawn as low, radians."""


@dataclass(frozen=True, slots=True)
class SweptAt:
    """A place: its azimuth, degrees from the right, anticlockwise; what it read; what remains."""

    name: str
    azimuth_deg: float
    read: float
    remains: float


@dataclass(frozen=True, slots=True)
class Edge:
    """How the circle leans along one axis, over the sweep: above zero its right or front is low.

    `low`, `high`: what is allowed; `says`: which end is low, and by how much.
    """

    name: str
    over: float
    low: float | None
    high: float | None
    says: str


@dataclass(frozen=True, slots=True)
class SweptWords:
    """The words. `front`, `right`, `back`, `left`: the places' names; `low`: of the low side.

    `allowed`: what a dashed line is, `remains`: a bar as long as the longest; `head`: place, read,
    remains, remarks.
    """

    title: str
    says: str
    front: str
    right: str
    back: str
    left: str
    low: str
    allowed: str
    remains: str
    head: tuple[str, str, str, str]


def swept(
    places: Sequence[SweptAt], side: Edge, nod: Edge, told: SweptWords, digits: int
) -> Picture:
    """Draw a sweep; what remains is written with a decimal more.

    Raises:
        ValueError: a value that is not finite.
    """
    inside = (
        marks.circle(*MIDDLE, RADIUS, "base"),
        _low(side.over, nod.over, told.low),
        *_ends(told),
        *_places(places, digits),
        *_legend(told, off=_furthest(places, digits) > 0.0),
        *_edges(side, nod),
    )
    svg = marks.drawing("swept", WIDTH, HEIGHT, told.title, told.says, *inside)
    rows = [
        (p.name, written(p.read, digits), written(p.remains, digits + 1, plus=True), "")
        for p in places
    ]
    rows += [(e.name, written(e.over, digits, plus=True), "", e.says) for e in (side, nod)]
    return Picture(svg, Twin(told.head, tuple(rows), told.title), told.says)


def around(azimuth_deg: float, radius: float) -> tuple[float, float]:
    """A point around the circle's middle, the front at the bottom."""
    turn = math.radians(azimuth_deg)
    return MIDDLE[0] + radius * math.cos(turn), MIDDLE[1] - radius * math.sin(turn)


def _low(side: float, nod: float, says: str) -> str:
    """The low side of the circle; none of a circle that is level."""
    if not math.hypot(side, nod):
        return ""
    at = math.degrees(math.atan2(-nod, side))
    arc = math.degrees(_LOW_ARC)
    points = [around(at - arc + arc * i / 6.0, RADIUS) for i in range(13)]
    x, y = around(at, RADIUS - 26.0)
    thick = marks.path(marks.through(points), "limit")
    return thick + marks.words(x, y + 5.0, says, "word", "middle")


def _ends(told: SweptWords) -> Iterator[str]:
    names = (told.right, told.back, told.left, told.front)
    for azimuth, name in zip((0.0, 90.0, 180.0, 270.0), names, strict=True):
        x, y, anchor = _beside(azimuth)
        yield marks.words(x, y - 4.0, name, "soft", anchor)


def _places(places: Sequence[SweptAt], digits: int) -> Iterator[str]:
    furthest = _furthest(places, digits)
    for each in places:
        start = around(each.azimuth_deg, RADIUS)
        yield marks.group("marks", marks.path(marks.dot(*start, 3.5)))
        if furthest:
            end = around(each.azimuth_deg, RADIUS + FURTHEST * each.remains / furthest)
            yield marks.line(*start, *end, "limit")
        x, y, anchor = _beside(each.azimuth_deg)
        yield marks.words(x, y + 12.0, written(each.read, digits), "word", anchor)


def _beside(azimuth_deg: float) -> tuple[float, float, marks.Anchor]:
    """Where the words of a place stand."""
    x, y = around(azimuth_deg, RADIUS + FURTHEST + 8.0)
    across = math.cos(math.radians(azimuth_deg))
    down = 6.0 * -math.sin(math.radians(azimuth_deg))
    if abs(across) < 0.3:
        return x, y + 2.0 * down, "middle"
    return x, y + down, "start" if across > 0.0 else "end"


def _furthest(places: Sequence[SweptAt], digits: int) -> float:
    """What remains at most, as far as the decimals show: of less no bar is drawn."""
    most = max((abs(each.remains) for each in places), default=0.0)
    return most if float(written(most, digits + 1)) else 0.0


def _legend(told: SweptWords, *, off: bool) -> Iterator[str]:
    """What a dashed line is, and what a bar around the circle."""
    rows = [("control", told.allowed)]
    if off:
        rows.append(("limit", told.remains))
    for i, (kind, says) in enumerate(rows):
        y = HEIGHT - 34.0 + 20.0 * i
        yield marks.line(10.0, y - 5.0, 10.0 + FURTHEST, y - 5.0, kind)
        yield marks.words(18.0 + FURTHEST, y, says, "soft")


def _edges(side: Edge, nod: Edge) -> Iterator[str]:
    """Both edges, as steep as each other where they lean alike."""
    limits = (limit for each in (side, nod) for limit in (each.low, each.high) if limit)
    most = max(abs(side.over), abs(nod.over), *map(abs, limits))
    for edge, flat in ((side, True), (nod, False)):
        drawn = [(0.0, "base"), (edge.low, "control"), (edge.high, "control"), (edge.over, "limit")]
        for lean, kind in drawn:
            if lean is not None:
                yield marks.line(*_edge(STEEPEST * lean / most if most else 0.0, flat=flat), kind)
    yield marks.words(MIDDLE[0], BELOW + STEEPEST + 18.0, side.says, "word", "middle")
    yield marks.words(WIDTH - 6.0, MIDDLE[1] + EDGE + 22.0, nod.says, "word", "end")


def _edge(off: float, *, flat: bool) -> tuple[float, float, float, float]:
    """An edge whose right end, or front, is so much lower than square."""
    x, y = MIDDLE
    if flat:
        return x - EDGE, BELOW - off, x + EDGE, BELOW + off
    return ASIDE - off, y - EDGE, ASIDE + off, y + EDGE
