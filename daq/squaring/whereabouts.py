"""Does the gauge stand where it is said to? What the spare equation cannot see.

A circle walked the other way round, or opposite positions swapped, fits together as well
as a right one. The parked reading gives it away: it must be the one of its position.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from daq.units import SLACK_MM
from daq.words import OPPOSITE, POSITIONS, Position


@dataclass(frozen=True, slots=True)
class Agrees:
    """The parked reading is that of its own position."""


@dataclass(frozen=True, slots=True)
class LooksLike:
    """The parked reading is that of another position of the sweep."""

    other: Position


@dataclass(frozen=True, slots=True)
class LooksLikeNothing:
    """The parked reading is that of no one position; `offset_mm` from its own."""

    offset_mm: float


def compare(
    base_mm: float, position: Position, swept: Mapping[Position, float], limit_mm: float
) -> Agrees | LooksLike | LooksLikeNothing:
    """Compare the parked reading with the sweep's readings, all `pushed_in` mm.

    `position` must be one that was swept. Its own reading is believed before any other:
    on a nearly square head they are all alike. Of several others the opposite one is
    named: half a turn too far is the usual mistake (common practice, no source).
    """
    offset_mm = base_mm - swept[position]
    if abs(offset_mm) <= limit_mm + SLACK_MM:
        return Agrees()
    others = [
        other
        for other, read_mm in swept.items()
        if other != position and abs(base_mm - read_mm) <= limit_mm + SLACK_MM
    ]
    if OPPOSITE[position] in others:
        return LooksLike(OPPOSITE[position])
    return LooksLike(others[0]) if len(others) == 1 else LooksLikeNothing(offset_mm)


def relabel(swept: Mapping[Position, float], start: Position = "front") -> dict[Position, float]:
    """Return the readings as they belong if the circle was walked the other way round.

    Each place changes with its mirror image about the first one; that and its opposite stay.
    """
    return {mirrored(position, start): read_mm for position, read_mm in swept.items()}


def mirrored(position: Position, start: Position) -> Position:
    """Return the place that lies as far round from `start` the other way."""
    azimuth = (2.0 * POSITIONS[start] - POSITIONS[position]) % 360.0
    return next(place for place, at in POSITIONS.items() if at == azimuth)
