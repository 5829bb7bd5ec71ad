"""A drift that somebody says is steady: what stays in doubt of it, and what is the same drift.

Two readings of one spot lie on a line whatever came between. So the fit takes the line out, and
what stays is how far the way was from it: at most half of what it walked, anywhere within
(`terms`). What warms up exponentially stays within that half where its time constant is a fifth of
a sweep or more, and within an eighth from one sweep on; what comes all at once is a knock.

Two readings scatter besides: what they differ by is squared on average what it walked, and twice
their variance. That is in how well a spot repeats already, and is taken out before (`walked`).
"""

import math
from dataclasses import dataclass
from typing import Final

from daq.checks.finding import Finding, size
from daq.units import FINE
from daq.words import Said, Shown, Unit, said

BENT: Final = 0.5
"""A difference may be off by this part of what it walked, once the line is taken out."""
_SEEN: Final = 4.0
"""Two return errors scatter apart by twice what one reading does: two of these."""


def walked(return_mm: float, sd_mm: float) -> float:
    """Return what a reading walked by its return error, mm; `sd_mm`: of one at a visit."""
    return math.sqrt(max(return_mm * return_mm - 2.0 * sd_mm * sd_mm, 0.0))


@dataclass(frozen=True, slots=True)
class Walked:
    """How far the reading walked from the first of a sweep to the return, mm, in so many s."""

    mm: float
    seconds: float

    @property
    def mm_per_s(self) -> float:
        """How fast."""
        return self.mm / self.seconds

    def is_as(self, mm_per_s: float, sd_mm: float) -> bool:
        """Whether it walked as fast as that, within the doubt of both; `sd_mm`: of a reading."""
        expected_mm = mm_per_s * self.seconds
        return abs(self.mm - expected_mm) <= BENT * abs(expected_mm) + _SEEN * sd_mm

    def asked(self, limit_mm: float, unit: Unit) -> Said:
        """The question whether it walks so all the time."""
        found, allowed = size(self.mm, unit), size(limit_mm, unit)
        rate = self._rate(unit)
        return said("drift-asked", found=found, allowed=allowed, rate=rate, unit=unit)

    def told(self, limit_mm: float, unit: Unit) -> Finding:
        """What is said of it once it was: it stops nothing."""
        left = size(BENT * self.mm, unit)
        say = said("drift-steady", rate=self._rate(unit), left=left, unit=unit)
        return Finding(say, False, self.mm, limit_mm)

    def _rate(self, unit: Unit) -> Shown:
        return Shown(60.0 * self.mm_per_s, unit, FINE[unit], True)
