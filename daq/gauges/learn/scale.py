"""From one known push to the unit and the size of a count."""

from dataclasses import dataclass
from math import isclose
from typing import Final

from daq.units import MM_PER
from daq.words import Unit

_STEPS: Final = (1, 2, 5)
"""What gauges count in, in units of some decimal place (common practice, no source)."""
_NEAR: Final = 0.03
"""A push by hand on a gauge block is this near to its length, as a part of it."""
_COUNTS: Final = 1.5
_MOST_PLACES: Final = 6
_COARSEST_MM: Final = 0.1
UNITS: Final[tuple[Unit, Unit]] = ("mm", "in")


@dataclass(frozen=True, slots=True)
class Scale:
    """A count is worth `step` in units of the last of `places` decimals of a `unit`."""

    unit: Unit
    places: int
    step: int = 1

    @property
    def size(self) -> float:
        """A count in its unit."""
        return float(f"{self.step}e-{self.places}")

    def off(self, counts: float, push_mm: float) -> float:
        """Return how far so many counts are from a push, as a part of it."""
        return abs(counts * self.size * MM_PER[self.unit] / push_mm - 1.0)


def of_counts(counts: float, push_mm: float, steps: tuple[int, ...] = _STEPS) -> list[Scale]:
    """Return what a count may be worth when so many of them are a push, the likeliest first."""
    if not counts:
        return []
    allowed = max(_NEAR, _COUNTS / abs(counts))
    scales = [
        Scale(unit, places, step)
        for unit in UNITS
        for places in range(_MOST_PLACES + 1)
        for step in steps
    ]
    fits = [
        each
        for each in scales
        if each.off(abs(counts), push_mm) <= allowed
        and each.size * MM_PER[each.unit] <= _COARSEST_MM
    ]
    return sorted(fits, key=lambda each: each.off(abs(counts), push_mm))


def of_number(change: float, push_mm: float) -> Unit | None:
    """Return the unit in which a change of the gauge's number is a push; None for neither."""
    for unit in UNITS:
        if isclose(abs(change) * MM_PER[unit], push_mm, rel_tol=2 * _NEAR):
            return unit
    return None


def places_for(digits: int, push_mm: float) -> list[Scale]:
    """Return where the point may stand when the digits changed by so much during a push."""
    return of_counts(digits, push_mm, (1,))
