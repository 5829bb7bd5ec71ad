"""How often the stated 95 % interval of the lean holds the true lean, by simulation (JCGM 101).

    python tests/benchmarks/coverage_rows.py [--sweeps N] [--cell WORDS]

The readings are made by vector geometry and by drawing each influence from what is stated
of it; fit and budget are the product's. Nothing of the fit's model makes the readings.
"""

import argparse
import math
import zlib
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol, TypeVar

import numpy as np
from coverage_cells import EVERY, Cell
from coverage_draw import (
    SAMPLES,
    Array,
    Form,
    Gauge,
    Machine,
    counted,
    drifts,
    flicked,
    formed,
    gauge,
    machine,
    seated,
    shown,
    stuck,
)

from daq.checks.sweep.arrange import bar_points, reversed_pair
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.reduce import Fit, Spot, fit
from daq.checks.sweep.steady import walked
from daq.checks.sweep.terms import SweepFacts, terms
from daq.checks.sweep.weights import weights
from daq.metrology.budget import Budget, combine
from daq.metrology.repeat import Repeat, pooled
from daq.words import AXES, Axis, Both

SCATTER = ("term-repeatability",)
"""What is no bound, but a scatter that was seen."""


@dataclass(frozen=True)
class Swept:
    """One sweep of each machine: the readings as fitted, return errors, the samples' scatter."""

    read: list[list[Spot]]
    returned: Array
    scatter: Array
    when: tuple[float, ...]


def swept(
    rng: np.random.Generator,
    cell: Cell,
    head: Machine,
    gauges: list[Gauge],
    sits: Array,
    form: Form,
    flip: float,
) -> Swept:
    """Sweep every machine once; `flip` is -1 when something was turned half round.

    `sits`: how the ring sits, as slopes.
    """
    n = head.lean.shape[1]
    when = np.cumsum(rng.uniform(5.0, 9.0, len(cell.azimuths)))
    surface = head.wedge * (flip if cell.turned == "ring" else 1.0)
    surface = surface + sits
    axial = head.axial * (flip if cell.turned == "arm" else 1.0)
    phi = np.radians(cell.azimuths)[:, None]
    common = drifts(rng, cell, n, when) + np.cos(phi) * axial[0] + np.sin(phi) * axial[1]
    rows, scatters, orders = [], [], tuple(when.tolist())
    for each, turn in zip(gauges, (0.0, 180.0), strict=False):
        # Turned half round with the ring, the contact meets the other side of its form.
        half = math.pi if cell.turned == "ring" and flip < 0.0 else 0.0
        place = np.radians(np.array(cell.azimuths) + turn) + half
        pushed = common + form.at(place) + shown(rng, cell, head, each, surface, turn)
        mean, scatter = counted(rng, cell, pushed)
        scatters.append(scatter)
        rows.append([points(cell, row, orders) for row in mean.T.tolist()])
    read = rows[0]
    if cell.second_radius_mm is not None:
        read = [bar_points(one, other) for one, other in zip(*rows, strict=True)]
    returned = np.array([row[-1].pushed_mm - row[0].pushed_mm for row in read])
    return Swept(read, returned, scatters[0], orders)


def points(cell: Cell, row: list[float], orders: tuple[float, ...]) -> list[Spot]:
    """One gauge's readings of one sweep."""
    return [Spot(*point) for point in zip(cell.azimuths, row, orders, strict=True)]


def fitted(cell: Cell, read: list[Spot]) -> Fit:
    """The product's fit of one sweep."""
    return fit(read, cell.radius_mm + (cell.second_radius_mm or 0.0), True)


def differences(cell: Cell, first: list[Spot], other: list[Spot] | None) -> Both[float]:
    """What the product makes of one sweep, of two with something turned, or of a pair check."""
    if cell.is_check:
        one = [spot.pushed_mm for spot in first]
        return Both.of(lambda axis: math.fsum(np.multiply(weighted(cell, axis), one)))
    lean = fitted(cell, first)
    slopes = reversed_pair(lean, fitted(cell, other)).slopes if other else lean.slopes
    return slopes.map(lambda slope: 2.0 * cell.radius_mm * slope)


def weighted(cell: Cell, axis: Axis) -> tuple[float, ...]:
    """How a check's difference follows its readings; nothing of an axis that it does not read."""
    if axis not in cell.axes:
        return (0.0,) * len(cell.azimuths)
    return weights(cell.azimuths, (), axis).values


def between_visits(cell: Cell) -> float:
    """The standard deviation of a reading, mm: the mean of moving counts scatters too."""
    if not cell.lively_mm:
        return cell.sd_mm
    counts = math.hypot(cell.lively_mm, cell.resolution_mm / math.sqrt(12.0))
    return math.hypot(cell.sd_mm, counts / math.sqrt(SAMPLES))


@dataclass(frozen=True)
class Held:
    """How many of the stated intervals hold the true difference, by axis, and of how many.

    `largest`: the bound that is the largest part of most intervals, and its mean share of u.
    """

    inside: dict[Axis, int]
    of: int
    largest: tuple[str, float]

    @property
    def shares(self) -> dict[Axis, float]:
        """The share by axis."""
        return {axis: inside / self.of for axis, inside in self.inside.items()}

    @property
    def share(self) -> float:
        """The share over all axes."""
        return sum(self.inside.values()) / (self.of * len(self.inside))


