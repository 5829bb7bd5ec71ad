"""What a stop-at carries of how near it must be met, and of what the number tells on the way."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Leaning:
    """What the parked number tells of its axis's lean while that is turned.

    Millimetres across the sweep, as results are: `at_stop_mm` is the error with the face at the
    stop-at, `per_mm` what it changes by for each mm on the face. A pair check taken at once lies
    about it with a standard deviation of `least_mm` where the face is `surest_mm` beyond the
    stop-at, and `grows` more for each mm from there, in quadrature.
    """

    at_stop_mm: float
    per_mm: float
    surest_mm: float
    least_mm: float
    grows: float

    def error_mm(self, beyond_mm: float) -> float:
        """The error with the face so far beyond the stop-at."""
        return self.at_stop_mm + self.per_mm * beyond_mm

    def doubt_mm(self, beyond_mm: float) -> float:
        """How far a pair check taken there lies from it, one standard deviation."""
        return math.hypot(self.least_mm, self.grows * (beyond_mm - self.surest_mm))
