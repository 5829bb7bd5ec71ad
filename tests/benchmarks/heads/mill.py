"""An exact head during one audit: its gauge, the hands at its adjusters, what goes wrong."""

import math
from dataclasses import dataclass
from random import Random

from daq.words import AXES, Axis, Position

from .rigid import Hinge, Rigid

IN_AIR_MM = 10.0
"""How far below its first reading the gauge reads with its contact in the air."""
NUDGE_MM = 0.1
"""What a few degrees of an adjuster do, across the sweep."""


@dataclass(frozen=True, slots=True)
class Head:
    """What belongs to one head for good; `shift_sign`: which way tightening leans each axis."""

    side: Hinge
    nod: Hinge
    shift_sign: tuple[int, int] = (1, 1)


@dataclass(frozen=True, slots=True)
class Conditions:
    """How well everything behaves, mm.

    `sigma_mm`: how differently the contact lands each time it is swung to a place, and with
    `slides` each time the head was turned under it; while it rests it shows the same.
    `resolution_mm`: a count of the gauge.
    `wedge_mm`: the ring's, across the sweep. `stop_error_mm`: the hand stops anywhere
    within this of the stop-at. `shift_mm` over `shift_over_mm`: what tightening does to its
    axis, each time scattered by `shift_scatter` of it (standard deviation), with a lift of
    the whole head by about `lift_mm`. `relax_mm`: how far the parked reading creeps back
    once the hand has left. `bump_chance` an audit: somebody hits the arm, which shows at
    the gauge as about `arm_mm` and turns each axis by about `knock_mm` across the sweep.
    """

    sigma_mm: float = 0.0007
    slides: bool = False
    resolution_mm: float = 0.001
    wedge_mm: float = 0.003
    stop_error_mm: float = 0.002
    shift_mm: float = 0.0
    shift_over_mm: float = 200.0
    shift_scatter: float = 0.25
    lift_mm: float = 0.002
    relax_mm: float = 0.0
    relax_scatter: float = 0.25
    bump_chance: float = 0.0
    arm_mm: float = 0.05
    knock_mm: float = 0.02


@dataclass(frozen=True, slots=True)
class Visit:
    """One audit's circumstances: how far out each axis starts, mm across the sweep.

    `ring_deg`: where the ring is thickest. `bump_at`: the reading before which a bump comes
    if there is one, and `bump_draw`, from 0 to 1, whether there is. `seed`: of all else.
    """

    radius_mm: float
    start_mm: tuple[float, float]
    ring_deg: float
    bump_at: int
    bump_draw: float
    seed: str


class Mill(Rigid):
    """One head during one audit. Readings come as the gauge shows them, in mm."""

    def __init__(self, head: Head, conditions: Conditions, visit: Visit) -> None:
        """Stand the head where this audit finds it, the contact on the ring."""
        super().__init__(head.side, head.nod, visit.radius_mm, conditions.wedge_mm)
        self.head, self.conditions, self.visit = head, conditions, visit
        self.arm_mm = 0.0
        self.readings = 0
        self._rng = Random(visit.seed)
        self._last_way = 1.0
        self._last_turn = 1.0
        self._stands: Position | None = None
        self._landed_mm = 0.0
        self.ring_deg = visit.ring_deg
        self.lay(self.ring_deg)
        self.lean_by(*visit.start_mm)
        self.arm_mm = -self.pushed("front")

    def pushed(self, position: Position, radius_mm: float | None = None) -> float:
        """How far the plunger is pushed in, the arm as it was knocked."""
        return super().pushed(position, radius_mm) + self.arm_mm

    def indication(self, position: Position) -> float:
        """What the gauge shows at a place it was swung to, or still stands at, in whole counts."""
        if position != self._stands:
            self._stands = position
            self._land()
        self.readings += 1
        due = self.visit.bump_draw < self.conditions.bump_chance
        if due and self.readings == self.visit.bump_at:
            self._bump()
        return self._counts(self.pushed(position) + self._landed_mm)

    def reads(self, at: Position | None) -> float:
        """What the gauge shows at a place, or with its contact hanging free."""
        if at is not None:
            return self.indication(at)
        self._stands = None
        return self._counts(-IN_AIR_MM)

    def turn_round(self, what: str) -> None:
        """Turn the ring half round, or the arm, which has nothing of its own here."""
        if what == "ring":
            self.ring_deg += 180.0
            self.lay(self.ring_deg)

    def _land(self) -> None:
        self._landed_mm = self._rng.gauss(0, self.conditions.sigma_mm)

    def _counts(self, mm: float) -> float:
        count = self.conditions.resolution_mm
        return round(mm / count) * count

    def turn(self, axis: Axis, position: Position, stop_mm: float) -> None:
        """Turn an adjuster, the gauge parked, until it shows about `stop_mm`.

        The hand sees whole counts: it cannot come nearer than half of one.
        """
        error = max(self.conditions.stop_error_mm, self.conditions.resolution_mm / 2)
        if position != self._stands or self.conditions.slides:
            self._stands = position
            self._land()
        target = self._counts(stop_mm) + self._rng.uniform(-error, error) - self._landed_mm
        self._last_way = math.copysign(1.0, target - self.pushed(position))
        before = self.angles[axis]
        self.turn_to(axis, position, target)
        self._last_turn = self.angles[axis] - before

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn an adjuster a little, back from where it was turned last or any way."""
        way = -math.copysign(1.0, self._last_turn) if back else 1.0
        self.swing(axis, way * NUDGE_MM / self.across_mm)

    def let_go(self, axis: Axis, position: Position) -> None:
        """The hand leaves: the axis creeps back the way it came."""
        if not self.conditions.relax_mm:
            return
        back = self.conditions.relax_mm * self._rng.gauss(1, self.conditions.relax_scatter)
        self.swing(axis, -self._last_way * back / self.gain(axis, position))

    def passes(self, seconds: float) -> None:
        """Time goes by: a head stands."""

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts: nothing drops."""

    def pull(self, axis: Axis, part: float) -> None:
        """Pull up all bolts: the axis leans a little, the head lifts or drops a little."""
        if not self.conditions.shift_mm:
            return
        mean = self.conditions.shift_mm / self.conditions.shift_over_mm
        sign = self.head.shift_sign[AXES.index(axis)]
        self.knocks[axis] += sign * mean * self._rng.gauss(1, self.conditions.shift_scatter)
        self.lift_mm += self._rng.gauss(0, self.conditions.lift_mm)
        self.stand()

    def _bump(self) -> None:
        self.arm_mm += self._rng.gauss(0, self.conditions.arm_mm)
        for axis in AXES:
            self.knocks[axis] += self._rng.gauss(0, self.conditions.knock_mm) / self.across_mm
        self.stand()
