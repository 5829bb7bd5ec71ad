"""Six drawings of a mill's head, each with a tape along one length that its file wants."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from daq.plots import marks

Measured = Literal["surface", "radius", "side_pivot", "side_height", "nod_pivot", "nod_height"]

WIDTH, HEIGHT = 300.0, 215.0
_AXIS, _TOP, _NOSE, _CONTACT, _SWEPT, _GROUND = 150.0, 20.0, 105.0, 168.0, 170.0, 182.0
_END = 7.0


@dataclass(frozen=True, slots=True)
class TapeWords:
    """What stands at the parts, and what the drawing shows, in a sentence."""

    title: str
    says: str
    spindle: str
    pivot: str
    swept: str


def tape(what: Measured, told: TapeWords) -> str:
    """Draw it, as SVG."""
    inside = _DRAWN[what](told)
    return marks.drawing("tape", WIDTH, HEIGHT, told.title, told.says, *inside)


def _along(x1: float, y1: float, x2: float, y2: float) -> str:
    """The tape, level or upright, with a stroke across each end."""
    level = y1 == y2
    dx, dy = (0.0, _END) if level else (_END, 0.0)
    ends = (marks.line(x - dx, y - dy, x + dx, y + dy) for x, y in ((x1, y1), (x2, y2)))
    return marks.group("tape", marks.line(x1, y1, x2, y2), *ends)


def _table(told: TapeWords) -> tuple[str, ...]:
    """The table, what is swept on it, and its name."""
    return (
        marks.rect(20, _GROUND, 260, 14, "window"),
        marks.rect(60, _SWEPT, 180, _GROUND - _SWEPT, "base"),
        marks.words(280, 210, told.swept, anchor="end"),
    )


def _spindle(x: float, told: TapeWords, *, right: bool = True) -> tuple[str, ...]:
    """The head with its spindle's axis, and the arm down to what is swept."""
    name = (
        marks.words(x + 8, 34, told.spindle)
        if right
        else marks.words(x - 8, 34, told.spindle, anchor="end")
    )
    return (
        marks.rect(x - 22, 40, 44, 50, "base"),
        marks.rect(x - 8, 90, 16, _NOSE - 90, "base"),
        marks.line(x, _TOP, x, _SWEPT, "control"),
        name,
    )


def _pivot(x: float, y: float, name: str) -> tuple[str, ...]:
    return (
        marks.circle(x, y, 6, "scribe"),
        marks.line(x - 10, y, x + 10, y, "scribe"),
        marks.line(x, y - 10, x, y + 10, "scribe"),
        marks.words(x, y - 24, name, anchor="middle"),
    )


def _surface(told: TapeWords) -> tuple[str, ...]:
    arm = marks.path(marks.through([(_AXIS, _NOSE), (90, _NOSE), (90, _CONTACT)]), "scribe")
    foot = marks.path(marks.dot(90, _CONTACT, 3), "marks")
    under = marks.group("tape", marks.line(60, _SWEPT, 240, _SWEPT))
    return (*_table(told), *_spindle(_AXIS, told), arm, foot, under)


def _radius(told: TapeWords) -> tuple[str, ...]:
    """From above."""
    return (
        marks.rect(20, 15, 260, 170, "window"),
        marks.circle(_AXIS, 100, 75, "base"),
        marks.circle(_AXIS, 100, 14, "scribe"),
        marks.path(marks.dot(_AXIS + 75, 100, 4), "marks"),
        marks.words(_AXIS, 78, told.spindle, anchor="middle"),
        marks.words(280, 205, told.swept, anchor="end"),
        _along(_AXIS, 100, _AXIS + 75, 100),
    )


def _side_pivot(told: TapeWords) -> tuple[str, ...]:
    """From the front: the pivot stands to the left of the spindle."""
    pivot = _pivot(105, 65, told.pivot)
    return (*_table(told), *_spindle(_AXIS, told), *pivot, _along(105, 100, _AXIS, 100))


def _side_height(told: TapeWords) -> tuple[str, ...]:
    pivot = (*_pivot(_AXIS, 65, ""), marks.words(180, 70, told.pivot))
    down = _along(105, 65, 105, _SWEPT)
    reach = marks.line(105, 65, _AXIS, 65, "grid")
    table = _table(told)
    return (*table, *_spindle(_AXIS, told), *pivot, reach, down)


def _nod_pivot(told: TapeWords) -> tuple[str, ...]:
    """From the right: the front is at the left hand, the pivot behind the spindle."""
    return (*_behind(told), _along(125, 125, 215, 125), marks.line(215, 75, 215, 125, "grid"))


def _nod_height(told: TapeWords) -> tuple[str, ...]:
    return (*_behind(told), _along(215, 65, 215, _SWEPT))


def _behind(told: TapeWords) -> tuple[str, ...]:
    arm = marks.path(marks.through([(147, 50), (270, 50), (270, 80), (147, 80)]), "base")
    table, spindle = _table(told), _spindle(125, told, right=False)
    return (*table, arm, *spindle, *_pivot(215, 65, told.pivot))


_DRAWN: Final[Mapping[Measured, Callable[[TapeWords], tuple[str, ...]]]] = MappingProxyType(
    {
        "surface": _surface,
        "radius": _radius,
        "side_pivot": _side_pivot,
        "side_height": _side_height,
        "nod_pivot": _nod_pivot,
        "nod_height": _nod_height,
    }
)
SIX: Final = tuple(_DRAWN)
