"""Did anything change? A change is held against its own doubt, and told what it would show.

Nothing changed is doubted where the change is larger than in a share `ALARMS` of all cases in
which nothing did: t(1 − ALARMS/2) standard uncertainties, either way. A change of t(1 − ALARMS/2)
+ t(1 − MISSED) of them is noticed in all but a share `MISSED` (NIST/SEMATECH e-Handbook, 7.2.2.2,
sample sizes solved for the difference; with Student's t for few degrees of freedom).
"""

from dataclasses import dataclass
from typing import Final

from daq.metrology.student import t_quantile, whole_dof
from daq.units import SLACK_MM

ALARMS: Final = 0.05
MISSED: Final = 0.05


@dataclass(frozen=True, slots=True)
class Noticed:
    """Whether it `moved`: by more than `limit_mm`; and that `sees_mm` would have been noticed."""

    moved: bool
    limit_mm: float
    sees_mm: float


def noticed(change_mm: float, u_mm: float, dof: float | None) -> Noticed:
    """Hold a change of standard uncertainty `u_mm` against it; `dof`: None for infinitely many."""
    whole = whole_dof(dof)
    limit_mm = t_quantile(1.0 - ALARMS / 2.0, whole) * u_mm
    sees_mm = limit_mm + t_quantile(1.0 - MISSED, whole) * u_mm
    return Noticed(abs(change_mm) > limit_mm + SLACK_MM, limit_mm, sees_mm)
