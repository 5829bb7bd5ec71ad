"""A named ring: what its reversals taught of its wedge, in its own frame, by a mark on it.

The wedge is a slope that turns with the ring: known toward the mark and across it, it is known
wherever the mark points (plane geometry). Reversals are weighed by their variances (least
squares); what a ring may change by since is added to the doubt.
"""

import cmath
import datetime
import math
from dataclasses import dataclass, replace
from typing import Annotated, Final

from daq.settings import Length, Range
from daq.words import POSITIONS, Both, Position

UNLIKELY: Final = -2.0 * math.log(0.01)
"""A squared length in units of its own doubt that chance exceeds once in a hundred: chi-square
of two degrees of freedom, whose distribution is 1 - exp(-x/2)."""
_YEAR: Final = 365.25


@dataclass(frozen=True, slots=True)
class Wedge:
    """What is known of a ring's wedge.

    `ahead`, `aside`: its slope toward the mark, and to the left of one who looks along it;
    `u`: the standard uncertainty of either, with its degrees of freedom (None: infinitely
    many). `pairs`: from how many reversals; `audit`, `day`: the last of them, ISO.
    """

    ahead: float
    aside: float
    u: float
    dof: float | None
    pairs: int
    audit: str
    day: str

    def toward(self, mark: Position) -> Both[float]:
        """Its slopes on the table while the mark points there: right low, front low."""
        lies = complex(self.ahead, self.aside) * _turn(mark)
        return Both(lies.real, -lies.imag)

    def after(self, newer: "Wedge") -> "Wedge":
        """Both taken together, the surer one counting for more."""
        ours, theirs = self.u**-2, newer.u**-2
        share = ours / (ours + theirs)
        dofs = [dof for dof in (self.dof, newer.dof) if dof is not None]
        return replace(
            newer,
            ahead=share * self.ahead + (1.0 - share) * newer.ahead,
            aside=share * self.aside + (1.0 - share) * newer.aside,
            u=(ours + theirs) ** -0.5,
            dof=min(dofs, default=None),
            pairs=self.pairs + newer.pairs,
        )

    def grown(self, a_year: float, today: str) -> "Wedge":
        """The same as it is known on a later day, having changed by up to `a_year` each year."""
        since = datetime.date.fromisoformat(today) - datetime.date.fromisoformat(self.day)
        changed = a_year * max(0.0, since.days / _YEAR) / math.sqrt(3.0)
        return replace(self, u=math.hypot(self.u, changed))

    def is_against(self, newer: "Wedge") -> bool:
        """Whether chance alone would hardly part the two so far."""
        apart = (self.ahead - newer.ahead) ** 2 + (self.aside - newer.aside) ** 2
        return apart > UNLIKELY * (self.u**2 + newer.u**2)

    def half_round(self) -> "Wedge":
        """The same read by a mark that points the other way."""
        return replace(self, ahead=-self.ahead, aside=-self.aside)


@dataclass(frozen=True)
class NamedRing:
    """A ring or plate of the shop, as its file names it.

    `key`: its name in the file. `say`: what it is; `mark`: what its direction is told by;
    `changes`: how much its wedge may change in a year, mm across the sweep. `wedge`: what is
    known of it when an audit is opened; no key of the file.
    """

    say: str
    mark: str
    changes: Annotated[Length, Range(0.0, 1.0)] = 0.0005
    key: str = ""
    wedge: Wedge | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """A ring as it lies on the table, and where its mark points."""

    ring: NamedRing
    mark: Position

    def turned(self) -> "Laid":
        """The same half a turn round."""
        azimuth = (POSITIONS[self.mark] + 180.0) % 360.0
        return replace(self, mark=next(p for p, at in POSITIONS.items() if at == azimuth))


def in_ring(slopes: Both[float], mark: Position) -> tuple[float, float]:
    """The slopes of a wedge as it lies, in the ring's own frame: toward its mark, and aside."""
    lies = complex(slopes.side, -slopes.nod) / _turn(mark)
    return lies.real, lies.imag


def _turn(mark: Position) -> complex:
    return cmath.exp(1j * math.radians(POSITIONS[mark]))
