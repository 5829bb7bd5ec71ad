"""What a machinist sees and reaches at one machine: the port that every pair of hands works by.

Behind it stands a practice mill and a running service, a model of a head and decisions in
memory, or a page in a browser. Whoever is to do something else than the screen says drives
it directly.
"""

import datetime
from collections.abc import Mapping
from typing import Any, Literal, Protocol

from daq.words import Ack, Axis, Position

Plain = Mapping[str, Any]
"""A page's plain snapshot, or a part of one."""

TurnedRound = Literal["ring", "arm"]


class CannotError(Exception):
    """What was told could not be done; the machinist adds what stands on the screen."""


class Workplace(Protocol):
    """One machine as a person meets it. Every call returns when it is done.

    Those that work the machine raise CannotError when it does not come off.
    """

    def look(self) -> Plain:
        """The console's snapshot: title, detail, `actions`, `do`, numbers."""
        ...

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press a button of the console."""
        ...

    def today(self) -> datetime.date:
        """What the calendar on the wall says."""
        ...

    def wait(self, seconds: float) -> None:
        """Let time go by: on the clock of the place, which a simulated one only counts."""
        ...

    def number(self) -> str:
        """The number that stands on the gauge."""
        ...

    def read(self) -> float:
        """What stands on the gauge's own face, in its unit."""
        ...

    def lift(self) -> None:
        """Let the contact hang free in the air."""
        ...

    def push(self) -> None:
        """Push the contact in by hand and let it go."""
        ...

    def swing(self, position: Position) -> None:
        """Swing the gauge there; its contact stands on the surface then."""
        ...

    def flick(self) -> None:
        """Flick the arm three times and let it rest after each; where there is none, nothing."""

    def come(self, station: Plain) -> None:
        """Come to a station of another check than the sweep, as the console's `do` names it."""
        ...

    def slow_turn(self) -> None:
        """Turn the spindle slowly, once round from the front and back, past a collar's switches."""
        raise CannotError("no switch tells here where the arm is")

    def turn_round(self, what: TurnedRound) -> None:
        """Turn the ring, or the arm in the spindle, half round under the lifted contact."""
        ...

    def crack(self, axis: Axis) -> None:
        """Loosen an axis's bolts until they are snug."""
        ...

    def turn(self, axis: Axis, reads: float) -> None:
        """Work an axis until its gauge's face reads that: by adjuster, by hand or with shims."""
        ...

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn an adjuster a little: back the way it was not turned last, or either way."""
        ...

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Pull up one bolt by one step, or all bolts of the axis as far as they go."""
        ...
