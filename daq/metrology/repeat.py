"""How well a spot reads the same when the gauge comes back to it, pooled over many visits.

One sweep cannot tell it. Each time a spot is read again with nothing touched in between,
the two readings differ by √2 of one reading's scatter.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

_ASSUMED: Final = 8.0
"""What nobody measured counts as so many readings beside those seen: as if known to a quarter
(JCGM 100, G.4.2; the quarter: common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Repeat:
    """The standard deviation of one reading, mm, and its degrees of freedom; None: assumed.

    `seen`: the share of its square that visits showed; the rest is the figure they began from.
    """

    sd_mm: float
    dof: float | None
    seen: float = 0.0

    def without(self, u_mm: float) -> float:
        """Return what is left to count of `u_mm`, mm, that scatters with each visit.

        Visits show that, too: it is in their share of the figure already, though never more of
        it than the figure is. What nobody has seen yet of it stays.
        """
        return math.sqrt(u_mm * u_mm - self.seen * min(u_mm, self.sd_mm) ** 2)


def pooled(
    sd_mm: float, dof: float | None, differences_mm: Sequence[float], digit_mm: float = 0.0
) -> Repeat:
    """Return the standard deviation of one reading from an assumed one and what was seen.

    `sd_mm` counts as if known from `dof` degrees of freedom; each difference between two
    readings of one spot adds one, with half its square (pooled variance, textbook). What the
    gauge's last digit, `digit_mm`, makes them differ is taken out: it is counted by itself.

    Without `dof` nobody measured `sd_mm`: it is assumed, and like every other bound of judgement
    has none to count, until what is seen outweighs it. It steadies the figure from then on, too,
    but what was seen alone counts as freedom: a guess is never taken for readings.

    Raises:
        ValueError: `dof` is not above zero.
    """
    if dof is not None and not dof > 0.0:
        raise ValueError(f"dof: found {dof}; allowed: above 0")
    seen = sum(0.5 * d * d for d in differences_mm)
    rounded = len(differences_mm) * digit_mm * digit_mm / 12.0
    worth = _ASSUMED if dof is None else dof
    total = worth * sd_mm * sd_mm + max(seen - rounded, 0.0)
    visits = float(len(differences_mm))
    freedom = dof + visits if dof is not None else visits if visits >= _ASSUMED else None
    return Repeat(math.sqrt(total / (worth + visits)), freedom, visits / (worth + visits))
