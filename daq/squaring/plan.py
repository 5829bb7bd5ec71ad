"""What each next step costs until the verdict is signed, seconds on average.

An axis is read in by the sweep that proves it, or it is not and all of it is done once more:
cracked, parked for, turned, tightened and swept. From where the axis stands, how well that is
known and what is still to happen to it follows how likely that is (normal distributions); from
that, whether it pays to read its pair, to turn it, or to leave it as it stands. It looks ahead
past one reading and two turns: a third is as good as the second.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np

from daq.metrology.student import normal_cdf

_NODES: Final = 11


@dataclass(frozen=True, slots=True)
class AxisStands:
    """One axis, mm across the sweep, as it would be if it were left as it stands.

    `off`: how far from where it is to be before its bolts are tight, and `doubt` of that;
    `parked`: the doubt once it was read where the gauge is parked for it. `later`: what is still
    to happen to it and no reading of it now can show: tightening, the other axis's move, the
    proving sweep's own scatter. `reads`: how well its pair tells where it stands. `leaves`: what
    a turn leaves of where it began, `far` so of all that is to be turned now. `half`: how far off
    it may be. All but `off` and `half` are standard deviations.
    """

    off: float
    doubt: float
    parked: float
    later: float
    reads: float
    leaves: float
    far: float
    half: float


@dataclass(frozen=True, slots=True)
class Steps:
    """What the ways on take, seconds.

    `pair`: its pair read from where the gauge stands; `move`: parked from there, and turned;
    `onward`: the same after the pair. `again`: all that follows a sweep that does not prove it.
    """

    pair: float
    move: float
    onward: float
    again: float


@dataclass(frozen=True, slots=True)
class Ways:
    """What each way on costs, seconds: `left` as it stands, read by its `pair`, `turned`.

    `likely`: how likely the axis is read in if it is left.
    """

    left: float
    pair: float
    turned: float
    likely: float


def ways(axis: AxisStands, cost: Steps) -> Ways:
    """Return what each way on with an axis costs."""
    likely = inside(axis.off, math.hypot(axis.doubt, axis.later), axis.half)
    small, far = (_ended(axis, sd, cost) for sd in (axis.leaves, math.hypot(axis.parked, axis.far)))
    again = cost.again + max(small, far)
    pair = cost.pair + _read(axis, axis.off, axis.doubt, cost.onward + small, again)
    return Ways((1.0 - likely) * again, pair, cost.move + far, likely)


def inside(off: float, sd: float, half: float) -> float:
    """Return how likely what stands `off`, in doubt by `sd`, lies within ± `half`."""
    if sd <= 0.0:
        return 1.0 if abs(off) <= half else 0.0
    return normal_cdf((half - off) / sd) - normal_cdf((-half - off) / sd)


def _ended(axis: AxisStands, doubt: float, cost: Steps) -> float:
    """What it still costs once a turn has ended, in so much doubt: left so, or its pair read."""
    missed = (1.0 - inside(0.0, math.hypot(doubt, axis.later), axis.half)) * cost.again
    small = math.hypot(axis.leaves, axis.later)
    once_more = cost.onward + (1.0 - inside(0.0, small, axis.half)) * cost.again
    return min(missed, cost.pair + _read(axis, 0.0, doubt, once_more, cost.again))


def _read(axis: AxisStands, off: float, doubt: float, on: float, again: float) -> float:
    """What is better once the pair was read, on average over what it may read.

    `on`: what it costs to turn the axis then.
    """
    if doubt <= 0.0:
        return min((1.0 - inside(off, axis.later, axis.half)) * again, on)
    known = doubt * axis.reads / math.hypot(doubt, axis.reads)
    spread, sd = math.sqrt(doubt * doubt - known * known), math.hypot(known, axis.later)
    return math.fsum(
        weight * min((1.0 - inside(off + spread * node, sd, axis.half)) * again, on)
        for node, weight in _nodes()
    )


@lru_cache(maxsize=1)
def _nodes() -> tuple[tuple[float, float], ...]:
    """Where a normal distribution is looked at, and what each counts (Gauss and Hermite)."""
    at, weight = np.polynomial.hermite_e.hermegauss(_NODES)
    return tuple(zip(at.tolist(), (weight / weight.sum()).tolist(), strict=True))
