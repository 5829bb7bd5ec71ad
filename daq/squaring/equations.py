"""The equations of a story: what must hold if a head is the plain picture, and how strictly.

Rows are whitened: each is a difference divided by the standard deviation it may have. The
unknowns are the twelve of a head's answer, then the leans and the middle of the circle at
every moment.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from daq.squaring.resting import share
from daq.squaring.story import Happened, Seen, Story, ways_left
from daq.words import POSITIONS, Axis, Position

Matrix = npt.NDArray[np.float64]

PARAMETERS = 12
"""P, κ, h of side, then of nod; then what tightening each does to its own lean on average, and
by how much each goes back against its turn when the hand leaves it, and by how much it still
does until its bolts are tight."""
SHIFT: dict[Axis, int] = {"side": 6, "nod": 7}
REST: dict[Axis, int] = {"side": 8, "nod": 9}
LATE: dict[Axis, int] = {"side": 10, "nod": 11}
FIRST: dict[Axis, int] = {"side": 0, "nod": 3}
OWN: dict[Axis, int] = {"side": 0, "nod": 1}
_ANYTHING_MM = 20.0
"""A doubt as wide as any head ever stood out, across the sweep."""
_ROWS = {"zeroed": 3, "unknown": 3, "tightened": 3, "moved": 2, "rested": 3}


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far a head may stray from the plain picture, standard deviations.

    `visit_mm` is how differently a contact lands at each visit to a place, `count_mm` what
    one reading differs by while it stays there; `cross_mm`, across the sweep, is what a move
    does besides to the other axis; `lift_mm` what a move, `tight_lift_mm` what tightening does
    to the middle of the circle, and `tight_cross_mm` what tightening does to the other axis,
    across the sweep.
    """

    visit_mm: float
    count_mm: float
    cross_mm: float = 0.0005
    lift_mm: float = 0.0007
    tight_lift_mm: float = 0.003
    tight_cross_mm: float = 0.001

    @property
    def reading_mm(self) -> float:
        """The standard deviation of a reading at a visit of its own."""
        return math.hypot(self.visit_mm, self.count_mm)


def reading_row(position: Position, radius_mm: float) -> Matrix:
    """What lean side, lean nod and middle each add to the reading at a position."""
    azimuth = math.radians(POSITIONS[position])
    return np.array([radius_mm * math.cos(azimuth), -radius_mm * math.sin(azimuth), 1.0])


@lru_cache(maxsize=64)
def _read_at(places: tuple[Position, ...], radius_mm: float) -> tuple[Matrix, Matrix]:
    """What leans and middle add to the readings at these places, and its pseudo-inverse."""
    design = np.array([reading_row(place, radius_mm) for place in places])
    return design, np.asarray(np.linalg.pinv(design))


@dataclass(frozen=True, slots=True)
class Scatter:
    """How far what one axis does lies apart from time to time, slopes, one standard deviation.

    `tight`: when its bolts are pulled up; `rest`: when the hand leaves it, as `resting.share`
    counts it.
    """

    tight: float
    rest: float


