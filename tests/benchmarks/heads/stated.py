"""A mill on which everything is off as its file states: each influence anywhere in its bound."""

import math
from dataclasses import replace
from random import Random

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.warmth import STEEL
from daq.words import Position

from .mill import Conditions, Head, Mill, Visit
from .rigid import DIRECTIONS

Tilt = tuple[float, float]
"""What looks like lean: mm across the sweep, side and nod."""


class Stated(Mill):
    """Ring, spindle, warmth and gauge differ from audit to audit, seat and drift from seat to seat.

    Each axis has its own share of each, as a budget takes it. What grows with the lean (scale,
    radius, plunger) is nothing near nothing, and left out.
    """

    def __init__(
        self, head: Head, conditions: Conditions, visit: Visit, doubts: Doubts, local_mm: float
    ) -> None:
        """Stand the head where this audit finds it, its ring and all else drawn."""
        self._off, self._doubts = Random(f"stated {visit.seed}"), doubts
        # Of four places a third wave shows its height from peak to valley; it turns with the ring.
        ring = self._within(doubts.wedge, doubts.form(on_the_table=False))
        warm_mm = STEEL * doubts.thickness * doubts.temperature
        self._stays = self._within(2.0 * doubts.spindle_axial, warm_mm, local_mm)
        self._sits = self._stays
        conditions = replace(conditions, wedge_mm=math.hypot(*ring))
        visit = replace(visit, ring_deg=math.degrees(math.atan2(ring[1], ring[0])))
        super().__init__(head, conditions, visit)

    def lay(self, thickest_deg: float) -> None:
        """Lay the ring: how it sits, and what drifts meanwhile, is drawn anew."""
        sits = self._within(self._doubts.seating, self._doubts.drift)
        self._sits = (self._stays[0] + sits[0], self._stays[1] + sits[1])
        super().lay(thickest_deg)

    def pushed(self, position: Position, radius_mm: float | None = None) -> float:
        """How far the plunger is pushed in, by what looks like lean, too."""
        along_x, along_y = DIRECTIONS[position]
        side_mm, nod_mm = self._sits
        return super().pushed(position, radius_mm) + 0.5 * (side_mm * along_x - nod_mm * along_y)

    def _land(self) -> None:
        super()._land()
        self._landed_mm += self._off.uniform(-self._doubts.friction, self._doubts.friction)

    def _within(self, *bounds_mm: float) -> Tilt:
        """The sum of influences, each anywhere in its bound on either axis."""
        side_mm, nod_mm = (sum(self._off.uniform(-mm, mm) for mm in bounds_mm) for _ in range(2))
        return side_mm, nod_mm
