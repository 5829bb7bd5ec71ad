"""How a vise's fixed jaw runs along the table's travel: the gauge stays with the head, against it.

What is asked for is the slope of the line through the readings by least squares, over the jaw's
whole length; what the line leaves of them does not fit: a chip, a burr, or a jaw that is not
straight. The end that reads pushed in further stands nearer the gauge.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

from daq.checks.linear import Solved
from daq.checks.quantity import Influence, Measurand
from daq.checks.station import Station, Table
from daq.settings import Length, Range
from daq.words import Shown, Unit, said

_ENDS = {"x": ("left", "right"), "y": ("front", "back")}


@dataclass(frozen=True, slots=True)
class ViseOptions:
    """The [checks.vise] table of a machine's file. Lengths mm.

    `along`: the travel the jaw is set to; `length`: the jaw's own; `limit`: how much nearer one of
    its ends may stand than the other. `at`: where it is read, from its left or front end. `form`:
    how far the jaw or the travel may stand off straight (default: common practice, no source).
    """

    limit: Annotated[Length, Range(1e-5, 10.0)]
    length: Annotated[Length, Range(10.0, 2_000.0)]
    at: tuple[Length, ...]
    along: Literal["x", "y"] = "x"
    form: Annotated[Length, Range(0.0, 1.0)] = 0.002

    def __post_init__(self) -> None:
        """Refuse places beside the jaw, and such that no line is told from."""
        if len(set(self.at)) < max(2, len(self.at)):
            found = len(set(self.at))
            raise ValueError(f"at: found {found}; allowed: two places or more, each once")
        if min(self.at) < 0.0 or max(self.at) > self.length:
            raise ValueError(
                f"at: found {min(self.at):g} to {max(self.at):g} mm; "
                f"allowed: on the jaw, 0 to {self.length:g} mm"
            )


class Vise:
    """A vise's fixed jaw along the travel, as a kind of check."""

    options = ViseOptions
    name = said("check-vise")

    def table(self, options: ViseOptions, unit: Unit) -> Table:
        """One lap along the jaw, and back to its first place; its ends can be tapped level."""
        near, far = _ENDS[options.along]
        ends = {f"{min(options.at):g}": near, f"{max(options.at):g}": far}
        cautions = (said("caution-locked-out"), said("caution-table-clear"))
        stations = tuple(_stations(options, unit))
        return Table(stations, unit, options.limit, cautions, ends=ends)

    def doubts(self, options: ViseOptions, solved: Solved) -> tuple[Influence, ...]:
        """At each place jaw and travel may stand off straight, the same at every visit."""
        u_mm = (options.form / 3.0**0.5,) * len(solved.at)
        return (Influence(said("term-jaw"), said("note-edge"), u_mm, "station"),)

    def quantities(self, options: ViseOptions, solved: Solved) -> tuple[Measurand, ...]:
        """How much nearer one end stands than the other, and which."""
        (rise,), by = solved.of("rise")
        toward = 1.0 if rise >= 0.0 else -1.0
        end = said("jaw-end", end=_ENDS[options.along][int(rise >= 0.0)])
        name = said("vise-nearer", end=end)
        mm, limit, over = toward * float(rise), options.limit, options.length
        return (Measurand(name, mm, "sum", toward * by, limit, over),)


def _stations(options: ViseOptions, unit: Unit) -> Iterator[Station]:
    middle = (max(options.at) + min(options.at)) / 2.0
    for place in options.at:
        row = {"height": 1.0, "rise": (place - middle) / options.length}
        to = Shown(place, unit, 1 if unit == "mm" else 2)
        name = said("station-vise", along=options.along, to=to, unit=unit)
        hands = said("move-along-jaw", along=options.along, to=to, unit=unit)
        yield Station(f"{place:g}", name, hands, row)


KIND = Vise()
