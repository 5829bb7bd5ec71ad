"""Is an error inside its tolerance? The simple rule: what was read is compared as it is."""

import math
from dataclasses import dataclass
from typing import Literal

Word = Literal["in", "out"]

SLACK_MM = 1e-9
"""Far below any gauge's count: an error equal to the limit is not lost to a float's last bit."""


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A limit to either side over a length, both mm: 0.025 over 300.

    Raises:
        ValueError: either is not a finite length above zero.
    """

    limit_mm: float
    over_mm: float

    def __post_init__(self) -> None:
        """Refuse lengths that cannot be a tolerance."""
        for name, value in (("limit_mm", self.limit_mm), ("over_mm", self.over_mm)):
            if not (math.isfinite(value) and value > 0.0):
                raise ValueError(f"{name}: found {value}; allowed: a length above 0 mm")

    def at(self, diameter_mm: float) -> float:
        """Return the limit, mm, on the difference read across `diameter_mm`."""
        return self.limit_mm * diameter_mm / self.over_mm


@dataclass(frozen=True, slots=True)
class AxisVerdict:
    """One axis's error against its limit, mm, over the same length.

    `zone` is error over limit, signed: within −1 … +1 is in.
    """

    word: Word
    error_mm: float
    limit_mm: float
    zone: float


def simple(error_mm: float, limit_mm: float) -> AxisVerdict:
    """Judge an error against a limit to either side; an error equal to the limit is in.

    Simple acceptance: no part of the tolerance is kept back for the uncertainty of the
    reading. `limit_mm` must be above zero.
    """
    inside = abs(error_mm) <= limit_mm + SLACK_MM
    return AxisVerdict("in" if inside else "out", error_mm, limit_mm, error_mm / limit_mm)
