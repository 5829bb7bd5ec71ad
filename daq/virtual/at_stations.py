"""What a person does for another check than the sweep: turn the spindle, move the table."""

from typing import Final, Literal

from daq.virtual.bench import Bench
from daq.virtual.stations import tapped

SET_UP_S: Final = 3.0
TURN_S: Final = 1.5
MOVE_S: Final = 1.5
TAP_S: Final = 0.3


class AtStations(Bench):
    """Operations that bring the gauge to a station."""

    def turn_spindle(self, to_deg: float, below_mm: float, seat: int = 1) -> None:
        """Turn the spindle under a gauge that stands so far below its nose, on a bar in it."""
        with self._doing():
            now = (self._head.state.below_mm, self._head.state.seat)
            self._set_up("bar", anew=now != (below_mm, seat))
            with self._lock:
                self._head.state.below_mm, self._head.state.seat = below_mm, seat
            self._come("spindle_deg", to_deg, TURN_S)

    def move_table(self, axis: Literal["x", "y"], to_mm: float) -> None:
        """Move the table under a gauge in the spindle, on an edge along that travel."""
        with self._doing():
            self._set_up("edge", anew=self._head.state.travel != axis)
            with self._lock:
                self._head.state.travel = axis
            self._come("table_mm", to_mm, MOVE_S)

    def move_along_jaw(self, to_mm: float) -> None:
        """Move the table until the gauge in the spindle stands at that place of the vise's jaw."""
        with self._doing():
            self._set_up("jaw", anew=False)
            self._come("table_mm", to_mm, MOVE_S)

    def tap_jaw(self, away_mm: float) -> bool:
        """Tap the vise's jaw where the contact is, away from the gauge."""
        with self._doing():
            state = self._head.state
            if state.set_up != "jaw" or state.contact == "free":
                return False
            with self._lock:
                really_mm = self._head.grip(away_mm)
            rise, left_mm = tapped(self._head.spec.jaw, state.table_mm, really_mm)

            def step(_: float, share: float) -> None:
                state.jaw_rise += rise * share
                state.jaw_mm += left_mm * share

            self._over(TAP_S, step)
        return True

    def _set_up(self, what: Literal["bar", "edge", "jaw"], *, anew: bool) -> None:
        """Set the gauge up on something else: its contact is set down afresh at the next place."""
        with self._lock:
            if self._head.state.set_up == what and not anew:
                return
            self._head.state.set_up, self._head.state.contact = what, "free"
        self._over(SET_UP_S, lambda _, share: None)

    def _come(self, name: Literal["spindle_deg", "table_mm"], to: float, seconds: float) -> None:
        state = self._head.state
        way = to - getattr(state, name)
        self._over(
            seconds, lambda _, share: setattr(state, name, getattr(state, name) + way * share)
        )
        with self._lock:
            setattr(state, name, to)
            if state.contact == "free":
                self._head.set_down()
            self._head.unsteady(self._head.spec.gauge.visit_sd_mm)