def held(cell: Cell, sweeps: int, seed: int | None = None, stated: Doubts | None = None) -> Held:
    """How many of the stated intervals hold the true difference.

    `stated`: what the budget is made from, if not from what the readings were drawn from.
    """
    rng = np.random.default_rng(zlib.crc32(cell.say.encode()) if seed is None else seed)
    head = machine(rng, sweeps, cell)
    gauges = [gauge(rng, sweeps, cell, cell.radius_mm)]
    if cell.second_radius_mm is not None:
        gauges.append(gauge(rng, sweeps, cell, cell.second_radius_mm))
    sits = seated(rng, sweeps, cell)
    form = formed(rng, cell, sweeps)
    first = swept(rng, cell, head, gauges, sits, form, 1.0)
    sits = seated(rng, sweeps, cell) if cell.turned == "ring" else sits
    other = swept(rng, cell, head, gauges, sits, form, -1.0) if cell.turned else None
    scatter = known(rng, cell, sweeps)
    inside: dict[Axis, int] = dict.fromkeys(cell.axes, 0)
    largest: list[tuple[str, float]] = []
    across = 2.0 * cell.radius_mm
    for i in range(sweeps):
        d_mm = differences(cell, first.read[i], other.read[i] if other else None)
        facts = told(cell, first, i, scatter[i], d_mm)
        if other:
            both = 0.5 * math.hypot(
                *(drifted(cell, each, i, scatter[i]) for each in (first, other))
            )
            facts = replace(facts, return_error_mm=both)
        facts = replace(facts, friction=flicked(rng, cell))
        true_mm = {"side": across * head.lean[0, i], "nod": -across * head.lean[1, i]}
        for axis in cell.axes:
            budget = combine(terms(facts, stated or cell.doubts, axis))
            inside[axis] += abs(d_mm[axis] - true_mm[axis]) <= budget.expanded_mm
            largest.append(largest_bound(budget))
    return Held(inside, sweeps, most_often(largest))


def known(rng: np.random.Generator, cell: Cell, n: int) -> list[Repeat]:
    """What is known of a reading's scatter: measured, or assumed and just so; and from visits."""
    sd, dof = between_visits(cell), cell.sd_dof
    sds = [sd] * n if dof is None else (sd * np.sqrt(rng.chisquare(dof, n) / dof)).tolist()
    twice = (2, cell.visits * n)
    read = rng.normal(0.0, sd, twice) + [stuck(rng, cell, cell.visits * n) for _ in range(2)]
    visits = np.diff(np.round(read / cell.resolution_mm) * cell.resolution_mm, axis=0)
    every = visits.reshape(n, cell.visits).tolist()
    return [
        pooled(once, dof, seen, cell.resolution_mm) for once, seen in zip(sds, every, strict=True)
    ]


def drifted(cell: Cell, sweep: Swept, i: int, repeats: Repeat) -> float:
    """What the product takes a sweep's readings to have drifted."""
    gauges = 1.0 if cell.second_radius_mm is None else 2.0
    return walked(float(sweep.returned[i]), math.sqrt(gauges) * repeats.sd_mm)


def largest_bound(budget: Budget) -> tuple[str, float]:
    """The largest part that is a bound, and what part of u it is."""
    bounds = [term for term in budget.terms if term.code not in SCATTER]
    most = max(bounds, key=lambda term: term.u_mm)
    return most.code.removeprefix("term-"), most.u_mm / budget.u_mm


def most_often(largest: list[tuple[str, float]]) -> tuple[str, float]:
    """The bound that is largest most often, and the mean share that the largest has."""
    name = Counter(each for each, _ in largest).most_common(1)[0][0]
    return name, sum(share for _, share in largest) / len(largest)


def told(cell: Cell, sweep: Swept, i: int, repeats: Repeat, d_mm: Both[float]) -> SweepFacts:
    """What the product knows of one sweep."""
    return SweepFacts(
        cell.radius_mm,
        cell.azimuths,
        () if cell.is_check else sweep.when,
        d_mm,
        repeats.sd_mm,
        repeats.dof,
        cell.resolution_mm,
        cell.max_error_mm,
        0.0 if cell.is_check else drifted(cell, sweep, i, repeats),
        float(sweep.scatter[i]),
        cell.seat,
        cell.turned,
        cell.second_radius_mm,
        papers=cell.papers,
        seen=repeats.seen,
    )


class Kind(Protocol):
    """What sweeps are made of: its name, and the share of intervals that are to hold."""

    @property
    def say(self) -> str: ...
    @property
    def least(self) -> float: ...


K = TypeVar("K", bound=Kind)


def main(every: Sequence[K], held: Callable[[K, int], Held], sweeps: int, what: str) -> None:
    """Measure and print every kind."""
    parser = argparse.ArgumentParser(description=what)
    parser.add_argument("--sweeps", type=int, default=sweeps, help=f"of each kind ({sweeps})")
    parser.add_argument("--cell", default="", help="only those whose name has these words")
    wanted = parser.parse_args()
    print(f"{'':<56} {'side':>6} {'nod':>6}   largest bound, part of u", flush=True)
    shares: list[float] = []
    for kind in every:
        if wanted.cell not in kind.say:
            continue
        found = held(kind, wanted.sweeps)
        by = found.shares
        row = " ".join(f"{100.0 * by[axis]:6.1f}" if axis in by else " " * 6 for axis in AXES)
        name, part = found.largest
        luck = 2.0 * math.sqrt(kind.least * (1.0 - kind.least) / found.of)
        odd = "" if kind.least - luck <= min(by.values()) else "  LOW"
        print(f"{kind.say:<56} {row}   {name} {part:.2f}{odd}", flush=True)
        shares += by.values()
    print(f"lowest {min(shares):.1%}, mean {np.mean(shares):.1%}, highest {max(shares):.1%}")


if __name__ == "__main__":
    main(EVERY, held, 10_000, "How often the 95 % interval holds.")
