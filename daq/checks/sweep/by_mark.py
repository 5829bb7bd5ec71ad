"""What turns with a thing that bears a mark, known in the thing's own frame.

Its size and direction are two numbers: toward the mark, and across. Known so, they are known
wherever the mark points (plane geometry). What reversals tell of them is weighed by its variances
(least squares); what the thing may change by since is added to the doubt. A change may go one way
year after year: its bounds add up, they are no errors apart.
"""

import cmath
import datetime
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from daq.checks.sweep.terms import Turned
from daq.metrology.budget import Budget, combine
from daq.words import Both

UNLIKELY: Final = -2.0 * math.log(0.01)
"""A squared length in units of its own doubt that chance exceeds once in a hundred: chi-square
of two degrees of freedom, whose distribution is 1 - exp(-x/2)."""
_BOTH_TIMES: Final[Mapping[Turned, set[str]]] = {
    "ring": {"term-axial"},
    "arm": {"term-wedge", "term-seating", "term-flatness", "term-temperature"},
}
_YEAR: Final = 365.25
_BY_EYE: Final = math.radians(5.0)
"""How far off a mark stands that is set to a place by eye (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class ByMark:
    """What is known of a ring's wedge, a slope, or of the spindle's rise once a turn, mm.

    `ahead`, `aside`: its part toward the mark, and to the left of one who looks along it;
    `u`: the standard uncertainty of either as they were read, with its degrees of freedom (None:
    infinitely many). `pairs`: from how many reversals; `audit`, `day`: the last of them, ISO.
    `changed`: how far either may have changed since they were read, at most.
    """

    ahead: float
    aside: float
    u: float
    dof: float | None
    pairs: int
    audit: str
    day: str
    changed: float = 0.0

    def at(self, mark_deg: float) -> Both[float]:
        """Its parts on the table while the mark points there: right low, front low."""
        lies = complex(self.ahead, self.aside) * _turn(mark_deg)
        return Both(lies.real, -lies.imag)

    def across(self, mark_deg: float, over_mm: float) -> tuple[Both[float], float]:
        """What it reads across the sweep while the mark points there, and the doubt of it, mm.

        `over_mm`: how much each unit of it is across the sweep.
        """
        return self.at(mark_deg).map(lambda part: over_mm * part), over_mm * self.u_by_eye

    @property
    def u_by_eye(self) -> float:
        """The doubt of either part where the mark was set by eye."""
        return math.hypot(self.doubt, self.size * math.sin(_BY_EYE) / math.sqrt(3.0))

    @property
    def doubt(self) -> float:
        """The standard uncertainty of either part today."""
        return math.hypot(self.u, self.changed / math.sqrt(3.0))

    @property
    def size(self) -> float:
        """How large it is, whichever way it points."""
        return math.hypot(self.ahead, self.aside)

    def after(self, newer: "ByMark") -> "ByMark":
        """Both taken together, the surer one counting for more."""
        ours, theirs = self.doubt**-2, newer.doubt**-2
        share = ours / (ours + theirs)
        rest = 1.0 - share
        dofs = [dof for dof in (self.dof, newer.dof) if dof is not None]
        return replace(
            newer,
            ahead=share * self.ahead + rest * newer.ahead,
            aside=share * self.aside + rest * newer.aside,
            u=math.hypot(share * self.u, rest * newer.u),
            changed=share * self.changed + rest * newer.changed,
            dof=min(dofs, default=None),
            pairs=self.pairs + newer.pairs,
        )

    def grown(self, a_year: float, today: str) -> "ByMark":
        """The same as it is known on a later day, having changed by up to `a_year` each year."""
        since = datetime.date.fromisoformat(today) - datetime.date.fromisoformat(self.day)
        return replace(self, changed=self.changed + a_year * max(0.0, since.days / _YEAR))

    def is_against(self, newer: "ByMark") -> bool:
        """Whether chance alone would hardly part the two so far."""
        return self.apart(newer) ** 2 > UNLIKELY * (self.doubt**2 + newer.doubt**2)

    def apart(self, other: "ByMark") -> float:
        """How far the two lie apart."""
        return math.hypot(self.ahead - other.ahead, self.aside - other.aside)

    def half_round(self) -> "ByMark":
        """The same read by a mark that points the other way."""
        return replace(self, ahead=-self.ahead, aside=-self.aside)


@dataclass(frozen=True, slots=True)
class Taught:
    """What one audit's reversals taught of one thing.

    `key`: which ring of the shop's, "" for the spindle. `own`: from this audit's alone; `now`:
    with what was known of it before, where that does not contradict it.
    """

    key: str
    own: ByMark
    now: ByMark


def of_difference(turned: Turned, budgets: Both[Budget], coverage: float) -> Budget:
    """The budget of half the difference of two sweeps with that turned, from that of their mean.

    That of the worse axis, without what both hold alike. Half a difference scatters as a mean.
    """
    alike = _BOTH_TIMES[turned]
    alone = [
        combine([term for term in each.terms if term.code not in alike], coverage)
        for each in budgets.values()
    ]
    return max(alone, key=lambda each: each.u_mm)


def own_parts(parts: Both[float], mark_deg: float) -> tuple[float, float]:
    """What lies so on the table, in the thing's own frame: toward its mark, and aside."""
    lies = complex(parts.side, -parts.nod) / _turn(mark_deg)
    return lies.real, lies.imag


def joined(before: ByMark | None, own: ByMark) -> ByMark:
    """What is known from now on: both, or the newer alone where it contradicts the older."""
    return own if before is None or before.is_against(own) else before.after(own)


def _turn(deg: float) -> complex:
    return cmath.exp(1j * math.radians(deg))
