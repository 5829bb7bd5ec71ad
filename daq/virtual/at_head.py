"""What a person does with the head and the ring: adjusters, and the odd knock."""

from typing import Final

from daq.virtual.bench import Bench
from daq.virtual.lessons import Lesson
from daq.words import Axis

TURN_S: Final = 0.4
TURN_S_PER_MM: Final = 8.0
LET_GO_S: Final = 1.0
RING_S: Final = 3.0


class AtHead(Bench):
    """Operations on the head. Each that may not be possible returns whether it was done."""

    def turn(self, axis: Axis, amount_mm: float, *, hold: bool = False) -> bool:
        """Turn the adjuster of `axis` by `amount_mm` of lean across the sweep, and let it go.

        Positive lowers the right side of the circle (side) or the front (nod). With
        `hold` the hand stays on it until `let_go`.
        """
        with self._doing():
            if self._head.joint(axis).tight:
                return False
            with self._lock:
                really_mm = self._head.grip(amount_mm)

            def step(_: float, share: float) -> None:
                self._head.turn(axis, really_mm * share)

            self._over(TURN_S + TURN_S_PER_MM * abs(amount_mm), step)
            if not hold:
                self._relax(axis)
        return True

    def let_go(self, axis: Axis) -> None:
        """Take the hand off the adjuster of `axis`: what it held goes back."""
        with self._doing():
            self._relax(axis)

    def _relax(self, axis: Axis) -> None:
        wound_rad = self._head.joint(axis).wound_rad
        if wound_rad:
            self._over(LET_GO_S, lambda _, share: self._head.unwind(axis, wound_rad * share))
            with self._lock:
                self._head.joint(axis).wound_rad = 0.0

    def turn_ring(self) -> bool:
        """Turn the ring half round under the lifted gauge, its wedge with it."""
        with self._doing():
            if self._head.state.contact == "set":
                return False
            self._over(RING_S, lambda _, share: None)
            with self._lock:
                self._head.state.ring_deg = (self._head.state.ring_deg + 180.0) % 360.0
        return True

    def wipe(self) -> bool:
        """Lift the ring under the lifted gauge, wipe it and the table, and lay it back."""
        with self._doing():
            if self._head.state.contact == "set":
                return False
            self._over(RING_S, lambda _, share: None)
            with self._lock:
                self._head.state.chip_mm = 0.0
        return True

    def bump(self) -> None:
        """Knock into the arm and the head."""
        with self._doing(), self._lock:
            self._head.knock()

    def begin(self, lesson: Lesson) -> None:
        """Stand as this lesson begins, with whatever hands are at finished first."""
        with self._doing(), self._lock:
            self._head.begin(lesson)
            self._gauge.faults.clear()

    def reset(self) -> None:
        """Throw the head out of square again: bolts tight, contact in the air."""
        with self._doing(), self._lock:
            self._head.throw()
