"""What a person does with the gauge: swing it, lift it, push it, press its buttons."""

import math
from typing import Final

from daq.virtual.bench import Bench
from daq.virtual.standing import UNWOUND
from daq.words import Position

QUARTER_S: Final = 1.5
PUSH_S: Final = 0.8
LIFT_S: Final = 1.5
ARM_S: Final = 6.0
PUSH_MM: Final = 0.6
HAND_ON_ARM_MM: Final = 0.002
"""How unsteady the number is while a hand moves the arm, mm."""


class AtGauge(Bench):
    """Operations on the gauge. Each returns a plain sentence about what happened."""

    def swing_to(self, position: Position) -> str:
        """Swing the arm to `position`, the way round that does not wind up the cable."""
        with self._doing(f"swinging to {position}"):
            way_deg = UNWOUND[position] - self._head.state.azimuth_deg
            if way_deg == 0.0 and self._head.state.set_up == "ring":
                return f"The gauge is at the {position} already."
            self._swinging = True

            def step(_: float, share: float) -> None:
                self._head.state.azimuth_deg += way_deg * share
                self._head.unsteady(HAND_ON_ARM_MM)

            self._over(QUARTER_S * abs(way_deg) / 90.0, step)
            with self._lock:
                self._head.land(position)
                self._swinging = False
        return f"The gauge is at the {position}."

    def turn_arm(self) -> str:
        """Clamp the lifted arm half a turn round in the spindle; the gauge stands where it did."""
        with self._doing("clamping the arm the other way round"):
            if self._head.state.contact == "set":
                return "The contact stands on the surface: lift it first."
            self._over(ARM_S, lambda _, share: None)
            with self._lock:
                self._head.state.arm_deg = (self._head.state.arm_deg + 180.0) % 360.0
                self._head.state.arm_mm = 0.0
        return "The arm is clamped the other way round in the spindle."

    def push_contact(self) -> str:
        """Push the contact in and let it go again."""
        with self._doing("pushing the contact"):

            def step(done: float, _: float) -> None:
                self._push_mm = PUSH_MM * math.sin(math.pi * done) if done < 1.0 else 0.0

            self._over(PUSH_S, step)
        return "Pushed and let go."

    def free(self) -> str:
        """Lift the gauge clear of the surface: it shows its free reading."""
        with self._doing("lifting the gauge"):
            if self._head.state.contact == "free":
                return "The contact is in the air already."
            start = self._head.compression()

            def step(_: float, share: float) -> None:
                self._head.state.quill_mm += start * share

            self._over(LIFT_S, step)
            with self._lock:
                self._head.state.contact = "free"
        return "The contact is in the air."

    def set_on(self) -> str:
        """Bring the contact down on the surface, pushed in by roughly the usual preload."""
        with self._doing("setting the gauge on the surface"):
            if self._head.state.contact == "set":
                return "The contact is on the surface already."
            with self._lock:
                self._head.set_down()
                preload = self._head.compression()
                self._head.state.quill_mm += preload

            def step(_: float, share: float) -> None:
                self._head.state.quill_mm -= preload * share

            self._over(LIFT_S, step)
        return f"The contact is on the surface, pushed in by about {preload:.1f} mm."

    def zero(self) -> str:
        """Press the gauge's zero button."""
        with self._doing("pressing zero"):
            self._gauge.press_zero()
        return "Zeroed."

    def unit(self) -> str:
        """Press the gauge's unit button."""
        with self._doing("pressing the unit button"):
            self._gauge.press_unit()
        return f"The gauge shows {self._gauge.unit} now."
