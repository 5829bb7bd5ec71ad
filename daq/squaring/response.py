"""How one head answers: what a move does, learned from everything that was read of it.

A turn of one adjuster changes its own lean by δ. To first order the other lean then
changes by κ·δ, and the middle of the sweep circle by P·δ − h·(√(1 + t'²) − √(1 + t²)),
t and t' being its own lean before and after. For a hinge through (x, y) at height h above
the surface, P is −x + κ·y for side and +y − κ·x for nod: the distance at which the
parked gauge sees the move, less the sweep radius, so that none of these depends on the
sweep (rigid-body geometry). Pulling up the bolts adds a shift to the own lean that has a
mean of its own on each head, from check to check; and an axis that the hand leaves goes back
against the way it was turned, by a mean of its own (`resting`).

These twelve are found together with the leans and the middle of the circle at every moment, as
the most probable values given the prior and all readings (maximum posterior: Gauss–Newton
on whitened residuals, a textbook method). Lengths mm, leans slopes, κ slope per slope.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from daq.squaring.equations import (
    FIRST,
    LATE,
    OWN,
    PARAMETERS,
    REST,
    SHIFT,
    Doubt,
    Equations,
    Matrix,
    Scatter,
    reading_row,
)
from daq.squaring.story import Story
from daq.words import Axis, Position

_STEPS = 12
_ENOUGH = 1e-6
"""Gauss–Newton ends when no whitened residual changes by more than this."""
_OPEN = 1e-11
"""Of columns of length one: what is left of one after all others, where nothing holds it."""


@dataclass(frozen=True)
class Answering:
    """What is known of how a head answers: the twelve with their covariance.

    `mean`: P, κ, h of side and of nod, then what tightening side and nod does on average, and
    by how much each goes back when the hand leaves it, then until its bolts are tight, slopes;
    `covariance`: 12 × 12, row by row.
    """

    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]

    def pivot_mm(self, axis: Axis) -> float:
        """P: how far from the spindle the pivot acts, away from the parked position, mm."""
        return self.mean[FIRST[axis]]

    def coupling(self, axis: Axis) -> float:
        """κ: what the other lean does for each unit of this one."""
        return self.mean[FIRST[axis] + 1]

    def height_mm(self, axis: Axis) -> float:
        """The pivot's height above the surface swept, mm."""
        return self.mean[FIRST[axis] + 2]

    def pivot_doubt_mm(self, axis: Axis) -> float:
        """The standard uncertainty of `pivot_mm`."""
        at = FIRST[axis]
        return math.sqrt(self.covariance[at][at])

    def coupling_doubt(self, axis: Axis) -> float:
        """The standard uncertainty of `coupling`."""
        at = FIRST[axis] + 1
        return math.sqrt(self.covariance[at][at])

    def shift(self, axis: Axis) -> float:
        """What tightening does to this lean on average, slope."""
        return self.mean[SHIFT[axis]]

    def shift_doubt(self, axis: Axis) -> float:
        """The standard uncertainty of `shift`."""
        at = SHIFT[axis]
        return math.sqrt(self.covariance[at][at])

    def rest(self, axis: Axis) -> float:
        """By how much it goes back on average when the hand leaves, slope by `resting.share`."""
        return self.mean[REST[axis]]

    def late(self, axis: Axis) -> float:
        """By how much it still goes back until its bolts are tight, slope by `resting.share`."""
        return self.mean[LATE[axis]]

    def rest_doubt(self, axis: Axis) -> float:
        """The standard uncertainty of `rest`."""
        at = REST[axis]
        return math.sqrt(self.covariance[at][at])

    def late_doubt(self, axis: Axis) -> float:
        """The standard uncertainty of `late`."""
        at = LATE[axis]
        return math.sqrt(self.covariance[at][at])


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """Where the head stands now and how it answers, with the covariance of all of it.

    `values`: the twelve, then the leans side and nod (slopes) and the middle of the circle, mm.
    `misfit`: how far the worst of all that was read and done is off, in standard deviations.
    `evidence`: the log of the marginal likelihood (Laplace's method), for stories with as many
    turns and readings, where it was wanted.
    """

    radius_mm: float
    values: Matrix
    covariance: Matrix
    misfit: float = 0.0
    evidence: float = 0.0

    @property
    def answering(self) -> Answering:
        """The twelve with their covariance."""
        first = slice(0, PARAMETERS)
        rows = tuple(tuple(row) for row in self.covariance[first, first].tolist())
        return Answering(tuple(self.values[first].tolist()), rows)

    def lean(self, axis: Axis) -> float:
        """The lean of one axis, slope: positive with the right or the front low."""
        return float(self.values[PARAMETERS + OWN[axis]])

    def lean_doubt(self, axis: Axis) -> float:
        """The standard uncertainty of `lean`."""
        at = PARAMETERS + OWN[axis]
        return math.sqrt(self.covariance[at, at])

    def reading(self, position: Position) -> tuple[float, float]:
        """What the gauge would read at a position, mm, and its standard uncertainty.

        The scatter of the reading itself is not in it.
        """
        mean, weights = self.weights(position)
        return mean, math.sqrt(float(weights @ self.covariance @ weights))

    def weights(self, position: Position) -> tuple[float, Matrix]:
        """What the gauge would read at a position, mm, and how `values` make it up."""
        weights = np.zeros(len(self.values))
        weights[PARAMETERS:] = reading_row(position, self.radius_mm)
        return float(weights @ self.values), weights


