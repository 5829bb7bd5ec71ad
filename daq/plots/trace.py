"""The live number over time: the samples behind a reading, and its way during a move."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from daq.plots import marks
from daq.plots.frame import Frame, Level, beside, heights, key, levels, nothing
from daq.plots.picture import Picture, Twin
from daq.plots.scale import Ruler, scale, written

FRAME: Final = Frame(560.0, 320.0, 76.0, 410.0, 58.0, 278.0)
MOST: Final = 240
"""So many samples are drawn one by one; of more, the extremes of equal stretches of time."""
_ROWS: Final = 5
_SECONDS: Final = 6
_DOTS: Final = 60
_DIGITS_S: Final = 2
_LEAST_S: Final = 0.1


@dataclass(frozen=True, slots=True)
class NumberAt:
    """A number that came: seconds since the trace began, its value, and what was flagged of it."""

    at_s: float
    value: float
    flags: str = ""


@dataclass(frozen=True, slots=True)
class DoneAt:
    """Something that was done at a time, such as a bolt pulled up."""

    at_s: float
    says: str


@dataclass(frozen=True, slots=True)
class TraceWords:
    """The words. `seconds`: of the axis below; `flagged`: what a hollow mark is.

    `empty`: where there are no samples; `head`: time, value, remarks.
    """

    title: str
    says: str
    seconds: str
    empty: str
    flagged: str
    head: tuple[str, str, str]


def trace(
    seen: Sequence[NumberAt],
    lines: Sequence[Level],
    told: TraceWords,
    digits: int,
    window: tuple[float, float] | None = None,
    steps: Sequence[DoneAt] = (),
) -> Picture:
    """Draw what came, in order of time, against lines across.

    `window`: from when to when the reading was taken.

    Raises:
        ValueError: a value that is not finite.
    """
    shown = thinned(seen)
    times = [0.0, _LEAST_S, *(each.at_s for each in shown), *(each.at_s for each in steps)]
    along = scale(times, FRAME.left, FRAME.right, _SECONDS)
    values = [each.value for each in shown] + [each.value for each in lines]
    up = scale(values, FRAME.bottom, FRAME.top, _ROWS, 2.0 * 10.0**-digits)
    inside = (
        _window(window, along) if shown else "",
        heights(FRAME, up),
        *_seconds(along, told.seconds),
        levels(FRAME, up, lines),
        beside(FRAME, up, lines),
        *_line(shown, along, up),
        *_steps(steps, along),
        key(FRAME, (("hollow", marks.dot, told.flagged if any(s.flags for s in shown) else ""),)),
        "" if shown else nothing(FRAME, told.empty),
    )
    svg = marks.drawing("trace", FRAME.width, FRAME.height, told.title, told.says, *inside)
    return Picture(
        svg, Twin(told.head, tuple(_rows(shown, lines, steps, digits)), told.title), told.says
    )


def thinned(seen: Sequence[NumberAt]) -> tuple[NumberAt, ...]:
    """Return them all if they are few; else the first, the last, every flagged one, and the lowest
    and the highest of equal stretches of time: no peak is lost."""
    if len(seen) <= MOST:
        return tuple(seen)
    first, last = seen[0], seen[-1]
    stretch = (last.at_s - first.at_s) / (MOST / 2.0) or 1.0
    kept = {0, len(seen) - 1} | {i for i, each in enumerate(seen) if each.flags}
    numbered = enumerate(seen)
    for _, part in groupby(numbered, key=lambda each: (each[1].at_s - first.at_s) // stretch):
        there = list(part)
        kept.add(min(there, key=lambda each: each[1].value)[0])
        kept.add(max(there, key=lambda each: each[1].value)[0])
    return tuple(seen[i] for i in sorted(kept))


def _window(window: tuple[float, float] | None, along: Ruler) -> str:
    if window is None:
        return ""
    start, end = (along.at(each) for each in window)
    return marks.rect(start, FRAME.top, max(end - start, 2.0), FRAME.bottom - FRAME.top, "window")


def _seconds(along: Ruler, says: str) -> Iterator[str]:
    for tick in along.ticks:
        x = along.at(tick)
        yield marks.line(x, FRAME.bottom, x, FRAME.bottom + 5.0, "base")
        yield marks.words(x, FRAME.bottom + 21.0, written(tick, along.digits), "soft", "middle")
    yield marks.words(FRAME.right + 28.0, FRAME.bottom + 21.0, says, "soft")


def _line(shown: Sequence[NumberAt], along: Ruler, up: Ruler) -> Iterator[str]:
    """The number's way, with a dot for each that came where they are few."""
    points = [(along.at(each.at_s), up.at(each.value)) for each in shown]
    if len(points) > 1:
        yield marks.path(marks.through(points), "scribe")
    placed = tuple(zip(points, shown, strict=True))
    few = len(shown) <= _DOTS
    dots = "".join(marks.dot(*at, 2.5) for at, each in placed if few and not each.flags)
    flagged = "".join(marks.dot(*at, 4.0) for at, each in placed if each.flags)
    if dots:
        yield marks.group("marks", marks.path(dots))
    if flagged:
        yield marks.group("marks", marks.path(flagged, "hollow"))


def _steps(steps: Sequence[DoneAt], along: Ruler) -> Iterator[str]:
    """When each was done, its name above the frame; names take turns in three rows."""
    for i, each in enumerate(steps):
        x, y = along.at(each.at_s), FRAME.top - 5.0 - 16.0 * (i % 3)
        yield marks.line(x, y + 3.0, x, FRAME.bottom, "control left")
        yield marks.words(x, y, each.says, "soft", "middle")


def _rows(
    shown: Sequence[NumberAt], lines: Sequence[Level], steps: Sequence[DoneAt], digits: int
) -> Iterator[tuple[str, str, str]]:
    """What the lines are, then everything in order of time."""
    for line in lines:
        yield line.says, written(line.value, digits + line.finer), ""
    rows = [(each.at_s, 0, written(each.value, digits), each.flags) for each in shown]
    rows += [(each.at_s, 1, "", each.says) for each in steps]
    for at_s, _, value, remark in sorted(rows, key=lambda row: row[:2]):
        yield written(at_s, _DIGITS_S), value, remark
