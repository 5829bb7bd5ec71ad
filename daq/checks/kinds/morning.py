"""Whether a head stands as its last signed sweep left it: two spots of its circle, one difference.

Two spots see the lean along the line from one to the other and nothing across it: opposite ones
see one axis whole, two a quarter turn apart both axes by half, and are blind to a lean toward, or
away from, the corner between them. (m = c + (D_side cos φ − D_nod sin φ)/2 at azimuth φ.)
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from daq.checks.last import LastSweep, TwoSpots
from daq.checks.linear import Solved
from daq.checks.quantity import Influence, Measurand
from daq.checks.station import Station, Table
from daq.words import Axis, Position, Unit, said

Pair = tuple[Position, Position]
_CORNERS: Final[tuple[Pair, ...]] = (("front", "right"), ("front", "left"))
_PAIRS: Final[dict[Axis, Pair]] = {"side": ("right", "left"), "nod": ("front", "back")}


@dataclass(frozen=True, slots=True)
class Options:
    """The [checks.morning] table of a machine's file.

    `spots`: a pair that sees "both" axes, or one of them whole; "best": both where a change as
    large as either axis's limit would be noticed, else the axis that has the least room left.
    """

    spots: Literal["best", "both", "side", "nod"] = "best"


class Morning:
    """Nothing moved, or look closer, as a kind of check."""

    options = Options
    name = said("check-morning")

    def filled(self, options: Options, last: LastSweep) -> TwoSpots:
        """The spots that say most of what that sweep says matters."""
        # Where one axis goes out, the other may well be going its own nearest way out, too.
        corners = [TwoSpots(pair, last) for pair in _CORNERS]
        both = max(corners, key=lambda corner: abs(corner.sees(last.toward)))
        wanted: Axis | Literal["best", "both"] = options.spots
        if wanted == "best":
            wanted = "both" if both.sees_mm() <= min(last.limit_mm.values()) else last.tight
        if wanted == "both" or not {*_PAIRS[wanted]} <= {*last.read}:
            return both
        return TwoSpots(_PAIRS[wanted], last)

    def table(self, options: TwoSpots, unit: Unit) -> Table:
        """Each spot once: a quarter, or half, of a turn between them."""
        stations = tuple(_stations(options))
        cautions = (said("caution-locked-out"), said("turn-by-the-nose"))
        return Table(stations, unit, None, cautions, returns=False)

    def doubts(self, options: TwoSpots, solved: Solved) -> tuple[Influence, ...]:
        """None that a reading shows by itself."""
        return ()

    def quantities(self, options: TwoSpots, solved: Solved) -> tuple[Measurand, ...]:
        """How far the difference of the two spots is from what it was."""
        (apart,), by = solved.of("apart")
        name = said("morning-change", pair="-".join(options.spots))
        change_mm, terms = float(apart) - options.expects_mm, tuple(options.terms())
        return (Measurand(name, change_mm, "sum", by, terms=terms, shows=options.axis_share),)


def _stations(options: TwoSpots) -> Iterator[Station]:
    for spot, sign in zip(options.spots, (0.5, -0.5), strict=True):
        hands = said("turn-until-at", at=said("at-place", place=spot))
        yield Station(spot, said("place-name", place=spot), hands, {"zero": 1.0, "apart": sign})


KIND = Morning()
