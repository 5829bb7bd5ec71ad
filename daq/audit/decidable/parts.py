"""What a sweep's event carries of what can be decided."""

from dataclasses import dataclass
from typing import Final, Literal

from daq.words import Axis, Both

Way = Literal["ring", "arm", "eight", "radius", "gauge"]
"""The ring or the arm turned half round, eight places, a larger radius, another gauge."""
NOW: Final[tuple[Way, ...]] = ("ring", "arm")
"""What can be done within an open audit; the others are of the machine's file."""


@dataclass(frozen=True, slots=True)
class Left:
    """What is left for "in" on one axis, mm across the sweep.

    `zone_mm`: how far from the middle of its limits it may be read and be called in by the
    shop's rule, None where nothing can be; `expanded_mm`: the uncertainty that makes it so,
    about the middle. `lands_mm`: how far off a full sweep reads the axis after a small move, one
    standard deviation; `small`: how likely it is then called in, and `likely` after one move
    from where it stands, with all that is not known of its head.
    """

    zone_mm: float | None
    expanded_mm: float
    lands_mm: float
    small: float
    likely: float


@dataclass(frozen=True, slots=True)
class Help:
    """One thing that would help: what it costs, the zone and uncertainty it would leave.

    `zone_mm`, `expanded_mm`: of the axis worse off; across the sweep as it would be then.
    `likely`: how likely all is called in: after small moves, or where none is to be made as the
    head stands. `radius_mm`, `gauge`: which radius, which gauge.
    """

    way: Way
    minutes: float
    zone_mm: float | None
    expanded_mm: float
    likely: float
    radius_mm: float = 0.0
    gauge: str = ""


@dataclass(frozen=True, slots=True)
class Decidable:
    """What can be decided after a full sweep.

    `expanded_mm` and `likely` as those of `Help`, with nothing changed. `worst`: the axis that a
    small move is likeliest to miss, of those not in. `comfortable`: "in" can be had, so that
    nothing needs to be said. `helps`: what would clearly help, by their minutes; `best`: the number
    of the cheapest that is `enough`, or else of the one that helps most; None where nothing does.
    """

    axes: Both[Left]
    expanded_mm: float
    likely: float
    comfortable: bool
    worst: Axis | None = None
    helps: tuple[Help, ...] = ()
    best: int | None = None
    enough: bool = False
