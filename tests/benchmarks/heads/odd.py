"""Heads and hands that nobody tuned on: each an exact mill that does one more thing."""

import math
from dataclasses import dataclass, replace
from random import Random

from daq.words import AXES, Axis, Position

from .mill import Conditions, Head, Mill, Visit
from .rigid import swung

KNOCKED_BY = 12
"""A knock that comes in every audit comes before one of so many readings."""
WEIGHT = {"side": 1.0, "nod": 1.0}
"""Which way a head sinks within its backlash: its weight is on the right and in front."""


@dataclass(frozen=True, slots=True)
class Odd(Conditions):
    """What else is so, on top of how well everything behaves.

    `creep_mm`: each axis of a head has a mean of its own in there, by which the parked number
    creeps back once the hand has left, each time scattered by `relax_scatter` of it; at once, or
    within `creep_s`, its time constant. `backlash_mm` at the parked gauge: let go, the head sinks
    somewhere in it, unless the last turn raised it. `ram_deg`: the ram is swung so far one way
    or the other. `in_front`: the nod's pivot is in front of the spindle. `shim_mm` on bolts
    `shim_over_mm` apart: nod stands only where whole shims of that put it. `knocked`: the bump of
    an audit comes early enough to be one.
    """

    creep_mm: tuple[float, float] = (0.0, 0.0)
    creep_s: float = 0.0
    backlash_mm: float = 0.0
    ram_deg: float = 0.0
    in_front: bool = False
    shim_mm: float = 0.0
    shim_over_mm: float = 200.0
    knocked: bool = False


def odd_head(head: Head, odd: Odd, seed: str) -> Head:
    """The same head on a swung ram, or with its pivot on the other side."""
    if odd.ram_deg:
        way = Random(f"ram {seed}").choice((-1.0, 1.0))
        side, nod = swung(head.side, head.nod, math.radians(way * odd.ram_deg))
        return replace(head, side=side, nod=nod)
    if odd.in_front:
        return replace(head, nod=replace(head.nod, y_mm=-head.nod.y_mm))
    return head


class OddMill(Mill):
    """A mill in one of these ways; time passes for it, too."""

    def __init__(self, head: Head, odd: Odd, visit: Visit, seed: str) -> None:
        """Stand the head; `seed` is its own, whatever audit it is."""
        if odd.knocked:
            visit = replace(visit, bump_at=1 + visit.bump_at % KNOCKED_BY)
        super().__init__(odd_head(head, odd, seed), odd, visit)
        self.odd = odd
        rng = Random(f"creep {seed}")
        self._creep_mm = {axis: rng.uniform(*odd.creep_mm) for axis in AXES}
        self._left = dict.fromkeys(AXES, 0.0)
        self._way = dict.fromkeys(AXES, 0.0)
        self._square = dict(self.angles)

    def turn(self, axis: Axis, position: Position, stop_mm: float) -> None:
        """Turn the adjuster, or put in the shims that come nearest to that."""
        self._left[axis] = 0.0
        before = self.angles[axis]
        super().turn(axis, position, stop_mm)
        if self.odd.shim_mm and axis == "nod":
            step = self.odd.shim_mm / self.odd.shim_over_mm
            made = round((self.angles[axis] - self._square[axis]) / step) * step
            self.swing(axis, self._square[axis] + made - self.angles[axis])
        self._way[axis] = math.copysign(1.0, self.angles[axis] - before)
        if self.odd.creep_s:
            # It begins to creep where the turn ended; whoever presses then presses later.
            self._left[axis] = self._creeps(axis, position)

    def let_go(self, axis: Axis, position: Position) -> None:
        """The hand leaves: it creeps back, or sinks within its backlash."""
        super().let_go(axis, position)
        if self.odd.creep_mm[1] and not self.odd.creep_s:
            self.swing(axis, self._creeps(axis, position))
        if self.odd.backlash_mm and self._way[axis] == WEIGHT[axis]:
            sinks_mm = self._rng.uniform(0.0, self.odd.backlash_mm)
            self.swing(axis, WEIGHT[axis] * abs(sinks_mm / self.gain(axis, position)))

    def passes(self, seconds: float) -> None:
        """Time goes by: what still creeps creeps on."""
        if not self.odd.creep_s:
            return
        share = 1.0 - math.exp(-seconds / self.odd.creep_s)
        for axis, left in self._left.items():
            if left:
                self._left[axis] = left * (1.0 - share)
                self.swing(axis, left * share)

    def _creeps(self, axis: Axis, position: Position) -> float:
        """How far the axis creeps back after this turn, rad."""
        back_mm = self._creep_mm[axis] * self._rng.gauss(1, self.conditions.relax_scatter)
        return -self._last_way * back_mm / self.gain(axis, position)
