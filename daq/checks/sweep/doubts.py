"""What is not known exactly about a sweep: the [uncertainty] table of a machine's file."""

import math
from dataclasses import dataclass
from typing import Annotated, Final

from daq.settings import Angle, Length, Range, Warmer

_Small = Annotated[Length, Range(0.0, 1.0)]


_GROUND: Final = 0.001
_BARE: Final = 0.005
"""How far from flat a ground ring or plate is around the circle, and a bare table, mm."""


@dataclass(frozen=True, slots=True)
class Doubts:
    """How far each influence on a sweep may be off. Lengths mm, angles rad.

    The defaults are common practice, no source: a shop that knows better writes it down.

    `repeatability`: standard deviation of one reading between visits to a spot, and
    `repeatability_dof`, the degrees of freedom it is worth; left out, nobody measured it. `wedge`:
    how much thicker the ring or plate is on one side than on the other; with `wedge_known` it was
    measured to be that much (its direction on the table is not known), else it is at most that.
    `seating`: how far one side of the ring, or the block at one spot, may sit too high. `flatness`:
    how far what is swept, or what the block is put on, may be from flat along the circle: largest
    height less smallest, lean left out, so that the amplitude of a wave is half of it; left out,
    0.001 on a ring or plate and 0.005 on the table. `drift`: how far the reading may walk away and
    come back within one sweep, or walk within a pair check, with nothing to show it.
    `spindle_axial`: the most the spindle may rise and fall once a turn, amplitude; with
    `spindle_axial_known` it was measured to be that much (where in the turn is not known);
    `spindle_changes`: how much that may change in a year, once it was learned. `friction`: how far
    a sticking plunger on a springy arm may leave a reading off though it is always approached from
    the same side. `local_error`: how far the gauge may be off over the short span a sweep uses;
    left out, a fifth of its permissible error. `scale`: how much of what it shows it may be off.
    `radius`: half-width of the sweep radius. `parallel`: how far the plunger may stand off parallel
    to the spindle. `temperature`: how many kelvins one side of the ring or plate may be warmer than
    the other, and `thickness` its own. `condition`: in what state the machine is swept ("locks on,
    cold"); stated with the result.
    """

    repeatability: _Small = 0.0007
    repeatability_dof: Annotated[float, Range(1.0, 1e6)] | None = None
    wedge: _Small = 0.003
    wedge_known: bool = False
    seating: _Small = 0.0005
    flatness: _Small | None = None
    drift: _Small = 0.0005
    spindle_axial: _Small = 0.001
    spindle_axial_known: bool = False
    spindle_changes: _Small = 0.0003
    friction: _Small = 0.0005
    local_error: _Small | None = None
    scale: Annotated[float, Range(0.0, 0.5)] = 0.002
    radius: Annotated[Length, Range(0.0, 100.0)] = 1.0
    parallel: Annotated[Angle, Range(0.0, 0.5)] = math.pi / 180.0
    temperature: Annotated[Warmer, Range(0.0, 50.0)] = 1.0
    thickness: Annotated[Length, Range(0.0, 500.0)] = 25.0
    condition: str = ""

    def form(self, on_the_table: bool) -> float:
        """Return how far from flat the surface may be along the circle, mm."""
        if self.flatness is not None:
            return self.flatness
        return _BARE if on_the_table else _GROUND

    def local(self, max_error_mm: float, resolution_mm: float) -> float:
        """Return the gauge's error over a short span, mm, its last digit left out.

        A permissible error holds for what the gauge shows: up to half a count of it is the
        digit's, which is counted by itself (common practice, no source). A stated one stands.
        """
        if self.local_error is not None:
            return self.local_error
        return max(max_error_mm - resolution_mm / 2.0, 0.0) / 5.0
