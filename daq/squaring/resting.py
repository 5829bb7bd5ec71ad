"""What an axis does when the hand leaves it, and how near a hand stops it to a reading.

A head goes back against the way it was last turned: what was bent or pressed together comes
home. How far a parked gauge sees it go back, and by which angle, are the same thing at one
sweep radius, and a machine's file has one. Where it changes, nobody has said which of the two
stays: an angle would (a rigid head knows nothing of the gauge), and so would a length at the
place that is held still by hand. It is kept as the geometric mean of both, which is off by the
root of what either is off by where the other is true: 13 % (one standard deviation) over radii
from 60 to 150 mm on a pivot at the spindle.
"""

import math
from collections.abc import Iterator
from itertools import takewhile
from typing import Final

from daq.squaring.advice import pivot_from_parked, sees_nothing, sensitivity
from daq.squaring.story import Happened, Seen, Story
from daq.squaring.tightening import Habit, ShiftStats
from daq.words import PARKED, Axis

RESTS: Final = Habit(mean_sd=0.006 / 200.0, scatter=0.0015 / 200.0)
"""What heads do in general when the hand leaves: 8 µm are learned from one move (common
practice, no source)."""
LATER: Final = Habit(mean_sd=0.003 / 200.0)
"""What they still do until their bolts are tight (common practice, no source); of a creep that
takes a minute that is most of it."""
STOPS: Final = Habit(mean_sd=0.0, scatter=0.0012)
"""How near a hand stops an adjuster to a reading, mm at the gauge (common practice, no source)."""
_SEES_MM = 200.0
"""A gauge that moves so much for each unit of slope sees the angle and the length alike."""


def share(radius_mm: float, pivot_mm: float) -> float:
    """Return what a rest learned as a slope is here, as a multiple of it."""
    return math.sqrt(_SEES_MM / (radius_mm + abs(pivot_mm)))


def around(story: Story, axis: Axis) -> Iterator[tuple[Happened, Seen, Seen]]:
    """Yield each time an axis was let go under the gauge, with what it read before and after.

    After: once it stood there again, with nothing done to the head in between.
    """
    for i, rested in enumerate(story[1:], 1):
        if not isinstance(rested, Happened) or (rested.what, rested.axis) != ("rested", axis):
            continue
        before = story[i - 1]
        since = takewhile(lambda entry: isinstance(entry, Seen), story[i + 1 :])
        if isinstance(before, Seen):
            again = (e for e in since if isinstance(e, Seen) and e.position == before.position)
            after = next(again, None)
            if after is not None:
                yield rested, before, after


def fell_back(story: Story, axis: Axis, radius_mm: float, pivot_mm: float) -> Iterator[float]:
    """Yield how far an axis went back each time it was let go under the parked gauge.

    Slopes as `share` counts them, above zero against the way it was turned; `pivot_mm` as its
    usual parked place sees it.
    """
    for rested, before, after in around(story, axis):
        away_mm = pivot_from_parked(axis, after.position, pivot_mm)
        if not rested.way or sees_nothing(radius_mm, away_mm):
            continue
        toward = (after.pushed_mm - before.pushed_mm) / sensitivity(radius_mm, away_mm)
        lean = toward if after.position == PARKED[axis] else -toward
        yield -rested.way * lean / share(radius_mm, pivot_mm)


def late_by(stats: ShiftStats, scatter: float) -> float:
    """Return by how much a hand goes past what it is told on average, as far as that is known.

    The mean of what was seen, less as it may be chance: times 1 − s²/(n·mean²), never below
    zero (the positive-part estimator of James and Stein, textbook).
    """
    if not stats.n or not stats.mean:
        return 0.0
    return stats.mean * max(0.0, 1.0 - scatter**2 / (stats.n * stats.mean**2))
