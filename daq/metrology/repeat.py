"""How well a spot reads the same when the gauge comes back to it, pooled over many visits.

One sweep cannot tell it. Each time a spot is read again with nothing touched in between,
the two readings differ by √2 of one reading's scatter.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Repeat:
    """The standard deviation of one reading, mm, and its degrees of freedom."""

    sd_mm: float
    dof: float


def pooled(
    sd_mm: float, dof: float, differences_mm: Sequence[float], digit_mm: float = 0.0
) -> Repeat:
    """Return the standard deviation of one reading from an assumed one and what was seen.

    `sd_mm` counts as if known from `dof` degrees of freedom; each difference between two
    readings of one spot adds one, with half its square (pooled variance, textbook). What the
    gauge's last digit, `digit_mm`, makes them differ is taken out: it is counted by itself.

    Raises:
        ValueError: `dof` is not above zero.
    """
    if not dof > 0.0:
        raise ValueError(f"dof: found {dof}; allowed: above 0")
    seen = sum(0.5 * d * d for d in differences_mm)
    rounded = len(differences_mm) * digit_mm * digit_mm / 12.0
    total = dof * sd_mm * sd_mm + max(seen - rounded, 0.0)
    together = dof + len(differences_mm)
    return Repeat(math.sqrt(total / together), together)
