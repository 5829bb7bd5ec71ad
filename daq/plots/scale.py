"""From a picture's values to where they are drawn, and the round numbers beside them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

_ROUND: Final = (1.0, 2.0, 5.0, 10.0)
_WIDEST: Final = 1e9
"""No value of a machine comes near it; what does lies beyond any picture."""
_SAME: Final = 1e-9
"""Relative: a span below this is rounding."""


def written(value: float, digits: int, *, plus: bool = False) -> str:
    """A value with its decimals; one that rounds to zero has no sign."""
    text = f"{value:{'+' if plus else ''}.{digits}f}"
    return text.lstrip("+-") if float(text) == 0.0 else text


@dataclass(frozen=True, slots=True)
class Ruler:
    """Values from `low` to `high`, drawn from `start` to `end`; `ticks` are round numbers between.

    `digits`: as many decimals as the ticks need.
    """

    low: float
    high: float
    start: float
    end: float
    ticks: tuple[float, ...]
    digits: int

    def at(self, value: float) -> float:
        """Where a value is drawn; one beyond the scale, at its end."""
        part = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return self.start + part * (self.end - self.start)

    def beyond(self, value: float) -> int:
        """1 of a value above the scale, -1 of one below it, else 0."""
        slack = _SAME * (self.high - self.low)
        return (value > self.high + slack) - (value < self.low - slack)


def scale(
    values: Sequence[float], start: float, end: float, most: int, least: float = _SAME
) -> Ruler:
    """Return the scale that shows all values, with at most `most` steps between its ticks.

    It ends at ticks. `least`: it spans no less; no values at all span just that around zero.
    """
    kept = [min(max(value, -_WIDEST), _WIDEST) for value in values] or [0.0]
    low, high = min(kept), max(kept)
    span = max(high - low, least, _SAME * max(abs(low), abs(high)))
    middle = (low + high) / 2.0
    low, high = min(low, middle - span / 2.0), max(high, middle + span / 2.0)
    step = _step(span / most)
    first, last = math.floor(low / step + _SAME), math.ceil(high / step - _SAME)
    if first == last:
        last += 1
    ticks = tuple(n * step for n in range(first, last + 1))
    digits = max(0, -math.floor(math.log10(step) + _SAME))
    return Ruler(ticks[0], ticks[-1], start, end, ticks, digits)


def within(values: Sequence[float], core: Sequence[float], times: float) -> tuple[float, ...]:
    """The core and those values that lie no more than so many times as far from zero.

    One reading of a head that was hit shows the others as a flat line, were it drawn to scale.
    """
    if not any(core):
        return (*core, *values)
    most = times * max(abs(value) for value in core)
    return (*core, *(min(max(value, -most), most) for value in values))


def _step(least: float) -> float:
    """The smallest 1, 2 or 5 times a power of ten that is no less."""
    power = 10.0 ** math.floor(math.log10(least))
    return power * next(n for n in _ROUND if n * power >= least * (1.0 - _SAME))
