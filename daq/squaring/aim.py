"""Which axis to move next, and the lean to stop at so that the other's move lands it.

Moves answer each other: turning one axis by δ changes the other lean by κ·δ. When both
are still to be moved, the first is aimed at where the second's cross-talk will finish it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from daq.squaring.response import Standing
from daq.words import OTHER, Axis

_SPOILT = 0.25
"""The other axis goes first when what it may do to this one, one standard deviation, is
more than this part of this one's limit."""


@dataclass(frozen=True, slots=True)
class Goal:
    """What one axis is to reach: the wanted lean once its bolts are tight, and how near.

    `wanted` and `limit` are slopes, `limit` above zero; `shift` is the slope that
    tightening is still expected to add.
    """

    wanted: float
    limit: float
    shift: float = 0.0

    @property
    def before_tight(self) -> float:
        """The lean to have before the bolts are pulled up."""
        return self.wanted - self.shift


def aim(standing: Standing, goals: Mapping[Axis, Goal], axis: Axis, others: bool) -> float:
    """Return the lean at which to stop turning `axis`, slope.

    With `others` the other axis will be moved after this one; its cross-talk is then
    what still brings this one home.
    """
    own = goals[axis].before_tight - standing.lean(axis)
    if not others:
        return standing.lean(axis) + own
    other = OTHER[axis]
    answering = standing.answering
    away = goals[other].before_tight - standing.lean(other)
    to_own, to_other = answering.coupling(other), answering.coupling(axis)
    # own + to_own · (turn of other) = turn of this one, and the same the other way round.
    turn = (own - to_own * away) / (1.0 - to_own * to_other)
    return standing.lean(axis) + turn


def spoils(standing: Standing, goals: Mapping[Axis, Goal], axis: Axis) -> bool:
    """Return whether the other axis's move may throw `axis` out again, by too much to aim for.

    True while it is not known how the other's turn answers here: then it goes first, and
    this axis is finished when its answer is known.
    """
    return cross_doubt(standing, goals, axis) > _SPOILT * goals[axis].limit


def cross_doubt(standing: Standing, goals: Mapping[Axis, Goal], axis: Axis) -> float:
    """Return in how much doubt it is what the other axis's move does to `axis`, slope, one sd."""
    other = OTHER[axis]
    turn = goals[other].before_tight - standing.lean(other)
    return abs(turn) * standing.answering.coupling_doubt(other)
