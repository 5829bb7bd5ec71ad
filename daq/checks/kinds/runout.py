"""How a spindle runs out: the gauge stands still and the spindle is turned under it.

A bar whose axis stands off the axis of rotation by e reads, at spindle angle θ, but for e² over
its diameter, c + x cos θ + y sin θ with e = √(x² + y²). Run-out is the total indicator reading of
one turn, after ISO 230-1 (from memory). A bar set in again half a turn round turns its own error.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Annotated, Literal

import numpy as np

from daq.checks.linear import Known, Solved
from daq.checks.quantity import Influence, Measurand, turn, vector
from daq.checks.station import Station, Table
from daq.metrology.budget import Term
from daq.settings import Angle, Length, Range, Slope
from daq.words import Figure, Shown, Unit, said


@dataclass(frozen=True, slots=True)
class RunoutOptions:
    """The [checks.runout] table of a machine's file. Lengths mm, angles rad.

    `limit`: the total indicator reading allowed; `tilt`: how far the bar may lean against the axis
    of rotation. `angles` of the spindle, from a mark on it; `heights` below its nose, two for the
    tilt. `reseat`: the bar is set in again half a turn round. `bar`: how far its axis may be off by
    itself; `turned`: how far off its angle the spindle may stop (common practice, no source).
    """

    limit: Annotated[Length, Range(1e-5, 10.0)]
    tilt: Annotated[Slope, Range(1e-7, 0.1)] | None = None
    angles: tuple[Angle, ...] = (0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi)
    heights: tuple[Length, ...] = (0.0,)
    inside: Literal["bar", "bore"] = "bar"
    reseat: bool = False
    bar: Annotated[Length, Range(0.0, 1.0)] = 0.001
    turned: Annotated[Angle, Range(0.0, 0.5)] = 0.035

    def __post_init__(self) -> None:
        """Refuse places from which it cannot be told."""
        places = {round(math.degrees(angle), 6) % 360.0 for angle in self.angles}
        if len(places) < max(3, len(self.angles)):
            raise ValueError(f"angles: found {len(places)}; allowed: three or more, each once")
        fewest, lines = 1 if self.tilt is None else 2, len(set(self.heights))
        if not fewest <= lines <= 2 or lines < len(self.heights):
            raise ValueError(f"heights: found {self.heights}; allowed: one, or two unlike ones")
        if self.reseat and self.inside == "bore":
            raise ValueError("reseat: found with a bore; allowed: with a bar")


class Runout:
    """The spindle's run-out, as a kind of check."""

    options = RunoutOptions
    name = said("check-runout")

    def table(self, options: RunoutOptions, unit: Unit) -> Table:
        """One lap a height, and all of them again with the bar half a turn round."""
        cautions = (said("caution-locked-out"), said("caution-turn-by-hand"))
        return Table(tuple(_stations(options, unit)), unit, options.limit, cautions)

    def doubts(self, options: RunoutOptions, solved: Solved) -> tuple[Influence, ...]:
        """Stopped off its angle, the spindle reads as much amiss as it runs out there."""
        ranges = (float(np.ptp(solved.levels_of(lap)[0])) for lap in solved.laps)
        u_mm = tuple(options.turned * mm / math.sqrt(12.0) for mm in ranges)
        return (Influence(said("term-turned"), said("note-turned-off"), u_mm),)

    def quantities(self, options: RunoutOptions, solved: Solved) -> tuple[Measurand, ...]:
        """The run-out at each height and what it is made of; with two heights the tilt."""
        axes = [solved.of(f"x{line}", f"y{line}") for line in range(len(options.heights))]
        found = [q for line, axis in enumerate(axes) for q in _at(options, solved, line, axis)]
        if len(axes) == 2:
            between = (axes[1][0] - axes[0][0], axes[1][1] - axes[0][1])
            gap, terms = float(np.ptp(options.heights)), _bar(options, math.sqrt(2.0))
            limit = options.tilt and options.tilt * gap
            found.append(vector(said("runout-tilt"), between, limit, terms, gap))
        return tuple(found)


def _at(options: RunoutOptions, solved: Solved, line: int, axis: Known) -> Iterator[Measurand]:
    at, unit = Shown(options.heights[line], solved.table.unit, 1), solved.table.unit
    limit, terms = options.limit, _bar(options, 2.0)
    if options.reseat:
        twice = (2.0 * axis[0], 2.0 * axis[1])
        yield vector(said("runout-spindle", at=at, unit=unit), twice, limit, terms)
        yield vector(said("runout-bar", at=at, unit=unit), solved.of(f"u{line}", f"v{line}"))
    else:
        total, half = said("runout-total", at=at, unit=unit), _bar(options, 1.0)
        yield turn(total, axis, solved.levels_of(line), limit, terms)
        yield vector(said("runout-eccentricity", at=at, unit=unit), axis, terms=half)


def _bar(options: RunoutOptions, share: float) -> tuple[Term, ...]:
    if options.reseat or options.inside == "bore":
        note = said("note-no-bar", read=options.inside)
        return (Term(said("term-bar"), 0.0, note=note, cancels=True),)
    return (Term(said("term-bar"), share * options.bar / math.sqrt(3.0), note=said("note-wedge")),)


def _stations(options: RunoutOptions, unit: Unit) -> Iterator[Station]:
    toward = 1.0 if options.inside == "bar" else -1.0  # a bore that comes nearer is less felt
    seats = (1.0, -1.0) if options.reseat else (1.0,)
    for lap, (seat, line) in enumerate(product(seats, range(len(options.heights)))):
        at, set_in = Shown(options.heights[line], unit, 1), 1 if seat > 0.0 else 2
        for angle in options.angles:
            x, y = toward * math.cos(angle), toward * math.sin(angle)
            row = {f"zero {lap}": 1.0, f"x{line}": x, f"y{line}": y}
            if options.reseat:
                row |= {f"u{line}": seat * x, f"v{line}": seat * y}
            to = Figure(math.degrees(angle), 0)
            name = said("station-angle", to=to, at=at, unit=unit, seat=set_in)
            hands = said("turn-spindle", to=to, at=at, unit=unit, seat=set_in)
            yield Station(f"{lap}.{math.degrees(angle):g}", name, hands, row, lap)


KIND = Runout()
