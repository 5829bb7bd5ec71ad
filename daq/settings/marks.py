"""The marks a dataclass puts on its hints: quantities with units, and limits."""

import math
from dataclasses import dataclass
from typing import Annotated, Final, TypeVar, get_args, get_origin

from daq import units

M = TypeVar("M")


@dataclass(frozen=True, slots=True)
class Quantity:
    """Marks a float that a file writes as text with its unit."""

    kind: units.Kind


@dataclass(frozen=True, slots=True)
class Range:
    """Limits of a number: `lo` and `hi` are allowed themselves, `above` is not.

    On a Quantity they are in the house's units (mm, mm/mm, s, rad, N m, K).
    """

    lo: float | None = None
    hi: float | None = None
    above: float | None = None

    def holds(self, value: float) -> bool:
        """Return whether the value lies inside."""
        return (
            (self.lo is None or value >= self.lo)
            and (self.hi is None or value <= self.hi)
            and (self.above is None or value > self.above)
        )


Length = Annotated[float, Quantity("length")]
Slope = Annotated[float, Quantity("slope")]
Seconds = Annotated[float, Quantity("time")]
Angle = Annotated[float, Quantity("angle")]
Torque = Annotated[float, Quantity("torque")]
Warmer = Annotated[float, Quantity("warmer")]

SAID: Final[dict[units.Kind, tuple[str, float]]] = {
    "length": (" mm", 1.0),
    "slope": (" mm/mm", 1.0),
    "time": (" s", 1.0),
    "angle": (" deg", 180.0 / math.pi),
    "torque": (" N m", 1.0),
    "warmer": (" degC", 1.0),
}
"""The unit messages name, as it follows a number, and how many make one of the house's."""


def mark(hint: object, kind: type[M]) -> M | None:
    """Return the first mark of that kind on an Annotated hint, or None."""
    marks = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    return next((each for each in marks if isinstance(each, kind)), None)
