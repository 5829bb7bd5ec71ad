"""The arm as it is clamped in the spindle, and what is known of the spindle's rise once a turn.

What a sweep reads at the contact's azimuth φ (plane geometry; θ is the azimuth of a mark on the
spindle, γ = φ - θ how far past it the arm is clamped):

    c + R (a cos φ + b sin φ)     the lean of the axis about which the spindle turns
      + R w · e(φ)                the ring's wedge, a slope that turns with the ring
      + z(θ)                      how the spindle moves along itself as it turns

The rise z has a period of one turn of the spindle against its head. Its part once a turn,
A cos(θ - α), reads A cos(φ - γ - α): in phase with the lean, so that one sweep cannot tell it, nor
can two with the ring turned, which change nothing in it. The arm clamped half round makes γ + 180°
of γ, and its sign changes while lean and wedge stay: half the difference of two such sweeps is the
rise, their mean the lean with the wedge. Half the difference of two with the ring turned is the
wedge, their mean the lean with the rise. So either reversal tells its own part and nothing of
the other, and both are needed to leave both out. Toward the mark and across, the rise is A e(α)
whichever way the arm is clamped, as the wedge is in the ring's frame; it is a length, whatever
the radius, and reads 2 A across the sweep.

What neither tells: a spindle that tilts twice a turn reads R T cos(φ - 2 γ), which is a lean, too,
and the same for γ + 180°. Two waves a turn along itself show where more places are read than
unknowns are (`reduce.py`), three read as once a turn does at four places, and turn as it does when
the arm goes round by quarters. A rise that was learned is contradicted by another reversal only:
a sweep alone has no equation to spare for it.
"""

from dataclasses import dataclass, replace
from typing import Final

from daq.checks.sweep.by_mark import ByMark
from daq.words import OPPOSITE, POSITIONS, Position

ACROSS: Final = 2.0
"""Opposite spots differ by twice the amplitude."""
SPINDLE: Final = ""
"""The spindle's key among what reversals taught, where each ring has its name."""


@dataclass(frozen=True, slots=True)
class Clamped:
    """The arm in the spindle: where the spindle's mark points while the arm is in front."""

    mark: Position
    rise: ByMark | None

    @property
    def mark_deg(self) -> float:
        """How far past the mark the arm is."""
        return POSITIONS["front"] - POSITIONS[self.mark]

    def turned(self) -> "Clamped":
        """The arm clamped half round."""
        return replace(self, mark=OPPOSITE[self.mark])