def stand(
    story: Story,
    prior: Answering,
    radius_mm: float,
    doubt: Doubt,
    scatter: Mapping[Axis, Scatter],
    *,
    weighs: bool = False,
) -> Standing:
    """Return where the head stands after `story`, most probably.

    The story must begin with a sweep: readings that fix both leans and the middle of the circle.
    `weighs`: its evidence is wanted too.
    """
    made = Equations(story, prior.mean, prior.covariance, radius_mm, doubt, scatter)
    x = made.start()
    for _ in range(_STEPS):
        residual, jacobian = made.at(x)
        step = _least(jacobian, -residual)
        x = x + step
        if np.max(np.abs(jacobian @ step)) < _ENOUGH:
            break
    residual, jacobian = made.at(x)
    scale = np.linalg.norm(jacobian, axis=0)
    upper = _upper(jacobian / scale)
    half = _inverse(upper) / scale[:, None]
    kept = [*range(PARAMETERS), *range(made.states - 3, made.states)]
    misfit = float(np.max(np.abs(residual)))
    evidence = 0.0
    if weighs:
        # ½ log det JᵀJ is the log of the product of R's diagonal.
        spread = float(np.sum(np.log(np.abs(np.diag(upper)))) + np.sum(np.log(scale)))
        evidence = made.normal(jacobian) - 0.5 * float(residual @ residual) - spread
    return Standing(radius_mm, x[kept], half[kept] @ half[kept].T, misfit, evidence)


def _least(jacobian: Matrix, aimed: Matrix) -> Matrix:
    """The least-squares solution, by orthogonal triangles (Householder, textbook).

    A singular-value decomposition costs four to ten times as much; it is left for a story whose
    readings leave a moment open, where the shortest of all solutions is wanted.
    """
    scale = np.linalg.norm(jacobian, axis=0)
    whole = _upper(np.column_stack((jacobian / scale, aimed)))
    size = len(scale)
    upper, told = whole[:size, :size], whole[:size, size]
    if np.min(np.abs(np.diag(upper))) > _OPEN:
        step = np.linalg.solve(upper, told)
    else:
        step, *_ = np.linalg.lstsq(jacobian / scale, aimed, rcond=None)
    return np.asarray(step / scale, dtype=np.float64)


def _upper(matrix: Matrix) -> Matrix:
    """R of a matrix that is Q·R."""
    return np.asarray(np.linalg.qr(matrix, mode="r"), dtype=np.float64)


def _inverse(upper: Matrix) -> Matrix:
    """The inverse; where a moment nobody read leaves something open, that of all the rest.

    A head turned about a pivot at the spindle does not show by its middle how far it went.
    """
    try:
        inverse = np.linalg.inv(upper)
    except np.linalg.LinAlgError:
        inverse = None
    if inverse is None or np.max(np.abs(inverse)) > 1.0 / _OPEN:
        inverse = np.linalg.pinv(upper, rcond=_OPEN)
    return np.asarray(inverse, dtype=np.float64)
