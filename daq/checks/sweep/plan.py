"""Where the gauge is read on a sweep, in what order, and how the spindle is turned."""

from dataclasses import dataclass
from typing import Final

from daq.words import Position


@dataclass(frozen=True, slots=True)
class Plan:
    """The positions of a sweep in the order they are read.

    With `returns` the first is read once more at the end, the spindle being turned back
    the way it came, so that the gauge's cable ends unwound.
    """

    positions: tuple[Position, ...]
    returns: bool

    @property
    def sequence(self) -> tuple[Position, ...]:
        """Every reading's position in order, the return reading included."""
        return self.positions + self.positions[:1] if self.returns else self.positions


FOUR: Final = Plan(positions=("front", "right", "back", "left"), returns=True)
"""Front, right, back, left and the same way back to front.

The spindle never passes 270° from the start, and the gauge ends parked for nod.
"""
