"""What a person does with the gauge: swing it, lift it, push it, press its buttons."""

import math
from functools import partial
from typing import Final

from daq.virtual.bench import Bench
from daq.virtual.standing import UNWOUND
from daq.words import FOUR_POSITIONS, POSITIONS, Position

QUARTER_S: Final = 1.5
SLOW_TURN_S: Final = 8.0
"""Once round, of the wall clock's seconds however quick the mill: who turns quicker is told so."""
SWITCH_DEG: Final = 3.0
"""So far on either side of its place a switch of the collar is closed."""
PUSH_S: Final = 0.8
LIFT_S: Final = 1.5
ARM_S: Final = 6.0
PUSH_MM: Final = 0.6
FLICK_MM: Final = 0.05
FLICK_S: Final = 0.2
REST_S: Final = 0.5
"""Of the wall clock's seconds however quick the mill: whoever reads the gauge looks for rests."""
SEEN: Final = 2
RESTED: Final = 10
"""So many numbers show that the arm is aside, and that it rests."""
FRICTION_MM: Final = 0.0001
"""How differently the contact comes back, standard deviation, mm."""
HAND_ON_ARM_MM: Final = 0.002
"""How unsteady the number is while a hand moves the arm, mm."""


class AtGauge(Bench):
    """Operations on the gauge. Each that may not be possible returns whether it was done."""

    def swing_to(self, position: Position) -> bool:
        """Swing the arm to `position`, the way round that does not wind up the cable."""
        with self._doing():
            way_deg = UNWOUND[position] - self._head.state.azimuth_deg
            if way_deg == 0.0 and self._head.state.set_up == "ring":
                return False
            self._swinging = True

            def step(_: float, share: float) -> None:
                self._head.state.azimuth_deg += way_deg * share
                self._head.unsteady(HAND_ON_ARM_MM)

            self._over(QUARTER_S * abs(way_deg) / 90.0, step)
            with self._lock:
                self._head.land(position)
                self._swinging = False
        return True

    def slow_turn(self) -> None:
        """Turn the spindle once round from where the arm stands and back, as even as a hand can."""
        with self._doing():
            start = self._head.state.azimuth_deg
            closed: dict[Position, bool] = {}
            self._swinging = True

            def turned(whole_deg: float, _: float, share: float) -> None:
                self._head.state.azimuth_deg += whole_deg * share
                self._pass_by(closed)

            self._pass_by(closed)
            for whole_deg in (360.0, -360.0):
                self._over(SLOW_TURN_S * self._speed, partial(turned, whole_deg))
            with self._lock:
                self._head.state.azimuth_deg = start
                self._swinging = False

    def _pass_by(self, closed: dict[Position, bool]) -> None:
        """Tell of each switch that closed or opened; `closed`: which were."""
        for place in FOUR_POSITIONS:
            off = (self._head.state.azimuth_deg - POSITIONS[place] + 180.0) % 360.0 - 180.0
            now = abs(off) < SWITCH_DEG
            if closed.get(place, False) != now:
                closed[place] = now
                self.collar(place, now)

    def turn_arm(self) -> bool:
        """Clamp the lifted arm half a turn round in the spindle; the gauge stands where it did."""
        with self._doing():
            if self._head.state.contact == "set":
                return False
            self._over(ARM_S, lambda _, share: None)
            with self._lock:
                self._head.state.arm_deg = (self._head.state.arm_deg + 180.0) % 360.0
                self._head.state.arm_mm = 0.0
        return True

    def push_contact(self) -> None:
        """Push the contact in and let it go again."""
        with self._doing():

            def step(done: float, _: float) -> None:
                self._push_mm = PUSH_MM * math.sin(math.pi * done) if done < 1.0 else 0.0

            self._over(PUSH_S, step)

    def flick_arm(self) -> None:
        """Let the arm rest, push it aside, and let it come to rest, a little off where it was."""
        with self._doing():
            self._rest()

            def step(done: float, _: float) -> None:
                swings = math.sin(4.0 * math.pi * done) * (1.0 - done)
                self._push_mm = FLICK_MM * swings if done < 1.0 else 0.0

            with self._lock:
                self._push_mm = FLICK_MM  # seen, however seldom the gauge is read
            self._until_read(SEEN)
            self._over(FLICK_S * self._speed, step)
            with self._lock:
                self._head.state.visit_mm += self._head.rng.gauss(0.0, FRICTION_MM)
            self._rest()

    def _rest(self) -> None:
        self._over(REST_S * self._speed, lambda _, share: None)
        self._until_read(RESTED)

    def free(self) -> bool:
        """Lift the gauge clear of the surface: it shows its free reading."""
        with self._doing():
            if self._head.state.contact == "free":
                return False
            start = self._head.compression()

            def step(_: float, share: float) -> None:
                self._head.state.quill_mm += start * share

            self._over(LIFT_S, step)
            with self._lock:
                self._head.state.contact = "free"
        return True

    def set_on(self) -> bool:
        """Bring the contact down on the surface, pushed in by roughly the usual preload."""
        with self._doing():
            if self._head.state.contact == "set":
                return False
            with self._lock:
                self._head.set_down()
                preload = self._head.compression()
                self._head.state.quill_mm += preload

            def step(_: float, share: float) -> None:
                self._head.state.quill_mm -= preload * share

            self._over(LIFT_S, step)
        return True

    def zero(self) -> None:
        """Press the gauge's zero button."""
        with self._doing():
            self._gauge.press_zero()

    def unit(self) -> None:
        """Press the gauge's unit button."""
        with self._doing():
            self._gauge.press_unit()
