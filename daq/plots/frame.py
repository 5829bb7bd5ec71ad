"""What the pictures over audits and over time share: the frame, its lines and what is beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from daq.plots import marks
from daq.plots.scale import Ruler, written

_LINE: Final = 17.0
"""From one line of words to the next."""
_DATE: Final = 104.0
"""A date and the room around it."""
_LETTER: Final = 7.6
"""About so wide is a letter."""
_ROOM: Final = 36.0
"""A mark before its words, and the room after them."""
_HALF: Final = 4.5
_LEAST_HALF: Final = 1.5

Shape = Callable[[float, float, float], str]
"""A mark's path around a point, so large."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A picture's size and, inside it, where values are drawn."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Level:
    """A line across: its value, what it is, and the class it is drawn by.

    `finer`: by so many decimals more it is written.
    """

    value: float
    says: str
    kind: str
    finer: int = 0


def columns(frame: Frame, count: int, widest: float) -> tuple[tuple[float, ...], float]:
    """Where each of so many audits stands, the newest at the right, and how far apart they are."""
    apart = min((frame.right - frame.left) / max(count, 1), widest)
    first = frame.right - apart * (count - 0.5)
    return tuple(first + apart * i for i in range(count)), apart


def half_of(apart: float) -> float:
    """Half of a mark, so that neighbours do not meet."""
    return min(_HALF, max(round(apart * 0.45), _LEAST_HALF))


def column(key: str, x: float, apart: float, says: str, href: str, body: str) -> str:
    """One audit's marks with what they say; with `href` its whole column is the link."""
    if not href:
        return marks.told(says, body)
    return marks.told(says, marks.pressed(key, x - apart / 2.0), body, href=href)


def key(frame: Frame, kinds: Sequence[tuple[str, Shape, str]]) -> str:
    """What marks mean, above the frame's newest end: class, shape and words; none without words."""
    told = [each for each in kinds if each[2]]
    x = frame.right - sum(_ROOM + _LETTER * len(says) for _, _, says in told)
    drawn = []
    for kind, shape, says in told:
        drawn.append(marks.group("marks", marks.path(shape(x, frame.top - 20.0, 5.0), kind)))
        drawn.append(marks.words(x + 12.0, frame.top - 15.0, says))
        x += _ROOM + _LETTER * len(says)
    return "".join(drawn)


def heights(frame: Frame, up: Ruler) -> str:
    """The grid with its numbers at the left; the line at zero is drawn as a base."""
    lines, labels = [], []
    for tick in up.ticks:
        y = up.at(tick)
        kind = "grid" if tick else "base"
        lines.append(marks.line(frame.left, y, frame.right, y, kind))
        labels.append(marks.words(frame.left - 8, y + 5, written(tick, up.digits), "soft", "end"))
    return "".join((*lines, *labels))


def dates(frame: Frame, at: Sequence[float], days: Sequence[str]) -> str:
    """The days of as many audits as there is room for below, the newest always."""
    told, free = [], frame.right + _DATE
    for x, day in zip(reversed(at), reversed(days), strict=True):
        if x > free - _DATE or x - _DATE / 2.0 < frame.left - _DATE / 2.0:
            continue
        free = x
        place = min(x, frame.width - _DATE / 2.0)
        told.append(marks.line(x, frame.bottom, x, frame.bottom + 5, "base"))
        told.append(marks.words(place, frame.bottom + 21, day, "soft", "middle"))
    return "".join(told)


def levels(frame: Frame, up: Ruler, lines: Sequence[Level]) -> str:
    """Lines across."""
    return "".join(
        marks.line(frame.left, up.at(each.value), frame.right, up.at(each.value), each.kind)
        for each in lines
        if not up.beyond(each.value)
    )


def beside(frame: Frame, up: Ruler, lines: Sequence[Level], *, between: bool = False) -> str:
    """What lines across are, at the right; words that would meet are moved apart.

    `between`: they keep off the words of both `ends`.
    """
    shown = sorted((up.at(each.value), each.says) for each in lines if each.says)
    low, high = frame.top, frame.bottom
    if between:
        low, high = low + _LINE, high - 1.5 * _LINE
    placed = apart([y for y, _ in shown], _LINE, low, high)
    return "".join(
        marks.words(frame.right + 8, y + 5, says)
        for y, (_, says) in zip(placed, shown, strict=True)
    )


def apart(at: Sequence[float], least: float, low: float, high: float) -> list[float]:
    """Places in order, moved so that no two are nearer than that, from `low` on; up to `high`
    where there is room."""
    placed: list[float] = []
    for y in at:
        placed.append(max(y, placed[-1] + least if placed else low))
    end = high
    for i in reversed(range(len(placed))):
        placed[i] = max(min(placed[i], end), low + least * i)
        end = placed[i] - least
    return placed


def ends(frame: Frame, high: str, low: str) -> str:
    """Which way the values above go, and those below: at the right, where the newest stand."""
    x = frame.right + 8.0
    return marks.words(x, frame.top, high, "soft") + marks.words(x, frame.bottom, low, "soft")


def nothing(frame: Frame, says: str) -> str:
    """The words of a picture that has nothing to show yet."""
    x, y = (frame.left + frame.right) / 2.0, (frame.top + frame.bottom) / 2.0
    return marks.words(x, y, says, "soft", "middle")
