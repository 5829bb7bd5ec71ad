"""Where to park, and the reading to stop at.

With the gauge parked at sweep radius R, the pivot of the axis a horizontal distance p
from the spindle, counted positive away from the parked position, and the pivot a height
h above the contact's plane, a lean t toward the parked position shows as

    m(t) = (R + p) t − h √(1 + t²) + constant

(the line of the plunger cut by the table's plane; exact for one axis alone, with p
measured square to the spindle). A nod of n lowers the side pivot by the nod pivot's
distance times n; with h taken as if the head stood square, a move of side is then short
by that times (t² − w²)/2, some 0.1 µm at 10 mrad.
"""

import math
from dataclasses import dataclass

from daq.words import OPPOSITE, PARKED, Axis, Position

_LEAST_SHARE = 0.5
_NOTHING = 0.2
"""This part of the radius from the pivot, or nearer, a parked gauge hardly moves."""


@dataclass(frozen=True, slots=True)
class Move:
    """One move: from `base_mm` turn until the gauge stands at `stop_mm`, `pushed_in`.

    `t` is the lean toward the parked position now and `wanted` the one to reach;
    `sensitivity_mm` is the change of the reading per unit of slope, mm.
    """

    axis: Axis
    position: Position
    base_mm: float
    stop_mm: float
    t: float
    wanted: float
    sensitivity_mm: float

    @property
    def change_mm(self) -> float:
        """How the reading must change, mm."""
        return self.stop_mm - self.base_mm


def stop_at(
    base_mm: float,
    t: float,
    wanted: float,
    radius_mm: float,
    pivot_away_mm: float,
    pivot_height_mm: float,
) -> float:
    """Return the parked reading, `pushed_in` mm, at which to stop turning.

    `base_mm` is the parked reading while still clamped, `t` the lean toward the parked
    position, `wanted` the lean to reach. `pivot_away_mm` counts positive away from the
    parked position (see `pivot_from_parked`).
    """
    bent_mm = bend_mm(t, wanted, pivot_height_mm)
    return base_mm + (radius_mm + pivot_away_mm) * (wanted - t) + bent_mm


def bend_mm(t: float, wanted: float, pivot_height_mm: float) -> float:
    """Return what a pivot so high above the contact's plane adds to the reading on that turn."""
    return pivot_height_mm * (math.sqrt(1.0 + t * t) - math.sqrt(1.0 + wanted * wanted))


def advise(
    axis: Axis,
    position: Position,
    base_mm: float,
    t: float,
    wanted: float,
    radius_mm: float,
    pivot_distance_mm: float,
    pivot_height_mm: float,
) -> Move:
    """Return the move of `axis` with the gauge parked at `position`.

    `pivot_distance_mm` is that of the axis as its usual parked position sees it.

    Raises:
        ValueError: the position does not lie on the axis.
    """
    away_mm = pivot_from_parked(axis, position, pivot_distance_mm)
    stop_mm = stop_at(base_mm, t, wanted, radius_mm, away_mm, pivot_height_mm)
    return Move(axis, position, base_mm, stop_mm, t, wanted, sensitivity(radius_mm, away_mm))


def pivot_from_parked(axis: Axis, position: Position, pivot_distance_mm: float) -> float:
    """Return the pivot's distance from the spindle, positive away from `position`, mm.

    `pivot_distance_mm` is counted away from the axis's usual parked position: for side
    a pivot left of the spindle, for nod one behind it, is above zero.

    Raises:
        ValueError: the position does not lie on the axis.
    """
    if position == PARKED[axis]:
        return pivot_distance_mm
    if position == OPPOSITE[PARKED[axis]]:
        return -pivot_distance_mm
    usual = PARKED[axis]
    raise ValueError(
        f'parked for {axis}: found "{position}"; allowed: {usual} or {OPPOSITE[usual]}'
    )


def sensitivity(radius_mm: float, pivot_away_mm: float) -> float:
    """Return the change of the parked reading per unit of slope of the lean, mm."""
    return radius_mm + pivot_away_mm


def is_blind(radius_mm: float, pivot_away_mm: float, doubt_mm: float) -> bool:
    """Return whether the pivot is known too badly for a stop-at: it might as well be anywhere."""
    return doubt_mm > _LEAST_SHARE * abs(sensitivity(radius_mm, pivot_away_mm))


def sees_nothing(radius_mm: float, pivot_away_mm: float) -> bool:
    """Return whether a gauge parked there stands over the pivot, and hardly moves."""
    return abs(sensitivity(radius_mm, pivot_away_mm)) < _NOTHING * radius_mm


def sees_too_little(
    position: Position, radius_mm: float, pivot_away_mm: float, opposite_away_mm: float
) -> Position | None:
    """Return where to park instead if the gauge at `position` hardly sees a move.

    It sees too little when its sensitivity is less than half of that at the opposite
    position: over the pivot a gauge does not move at all. Each pivot distance counts
    positive away from its own position. None means: park here.
    """
    here = abs(sensitivity(radius_mm, pivot_away_mm))
    there = abs(sensitivity(radius_mm, opposite_away_mm))
    return OPPOSITE[position] if here < _LEAST_SHARE * there else None
