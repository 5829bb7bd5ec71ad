"""Where the gauge is read on a sweep, in what order, and how the spindle is turned."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from daq.settings import Range, cut
from daq.words import FOUR_POSITIONS, POSITIONS, Position

NEEDED: Final[tuple[Position, ...]] = ("front", "right", "left")
"""Without these an axis could not be checked between moves, nor parked for."""

RADII: Final = Range(5.0, 2000.0)
"""How far from the spindle axis a contact may stand, mm."""


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


def plan_of(positions: Sequence[Position]) -> Plan:
    """Return the sweep over `positions` in the order given, and back to the first.

    Side to side is checked by right and left; nod by front and back, or where the back
    cannot be reached by the front against the middle of right and left. So these three
    are always read. Raises ValueError, which says what was found and what is allowed.
    """
    found = tuple(positions)
    problem = _problem(found)
    if problem:
        raise ValueError(f"positions: found {cut(', '.join(found)) or 'none'}; {problem}")
    return Plan(found, returns=True)


def _problem(found: tuple[Position, ...]) -> str:
    """Return what is wrong with `found` as what is allowed instead; "" when nothing is."""
    if any(position not in POSITIONS for position in found):
        return f"allowed: {', '.join(POSITIONS)}"
    twice = [position for position in POSITIONS if found.count(position) > 1]
    if twice:
        return (
            f"allowed: each place once, and {twice[0]} stands there more than once "
            "(the return to the first is added by itself)"
        )
    missing = [position for position in NEEDED if position not in found]
    if missing:
        return (
            "allowed: three places or more, always with front, right and left; "
            f"missing: {', '.join(missing)}"
        )
    return ""


FOUR: Final = plan_of(FOUR_POSITIONS)
"""Front, right, back, left and the same way back to front.

The spindle never passes 270° from the start, and the gauge ends parked for nod.
"""
