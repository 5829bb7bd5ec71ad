"""Control charts of a short series: individuals with their moving range, and EWMA.

Both ask whether a value belongs with those before it; neither knows a tolerance.
Formulas: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (individuals) and
6.3.2.4 (EWMA).
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final

D2: Final = 1.128
"""Mean range of two values from a normal distribution, in standard deviations (2/√π)."""

WIDTH: Final = 3.0
"""Limits lie this many standard deviations from the middle."""

LAMBDA: Final = 0.2
"""An EWMA's weight of the newest value: 0.2 to 0.3 finds a slow drift (e-Handbook 6.3.2.4)."""

_SLACK: Final = 1e-12
"""Relative: a value equal to a limit is not lost to a float's last bits."""


@dataclass(frozen=True, slots=True)
class Chart:
    """An individuals chart: its middle and limits, in the values' own unit.

    `sd`: the standard deviation from one value to the next, mean moving range over 1.128.
    """

    center: float
    low: float
    high: float
    mean_moving_range: float
    sd: float

    def outside(self, values: Sequence[float]) -> tuple[int, ...]:
        """Return which of these values lie beyond a limit."""
        return tuple(i for i, value in enumerate(values) if _beyond(value, self.low, self.high))


@dataclass(frozen=True, slots=True)
class EwmaChart:
    """An EWMA chart: the smoothed points and their limits, in the values' own unit.

    `lows` and `highs` are the exact limits at each point, `low` and `high` what they
    widen to. `outside`: which points lie beyond theirs.
    """

    target: float
    points: tuple[float, ...]
    lows: tuple[float, ...]
    highs: tuple[float, ...]
    low: float
    high: float

    @property
    def outside(self) -> tuple[int, ...]:
        """Return which points lie beyond their exact limits."""
        bounded = zip(self.lows, self.points, self.highs, strict=True)
        return tuple(i for i, (low, at, high) in enumerate(bounded) if _beyond(at, low, high))


@dataclass(frozen=True, slots=True)
class Sums:
    """What the charts need of the values so far, however many: nothing of them is kept but this.

    `total`, `moved`: the sums of the values and of their moving ranges; `last`: the latest;
    `decayed`: an EWMA (weight `LAMBDA`) of them that begins at zero.
    """

    count: int = 0
    total: float = 0.0
    moved: float = 0.0
    last: float = 0.0
    decayed: float = 0.0

    def then(self, value: float) -> "Sums":
        """The same with one value more."""
        return Sums(
            self.count + 1,
            self.total + value,
            self.moved + (abs(value - self.last) if self.count else 0.0),
            value,
            LAMBDA * value + (1.0 - LAMBDA) * self.decayed,
        )

    def after(self, values: Iterable[float]) -> "Sums":
        """The same with more values."""
        return reduce(Sums.then, values, self)

    def individuals(self) -> Chart:
        """Return the individuals chart of all of them; `individuals` says how.

        Raises:
            ValueError: fewer than two values, which have no moving range.
        """
        if self.count < 2:
            raise ValueError(f"values: found {self.count}; allowed: two or more")
        center = self.total / self.count
        moving_range = self.moved / (self.count - 1)
        sd = moving_range / D2
        return Chart(center, center - WIDTH * sd, center + WIDTH * sd, moving_range, sd)

    def ewma(self, values: Sequence[float], target: float, sd: float) -> EwmaChart:
        """Return the EWMA chart of the values that come after these."""
        begun = self.decayed + (1.0 - LAMBDA) ** self.count * target
        return _ewma(values, target, sd, LAMBDA, begun, self.count)


def individuals(values: Sequence[float]) -> Chart:
    """Return the individuals chart of values in the order they were found.

    center = mean; limits = mean ± 3·MR/1.128 with MR the mean of |xᵢ − xᵢ₋₁|.

    Raises:
        ValueError: fewer than two values, which have no moving range.
    """
    return Sums().after(values).individuals()


def ewma(values: Sequence[float], target: float, sd: float, lam: float = LAMBDA) -> EwmaChart:
    """Return the EWMA chart of values in the order they were found.

    zₜ = λ·xₜ + (1 − λ)·zₜ₋₁ from z₀ = target; limits at t = target ±
    3·sd·√(λ/(2 − λ)·(1 − (1 − λ)²ᵗ)). `sd`: the values' standard deviation.

    Raises:
        ValueError: `lam` is not above 0 and at most 1, or `sd` is below 0.
    """
    if not 0.0 < lam <= 1.0:
        raise ValueError(f"lam: found {lam}; allowed: above 0 and at most 1")
    if not sd >= 0.0:
        raise ValueError(f"sd: found {sd}; allowed: 0 or more")
    return _ewma(values, target, sd, lam, target, 0)


def _ewma(
    values: Sequence[float], target: float, sd: float, lam: float, begun: float, count: int
) -> EwmaChart:
    """The chart of values after so many that have come to `begun`."""
    points, at = [], begun
    for value in values:
        at = lam * value + (1.0 - lam) * at
        points.append(at)
    widest = WIDTH * sd * math.sqrt(lam / (2.0 - lam))
    times = range(count + 1, count + len(points) + 1)
    reach = [widest * math.sqrt(1.0 - (1.0 - lam) ** (2 * t)) for t in times]
    return EwmaChart(
        target,
        tuple(points),
        tuple(target - each for each in reach),
        tuple(target + each for each in reach),
        target - widest,
        target + widest,
    )


def _beyond(value: float, low: float, high: float) -> bool:
    slack = _SLACK * max(abs(value), abs(low), abs(high))
    return not low - slack <= value <= high + slack
