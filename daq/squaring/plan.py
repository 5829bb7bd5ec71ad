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

    `off`: how far from where it is to be before its bolts are tight, and `doubt` of that; `near`:
    the doubt once it was read where the gauge is parked for it. `later`: what is still to happen
    to it and no reading of it now can show: tightening, the other axis's move, all that the
    proving sweep is in doubt by. `reads`: how well its pair tells where it stands. `leaves`: what
    a turn leaves of where it began, `far` so of all that is to be turned now; `settles`: of either
    what is left in doubt once the parked place was read again. `half`: how far off it may be. All
    but `off` and `half` are standard deviations.
    """

    off: float
    doubt: float
    near: float
    later: float
    reads: float
    leaves: float
    far: float
    settles: tuple[float, float]
    half: float


@dataclass(frozen=True, slots=True)
class Steps:
    """What the ways on take, seconds.

    `near`: its parked place read from where the gauge stands, `across`: the other end after it.
    `move`: parked for it from there, and turned; `onward`: the same after the pair. `again`: all
    that follows a sweep that does not prove it.
    """

    near: float
    across: float
    move: float
    onward: float
    again: float


@dataclass(frozen=True, slots=True)
class Ways:
    """What each way on costs, seconds: `left` as it stands, read by its `pair`, `turned`.

    `likely`: how likely the axis is in if it is left.
    """

    left: float
    pair: float
    turned: float
    likely: float


def ways(axis: AxisStands, cost: Steps) -> Ways:
    """Return what each way on with an axis costs."""
    likely = inside(axis.off, math.hypot(axis.doubt, axis.later), axis.half)
    small = _ended(axis, axis.leaves, axis.settles[0], cost)
    far = _ended(axis, math.hypot(axis.near, axis.far), math.hypot(*axis.settles), cost)
    again, on = cost.again + max(small, far), cost.onward + small
    pair = _pair(axis, (axis.off, axis.doubt, axis.near), cost, on, again)
    return Ways((1.0 - likely) * again, pair, cost.move + far, likely)


def inside(off: float, sd: float, half: float) -> float:
    """Return how likely what stands `off`, in doubt by `sd`, lies within ± `half`."""
    if sd <= 0.0:
        return 1.0 if abs(off) <= half else 0.0
    return normal_cdf((half - off) / sd) - normal_cdf((-half - off) / sd)


def _ended(axis: AxisStands, doubt: float, near: float, cost: Steps) -> float:
    """What it still costs once a turn has ended, in so much doubt: left so, or its pair read."""
    small = math.hypot(axis.leaves, axis.later)
    once_more = cost.onward + (1.0 - inside(0.0, small, axis.half)) * cost.again
    missed = (1.0 - inside(0.0, math.hypot(doubt, axis.later), axis.half)) * cost.again
    return min(missed, _pair(axis, (0.0, doubt, min(near, doubt)), cost, once_more, cost.again))


def _pair(
    axis: AxisStands, stands: tuple[float, float, float], cost: Steps, on: float, again: float
) -> float:
    """What reading the pair costs, and what is better then; its other end only where that pays.

    `stands`: off, in doubt by, and by how much once the parked place was read; `on`: what it costs
    to turn the axis after the pair.
    """
    off, doubt, near = stands
    spread, sd = math.sqrt(max(doubt * doubt - near * near, 0.0)), math.hypot(near, axis.later)
    total = cost.near
    for node, weight in _nodes():
        at = off + spread * node
        left = (1.0 - inside(at, sd, axis.half)) * again
        if left > cost.across:
            left = min(left, cost.across + _read(axis, at, near, on, again))
        total += weight * left
    return total


def _read(axis: AxisStands, off: float, doubt: float, on: float, again: float) -> float:
    """What is better once both ends were read, on average over what they may read."""
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
