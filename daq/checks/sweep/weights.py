"""How the difference of one axis follows each reading."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from daq.checks.sweep.reduce import solver
from daq.words import Axis

_SAME: Final = 9
"""Azimuths are one spot when they agree to this many decimals of a degree."""
_OPPOSITE: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Weights:
    """What each reading counts for in a difference, in the order read, and at which spot."""

    spots: tuple[float, ...]
    values: tuple[float, ...]

    def by_visit(self) -> float:
        """Return how what differs from reading to reading adds up: root of their squares' sum.

        Times one reading's standard deviation it is what the fit's covariance gives.
        """
        return math.hypot(*self.values)

    def by_spot(self) -> float:
        """Return the same for what is alike at every visit to a spot."""
        return math.hypot(*(self._at(spot) for spot in set(self.spots)))

    def hump(self) -> float:
        """Return how the difference follows readings moving that are not at the first spot.

        They move one way and come back: those that count one way may be all that moved.
        """
        others = [v for s, v in zip(self.spots, self.values, strict=True) if s != self.spots[0]]
        up = math.fsum(value for value in others if value > 0.0)
        return max(up, up - math.fsum(others))

    def wave(self, waves: Iterable[int]) -> float:
        """Return how the difference follows the amplitude of a surface's wave, the worst one.

        `waves`: so many high places around the circle, each in its worst phase.
        """
        phi = [math.radians(spot) for spot in self.spots]
        return max(math.hypot(*self._along(k, phi)) for k in waves)

    def _along(self, wave: int, phi: Sequence[float]) -> tuple[float, float]:
        pairs = tuple(zip(self.values, phi, strict=True))
        return (
            math.fsum(value * math.cos(wave * angle) for value, angle in pairs),
            math.fsum(value * math.sin(wave * angle) for value, angle in pairs),
        )

    def _at(self, wanted: float) -> float:
        pairs = zip(self.spots, self.values, strict=True)
        return math.fsum(value for spot, value in pairs if spot == wanted)


def weights(azimuths_deg: Sequence[float], orders: Sequence[float], axis: Axis) -> Weights:
    """Return how an axis's difference across the circle follows the readings of its fit.

    With `orders` a drift along them is fitted too. Two opposite azimuths are a pair check.

    Raises:
        ValueError: as `reduce.fit`, or two azimuths are not opposite ones of this axis.
    """
    spots = tuple(round(azimuth % 360.0, _SAME) % 360.0 for azimuth in azimuths_deg)
    if len(spots) == 2:
        return Weights(spots, _pair(spots, axis))
    made = solver(tuple(azimuths_deg), tuple(orders)).weights
    row = 2.0 * made[1] if axis == "side" else -2.0 * made[2]
    return Weights(spots, tuple(row.tolist()))


def _pair(spots: tuple[float, ...], axis: Axis) -> tuple[float, ...]:
    phi = [math.radians(spot) for spot in spots]
    along = [math.cos(angle) if axis == "side" else -math.sin(angle) for angle in phi]
    if abs(along[0]) < 1.0 - _OPPOSITE or abs(along[0] + along[1]) > _OPPOSITE:
        raise ValueError(f"found azimuths {spots}; allowed: two opposite ones on {axis}")
    return tuple(along)