class Equations:
    """The whitened residuals of a story: the prior, the readings, and every change."""

    def __init__(
        self,
        story: Story,
        mean: tuple[float, ...],
        covariance: tuple[tuple[float, ...], ...],
        radius_mm: float,
        doubt: Doubt,
        scatter: Mapping[Axis, Scatter],
    ) -> None:
        """Set up what does not change from step to step: the prior and the readings."""
        self.prior = np.array(mean)
        self.whiten = np.linalg.inv(np.linalg.cholesky(np.array(covariance)))
        self.rests = {
            axis: math.hypot(mean[at], math.sqrt(covariance[at][at])) for axis, at in REST.items()
        }
        self.across = 2.0 * radius_mm
        self.radius_mm = radius_mm
        self.doubt = doubt
        self.scatter = scatter
        self.changes = [entry for entry in story if isinstance(entry, Happened)]
        self.ways = ways_left(story)
        self.seen = self._seen(story)
        stays = self._stays()
        self.states = PARAMETERS + 3 * (len(self.changes) + 1)
        self.size = self.states + len(set(stays.values()))
        seen_at = {epoch for epoch, _ in self.seen}
        # No gauge saw where these ended, as with a shim: they may have turned it by anything.
        self.unseen = {
            epoch
            for epoch, change in enumerate(self.changes)
            if change.what == "moved" and epoch + 1 not in seen_at
        }
        rows = PARAMETERS + len(self.seen) + sum(_ROWS[c.what] for c in self.changes)
        rows += self.size - self.states + len(self.unseen)
        self.fixed = np.zeros((rows, self.size))
        self.aimed = np.zeros(rows)
        self.fixed[:PARAMETERS, :PARAMETERS] = self.whiten
        self.aimed[:PARAMETERS] = self.whiten @ self.prior
        for i, (epoch, entry) in enumerate(self.seen):
            self._reading(PARAMETERS + i, epoch, entry, stays.get(i))
        self.turns = self._laid(PARAMETERS + len(self.seen))
        for visit in range(self.states, self.size):
            self.fixed[rows - self.size + visit, visit] = 1.0 / doubt.visit_mm

    def _laid(self, row: int) -> list[tuple[int, Axis, int]]:
        """Every change's equations from this row on; of each turn, whose two bend: row and axis."""
        turns = []
        for epoch, change in enumerate(self.changes):
            at, axis = self._at(epoch), change.axis or "side"
            if change.what in ("moved", "rested"):
                turns.append((row, axis, at))
                row += 2
            rows = self._straight(change, self.ways[epoch], at)
            if epoch in self.unseen:
                rows.append(self._still(at, OWN[axis], _ANYTHING_MM))
            for columns, weights in rows:
                self.fixed[row, columns] = weights
                row += 1
        return turns

    def _reading(self, row: int, epoch: int, entry: Seen, visit: int | None) -> None:
        """One reading; readings of one visit share how the contact landed there."""
        at = self._at(epoch)
        own = self.doubt.reading_mm if visit is None else self.doubt.count_mm
        sd = math.hypot(own, entry.more_mm)
        self.fixed[row, at : at + 3] = reading_row(entry.position, self.radius_mm) / sd
        self.aimed[row] = entry.pushed_mm / sd
        if visit is not None:
            self.fixed[row, self.states + visit] = 1.0 / sd

    def _stays(self) -> dict[int, int]:
        """Which visit each reading belongs to, of those with more than one reading."""
        visits: dict[int, int] = {}
        for i, (_, entry) in enumerate(self.seen):
            if entry.stays and i:
                new = len(set(visits.values()))
                visits[i] = visits.setdefault(i - 1, new)
        return visits

    @staticmethod
    def _seen(story: Story) -> list[tuple[int, Seen]]:
        epoch, seen = 0, []
        for entry in story:
            if isinstance(entry, Seen):
                seen.append((epoch, entry))
            else:
                epoch += 1
        return seen

    @staticmethod
    def _at(epoch: int) -> int:
        return PARAMETERS + 3 * epoch

    def start(self) -> Matrix:
        """Return the prior, and at every moment the leans that its own readings suggest."""
        x = np.zeros(self.size)
        x[:PARAMETERS] = self.prior
        state = np.zeros(3)
        for epoch in range(len(self.changes) + 1):
            # A head at rest stands as good as where the turn left it.
            rests = any(change.what == "rested" for change in self.changes[epoch : epoch + 1])
            own = [entry for at, entry in self.seen if epoch <= at <= epoch + rests]
            if own:
                design, back = _read_at(tuple(entry.position for entry in own), self.radius_mm)
                left = np.array([entry.pushed_mm for entry in own]) - design @ state
                # The least change of the leans that explains what was read.
                state = state + back @ left
            x[self._at(epoch) : self._at(epoch) + 3] = state
        return x

    def normal(self, jacobian: Matrix) -> float:
        """The log of what stands before the density of prior, changes and readings, less 2π.

        How far a head leaned at first, and by how much each turn moved it, has no density of
        its own: stories with as many turns and readings can be compared.
        """
        first, read = slice(0, PARAMETERS), slice(PARAMETERS, PARAMETERS + len(self.seen))
        moved = [i for i, change in enumerate(self.changes) if change.what == "moved"]
        turns = [i for i in moved if i not in self.unseen]
        free = [self._at(0), self._at(0) + 1, self._at(0) + 2]
        free += [self._at(i + 1) + OWN[self.changes[i].axis or "side"] for i in turns]
        given = np.vstack([jacobian[first], jacobian[read.stop :], np.eye(self.size)[free]])
        readings = sum(
            float(np.log(jacobian[PARAMETERS + i, self._at(epoch) + 2]))
            for i, (epoch, _) in enumerate(self.seen)
        )
        return float(np.linalg.slogdet(given)[1]) + readings

    def at(self, x: Matrix) -> tuple[Matrix, Matrix]:
        """Return the residuals at `x` and their derivatives."""
        jacobian = self.fixed.copy()
        residual = jacobian @ x - self.aimed
        for row, axis, at in self.turns:
            for i, (value, columns, weights) in enumerate(self._turned(axis, x, at), row):
                residual[i] = value
                jacobian[i, columns] = weights
        return residual, jacobian

    def _straight(self, change: Happened, way: int, at: int) -> list[tuple[list[int], list[float]]]:
        """The equations of a change that are the same everywhere: unknowns, and their weights."""
        plain = {
            "zeroed": (1e-6, 1e-6, _ANYTHING_MM),
            "unknown": (_ANYTHING_MM, _ANYTHING_MM, _ANYTHING_MM),
        }
        if change.what in plain:
            return [self._still(at, j, sd) for j, sd in enumerate(plain[change.what])]
        axis = change.axis or "side"
        if change.what == "tightened":
            return self._tightened(axis, way, at)
        return [self._rested(axis, change, at)] if change.what == "rested" else []

    def _still(self, at: int, j: int, sd_mm: float) -> tuple[list[int], list[float]]:
        """One of lean side, lean nod and middle: unchanged within `sd_mm`, leans across."""
        sd = sd_mm if j == 2 else sd_mm / self.across
        return [at + j, at + 3 + j], [-1.0 / sd, 1.0 / sd]

    def _tightened(self, axis: Axis, way: int, at: int) -> list[tuple[list[int], list[float]]]:
        own, sd = OWN[axis], self.scatter[axis].tight
        columns = [SHIFT[axis], LATE[axis], at + own, at + 3 + own]
        return [
            (columns, [-1.0 / sd, way * self._share(axis) / sd, -1.0 / sd, 1.0 / sd]),
            self._still(at, 1 - own, self.doubt.tight_cross_mm),
            self._still(at, 2, self.doubt.tight_lift_mm),
        ]

    def _share(self, axis: Axis) -> float:
        return share(self.radius_mm, float(self.prior[FIRST[axis]]))

    def _rested(self, axis: Axis, rested: Happened, at: int) -> tuple[list[int], list[float]]:
        """The own lean goes back against the way it was turned; either way where nobody knows."""
        own, here, way = OWN[axis], self._share(axis), rested.way
        known = math.hypot(self.scatter[axis].rest, 0.0 if way else self.rests[axis])
        sd = math.hypot(here * known, rested.creeps)
        return [REST[axis], at + own, at + 3 + own], [way * here / sd, -1.0 / sd, 1.0 / sd]

    def _turned(self, axis: Axis, x: Matrix, at: int) -> list[tuple[float, list[int], list[float]]]:
        """The two equations of a turn: the other lean follows by κ, the middle by P and h."""
        own, first = OWN[axis], FIRST[axis]
        p, k, h = x[first : first + 3].tolist()
        before, after = float(x[at + own]), float(x[at + 3 + own])
        turned = after - before
        bend_before, bend_after = math.sqrt(1 + before * before), math.sqrt(1 + after * after)
        other, cross = 1 - own, self.doubt.cross_mm / self.across
        followed = x[at + 3 + other] - x[at + other] - k * turned
        lift = self.doubt.lift_mm
        lifted = x[at + 5] - x[at + 2] - p * turned + h * (bend_after - bend_before)
        return [
            (
                float(followed) / cross,
                [first + 1, at + own, at + 3 + own, at + other, at + 3 + other],
                [-turned / cross, k / cross, -k / cross, -1.0 / cross, 1.0 / cross],
            ),
            (
                float(lifted) / lift,
                [first, first + 2, at + own, at + 3 + own, at + 2, at + 5],
                [
                    -turned / lift,
                    (bend_after - bend_before) / lift,
                    (p - h * before / bend_before) / lift,
                    (h * after / bend_after - p) / lift,
                    -1.0 / lift,
                    1.0 / lift,
                ],
            ),
        ]
