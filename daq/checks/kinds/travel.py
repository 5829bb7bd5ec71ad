"""How a table runs along its travel: the gauge stays with the head, what it reads moves under it.

The slope is that of the line through the readings by least squares; the straightness the range
of what remains of them, measured square to that line, after ISO 230-1 (from memory). What was
read along is straight itself only within a bound.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from daq.checks.linear import Solved
from daq.checks.quantity import Influence, Measurand
from daq.checks.station import Station, Table
from daq.metrology.budget import Term
from daq.settings import Length, Range, Slope
from daq.words import Shown, Unit, said


@dataclass(frozen=True, slots=True)
class TravelOptions:
    """The [checks.travel] table of a machine's file. Lengths mm, slopes mm/mm.

    `axis`: which travel; `at`: where on its scale it is read, three places or more.
    `straightness`: how far what remains may range; `slope`: how much the line may rise; what is
    left out is not judged. `edge`: how far what is read along may stand off straight, and
    `laid`: how far off it may lie along its whole length (defaults: common practice, no source).
    """

    axis: Literal["x", "y"]
    at: tuple[Length, ...]
    straightness: Annotated[Length, Range(1e-5, 10.0)] | None = None
    slope: Annotated[Slope, Range(1e-7, 0.1)] | None = None
    edge: Annotated[Length, Range(0.0, 1.0)] = 0.002
    laid: Annotated[Length, Range(0.0, 10.0)] = 0.002

    def __post_init__(self) -> None:
        """Refuse places that no line is told from."""
        if len(set(self.at)) < max(3, len(self.at)):
            raise ValueError(
                f"at: found {len(set(self.at))}; allowed: three places or more, each once"
            )

    @property
    def span(self) -> float:
        """From the first place to the last, mm."""
        return max(self.at) - min(self.at)


class Travel:
    """A table along its travel, as a kind of check."""

    options = TravelOptions
    name = said("check-travel")

    def table(self, options: TravelOptions, unit: Unit) -> Table:
        """One lap along the travel, and back to its first place."""
        slope = None if options.slope is None else options.slope * options.span
        limits = [mm for mm in (options.straightness, slope) if mm is not None]
        cautions = (said("caution-locked-out"), said("caution-table-clear"))
        stations = tuple(_stations(options, unit))
        return Table(stations, unit, min(limits, default=None), cautions, leaves="form")

    def doubts(self, options: TravelOptions, solved: Solved) -> tuple[Influence, ...]:
        """At each place what is read along may stand off straight, the same at every visit."""
        u_mm = (options.edge / math.sqrt(3.0),) * len(solved.at)
        return (Influence(said("term-edge"), said("note-edge"), u_mm, "station"),)

    def quantities(self, options: TravelOptions, solved: Solved) -> tuple[Measurand, ...]:
        """The slope over the places read, then the straightness."""
        (rise,), by = solved.of("rise")
        limit = None if options.slope is None else options.slope * options.span
        laid = Term(said("term-laid"), options.laid / math.sqrt(3.0), note=said("note-laid"))
        aside = Term(said("term-laid"), 0.0, note=said("note-line-out"), cancels=True)
        rests = float(np.ptp(solved.rests))
        slope, form = (
            said("travel-slope", axis=options.axis),
            said("travel-form", axis=options.axis),
        )
        return (
            Measurand(slope, float(rise), "sum", by, limit, options.span, terms=(laid,)),
            Measurand(form, rests, "range", solved.rests_by, options.straightness, terms=(aside,)),
        )


def _stations(options: TravelOptions, unit: Unit) -> Iterator[Station]:
    middle = (max(options.at) + min(options.at)) / 2.0
    for place in options.at:
        row = {"height": 1.0, "rise": (place - middle) / options.span}
        to = Shown(place, unit, 1 if unit == "mm" else 2)
        name = said("station-travel", axis=options.axis, to=to, unit=unit)
        hands = said("move-table", axis=options.axis, to=to, unit=unit)
        yield Station(f"{place:g}", name, hands, row)


KIND = Travel()
