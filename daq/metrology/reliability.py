"""Does what was stated come true? A statement held against the next reading, and counted.

A verdict says with which probability the error lies inside its limits. Nobody learns the error;
the next reading of it differs by the doubts of both and by what changed between. Brought back to
the doubt of the first, that difference is a draw from what the first one stated: inside the
limits it lies as often as was stated, if what was stated is so (PIT, textbook).
"""

import math
from dataclasses import dataclass
from typing import Final

from daq.metrology.budget import effective
from daq.metrology.student import normal_quantile, t_cdf, t_quantile, whole_dof

BANDS: Final = (0.0, 0.80, 0.90, 0.95, 0.99)
"""Where the bands of stated probability begin."""

FEWEST: Final = 20
"""So many statements of a band make a share: one more or less is then worth 5 %, the width of the
band from 90 to 95 %."""

LEARNS: Final = 3
"""So many pairs of readings only teach how far things go by themselves between two readings."""

WANDERS: Final = 2.0
"""Where that is so many times the doubt of both readings, less than a fifth of what they differ by
is theirs, and comparing them says next to nothing of what was stated."""

_RANGE: Final = 0.5 * math.pi
"""A variance over the square of the mean distance from zero, of a normal distribution."""


def band_of(probability: float) -> int:
    """Return which of `BANDS` a stated probability belongs to."""
    return sum(probability >= begin for begin in BANDS[1:])


@dataclass(frozen=True, slots=True)
class Between:
    """How far something goes by itself between two readings, learned of so many `pairs` of them.

    `moved_mm`: the sum of how far they were apart; `doubted`: that of the square of their doubt,
    mm². Nothing is kept of them but this.
    """

    pairs: int = 0
    moved_mm: float = 0.0
    doubted: float = 0.0

    def then(self, apart_mm: float, u_mm: float, most_mm: float) -> "Between":
        """The same with a pair more, of doubt `u_mm`; more than `most_mm` is no going by itself.

        What is beyond counts as that much, so that one knock does not stand for all later ones.
        """
        moved_mm = self.moved_mm + min(abs(apart_mm), most_mm)
        return Between(self.pairs + 1, moved_mm, self.doubted + u_mm * u_mm)

    @property
    def sd_mm(self) -> float:
        """Return its standard deviation: what the pairs differ by beyond their doubts."""
        return math.sqrt(self._beyond) if self._beyond > 0.0 else 0.0

    @property
    def dof(self) -> float | None:
        """Return its degrees of freedom; None where there is nothing of it."""
        if not self._beyond > 0.0:
            return None
        return self.pairs * (self._beyond / self._seen) ** 2

    @property
    def _seen(self) -> float:
        mean_mm = self.moved_mm / self.pairs if self.pairs else 0.0
        return _RANGE * mean_mm * mean_mm

    @property
    def _beyond(self) -> float:
        return self._seen - (self.doubted / self.pairs if self.pairs else 0.0)


@dataclass(frozen=True, slots=True)
class DoubtPart:
    """A standard uncertainty, mm, and its degrees of freedom; None for infinitely many."""

    u_mm: float
    dof: float | None = None


def brought_back(apart_mm: float, doubts: tuple[DoubtPart, ...], to: DoubtPart) -> float:
    """Return how far off the first reading was, were it alone to blame for the difference, mm.

    `doubts`: what the difference is in doubt by, part by part; `to`: the first reading by itself.
    As far out among its own doubts as `apart_mm` is among all of them.
    """
    u_mm = math.hypot(*(each.u_mm for each in doubts))
    if not u_mm:
        return apart_mm
    dof = effective(((each.u_mm, each.dof) for each in doubts), u_mm)
    far, own = abs(apart_mm) / u_mm, whole_dof(to.dof)
    many = math.inf if dof is None else max(1.0, dof)
    share = t_cdf(-far, many)
    if (many != own) and 0.0 < share < 0.5:
        far = -t_quantile(share, own)
    return math.copysign(far * to.u_mm, apart_mm)


def wilson(agreed: int, of: int, coverage: float = 0.95) -> tuple[float, float]:
    """Return the interval that holds the true share, so many having agreed.

    Wilson's, two-sided (NIST/SEMATECH e-Handbook, 7.2.4.1).

    Raises:
        ValueError: there is none to count, or more agreed than there are.
    """
    if not 0 <= agreed <= of or of == 0:
        raise ValueError(f"agreed: found {agreed} of {of}; allowed: 0 to all of at least one")
    z, share = normal_quantile(0.5 + 0.5 * coverage), agreed / of
    wide = 1.0 + z * z / of
    middle = share + 0.5 * z * z / of
    reach = z * math.sqrt(share * (1.0 - share) / of + 0.25 * z * z / (of * of))
    return max(0.0, (middle - reach) / wide), min(1.0, (middle + reach) / wide)
