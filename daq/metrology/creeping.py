"""Whether a number that nobody touches still creeps, how far it will, and how long that takes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from daq.metrology.run import newest_run
from daq.words import Sample

_NS: Final = 1e9
LONG_S: Final = 30.0
"""No more of the past is looked at."""
_SHORT_S: Final = 4.0
"""In less no creep can be told from a flicker (common practice, no source)."""
_FAST_S: Final = 5.0
"""A hand still turns where the number goes by more counts than this in a second, or µm."""
_PARTS: Final = 9
_LEAST_COUNTS: Final = 2.2
"""A number that stands between two counts may change over once: a line through that rises by one
and a half."""
_CLEAR: Final = 4.0
"""Standard deviations by which a walk is none by chance."""
_SLOWEST: Final = 0.9
"""A creep that hardly slows down within what was seen may go on for ever: taken to slow down so."""
_WAIT_S: Final = 5
"""Seconds to wait are told by so many."""


@dataclass(frozen=True, slots=True)
class Creep:
    """A creep: what is left of it, signed, mm on the face, in how much doubt, and how long that
    takes.

    `wait_s`: until less than a count is left.
    """

    left_mm: float
    doubt_mm: float
    wait_s: float


def by_fives(wait_s: float) -> int:
    """Return the seconds to wait as people are told them, five at least."""
    return _WAIT_S * max(math.ceil(wait_s / _WAIT_S), 1)


def creeping(samples: Sequence[Sample], count_mm: float) -> Creep | None:
    """Return how a number still creeps since the hand left it; None when it does not.

    A straight line through the newest seconds must rise clearly, against the gauge's count and
    its flicker. How it dies away is told by thirds of that time: of an exponential each next walk
    is the same part of the one before (textbook), and so is all that is left.
    """
    times, values = _let_go(newest_run(samples), count_mm)
    if not len(times) or times[-1] - times[0] < _SHORT_S:
        return None
    seconds = float(times[-1] - times[0])
    parts = np.minimum((_PARTS * (times - times[0]) / seconds).astype(int), _PARTS - 1)
    if len(set(parts.tolist())) < _PARTS:
        return None
    means = np.array([values[parts == i].mean() for i in range(_PARTS)])
    flicker = math.sqrt(np.mean([values[parts == i].var() for i in range(_PARTS)]))
    one_mm = max(count_mm / math.sqrt(12.0), flicker)
    # Of a line through n means evenly spread, what it rises by is in doubt by about √(12/n).
    at = np.linspace(-0.5, 0.5, _PARTS)
    walk_mm = float(at @ means / (at @ at)) * _PARTS / (_PARTS - 1)
    least_mm = max(_CLEAR * one_mm * math.sqrt(12.0 / _PARTS), _LEAST_COUNTS * count_mm)
    if abs(walk_mm) < least_mm:
        return None
    return _tail(means, seconds / 3.0, count_mm)


def _tail(means: np.ndarray, third_s: float, count_mm: float) -> Creep | None:
    """What is left of a creep, by the walks from the first third to the second, and to the last."""
    first, second, last = (float(third.mean()) for third in np.split(means, 3))
    before, after = second - first, last - second
    if before * after <= 0.0:
        return None
    ratio = min(after / before, _SLOWEST)
    parts, per_third = ratio / (1.0 - ratio), -math.log(ratio)
    left_mm = after * parts * parts * per_third
    lasts_s = third_s / per_third
    wait_s = lasts_s * math.log(max(abs(left_mm) / count_mm, 1.0))
    return Creep(left_mm, max(0.5 * abs(left_mm), count_mm), wait_s)


def _let_go(samples: Sequence[Sample], count_mm: float) -> tuple[np.ndarray, np.ndarray]:
    """Seconds and numbers since the number last went as fast as a hand turns it."""
    since_ns = samples[-1].mono_ns - LONG_S * _NS if samples else 0
    recent = [s for s in samples if s.mono_ns >= since_ns]
    times = np.array([(s.mono_ns - since_ns) / _NS for s in recent])
    values = np.array([s.value_mm for s in recent])
    if not len(times):
        return times, values
    later = np.minimum(np.searchsorted(times, times + 1.0), len(times) - 1)
    fast = np.abs(values[later] - values) > _FAST_S * max(count_mm, 0.001)
    begin = int(later[np.flatnonzero(fast)[-1]]) if fast.any() else 0
    return times[begin:], values[begin:]
