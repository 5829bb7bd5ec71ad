"""How often the stated 95 % interval of the lean holds the true lean, by simulation (JCGM 101).

    python tests/benchmarks/coverage_rows.py [--sweeps N]

The readings are made by vector geometry and by drawing each influence from what is stated
of it; fit and budget are the product's. Nothing of the fit's model makes the readings.
"""

import argparse
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from coverage_cells import CELLS, GRID, Cell

from daq.checks.sweep.arrange import bar_points, reversed_pair
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.reduce import Fit, Spot, fit
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import combine
from daq.metrology.flicks import FLICKS, Friction, friction
from daq.units import SLACK_MM
from daq.words import AXES, Both

MOST_DIFFERENCE_MM = 0.05
SAMPLES = 12
Array = np.ndarray[tuple[int, ...], np.dtype[np.float64]]


@dataclass(frozen=True)
class Machine:
    """The spindle's lean, the ring's wedge and the spindle's rise and fall: an entry a sweep."""

    lean: Array
    wedge: Array
    axial: Array


@dataclass(frozen=True)
class Gauge:
    """Where a gauge's contact really is, and how far its readings are off: an entry a sweep."""

    radius_mm: Array
    tilt: Array
    scale: Array
    local: Array


def bounded(rng: np.random.Generator, n: int, most: float, known: bool = False) -> Array:
    """Vectors of any length up to `most` (of just that, if known) in any direction."""
    size = np.full(n, most) if known else rng.uniform(0.0, most, n)
    way = rng.uniform(0.0, 2.0 * math.pi, n)
    return size * np.array([np.cos(way), np.sin(way)])


def machine(rng: np.random.Generator, n: int, cell: Cell) -> Machine:
    """Draw machines as the doubts say of them."""
    across = 2.0 * cell.radius_mm
    wedge = cell.doubts.wedge if cell.seat in ("ring", "plate") else 0.0
    return Machine(
        rng.uniform(-MOST_DIFFERENCE_MM, MOST_DIFFERENCE_MM, (2, n)) / across,
        bounded(rng, n, wedge / across, cell.doubts.wedge_known),
        bounded(rng, n, cell.doubts.spindle_axial),
    )


def gauge(rng: np.random.Generator, n: int, cell: Cell, radius_mm: float) -> Gauge:
    """Draw gauges on arms as the doubts say of them."""
    doubts = cell.doubts
    local = doubts.local(cell.max_error_mm)
    return Gauge(
        radius_mm + rng.uniform(-doubts.radius, doubts.radius, n),
        bounded(rng, n, doubts.parallel),
        rng.uniform(-doubts.scale, doubts.scale, n),
        rng.uniform(-local, local, (2, n)),
    )


def seated(rng: np.random.Generator, n: int, cell: Cell) -> Array:
    """Draw how the ring sits, as slopes; a block and the bare table do not tilt."""
    placed = cell.doubts.seating if cell.seat in ("ring", "plate") else 0.0
    return bounded(rng, n, placed / (2.0 * cell.radius_mm))


def pushed_in(lean: Array, phi: float, gauge: Gauge, surface: Array) -> Array:
    """How far a plane pushes the contact in: from a point of the circle along the plunger."""
    a, b = lean
    one = np.ones_like(a)
    top = np.stack([a, b, one]) / np.sqrt(1.0 + a * a + b * b)
    out = np.stack([math.cos(phi) * one, math.sin(phi) * one, 0.0 * one])
    out[2] = -(top[0] * out[0] + top[1] * out[1]) / top[2]
    out /= np.sqrt((out * out).sum(axis=0))
    beside = np.cross(top, out, axis=0)
    tip = gauge.radius_mm * out - top
    slanted = np.sin(gauge.tilt)
    stem = np.sqrt(1.0 - (slanted**2).sum(axis=0)) * top + slanted[0] * out + slanted[1] * beside
    normal = np.stack([-surface[0], -surface[1], one])
    pushed: Array = -(normal * tip).sum(axis=0) / (normal * stem).sum(axis=0)
    return pushed


def walk(rng: np.random.Generator, cell: Cell, n: int, when: Array) -> Array:
    """A drift that is not steady: half way it may be anywhere between its ends."""
    whole = rng.uniform(-cell.drift_mm, cell.drift_mm, n)
    part = (when - when[0])[:, None] / (when[-1] - when[0])
    bent = rng.uniform(-0.5, 0.5, n) * np.sin(math.pi * part)
    bent = bent + rng.uniform(-0.25, 0.25, n) * np.sin(2.0 * math.pi * part)
    return whole * (part + bent)


def shown(
    rng: np.random.Generator, cell: Cell, head: Machine, gauge: Gauge, surface: Array, turn: float
) -> Array:
    """What a gauge shows at each place, before any drift; `turn` degrees round the circle."""
    n, doubts = head.lean.shape[1], cell.doubts
    zero = rng.uniform(-0.5, 0.5, n)
    rows = []
    for azimuth in np.radians(np.array(cell.azimuths) + turn).tolist():
        cos, sin = math.cos(azimuth), math.sin(azimuth)
        pushed = (1.0 + gauge.scale) * pushed_in(head.lean, azimuth, gauge, surface)
        pushed += gauge.local[0] / 2.0 * cos - gauge.local[1] / 2.0 * sin
        pushed += stuck(rng, cell, n)
        if cell.seat == "block":
            pushed += rng.uniform(-doubts.seating, doubts.seating, n)
        rows.append(zero + pushed + rng.normal(0.0, cell.sd_mm, n))
    return np.stack(rows)


def stuck(rng: np.random.Generator, cell: Cell, n: int) -> Array:
    """How far a sticking contact leaves a reading off."""
    if cell.flicked_mm is not None:
        return rng.normal(0.0, cell.flicked_mm, n)
    return rng.uniform(-cell.doubts.friction, cell.doubts.friction, n)


def returned(rng: np.random.Generator, cell: Cell) -> Friction | None:
    """What flicks of the arm show, done again until one attempt comes back within a count."""
    if cell.flicked_mm is None:
        return None
    count, sent_back = cell.resolution_mm, []
    while True:
        at = rng.uniform(0.0, count) + rng.normal(0.0, cell.flicked_mm, FLICKS + 1)
        levels = (np.round(at / count) * count).tolist()
        if max(abs(level - levels[0]) for level in levels) <= count + SLACK_MM:
            return friction(sent_back, levels, count, cell.doubts.friction)
        sent_back.append(levels)


def counted(rng: np.random.Generator, cell: Cell, pushed: Array) -> tuple[Array, Array]:
    """The mean of a window's samples, each in whole counts, and their pooled scatter."""
    samples = pushed + rng.normal(0.0, cell.lively_mm, (SAMPLES, *pushed.shape))
    counts = np.round(samples / cell.resolution_mm) * cell.resolution_mm
    return counts.mean(axis=0), np.sqrt(counts.var(axis=0, ddof=1).mean(axis=0))


@dataclass(frozen=True)
class Swept:
    """One sweep of each machine: the product's fit, the return error, the samples' scatter."""

    fits: list[Fit]
    returned: Array
    scatter: Array
    when: tuple[float, ...]


def swept(
    rng: np.random.Generator,
    cell: Cell,
    head: Machine,
    gauges: list[Gauge],
    sits: Array,
    flip: float,
) -> Swept:
    """Sweep every machine once; `flip` is -1 when something was turned half round.

    `sits`: how the ring sits, as slopes.
    """
    n = head.lean.shape[1]
    when = np.cumsum(rng.uniform(5.0, 9.0, len(cell.azimuths)))
    saddle = cell.saddle_mm * rng.uniform(-1.0, 1.0, (2, n))
    surface = head.wedge * (flip if cell.turned == "ring" else 1.0)
    surface = surface + sits
    axial = head.axial * (flip if cell.turned == "arm" else 1.0)
    phi = np.radians(cell.azimuths)[:, None]
    common = walk(rng, cell, n, when) + np.cos(phi) * axial[0] + np.sin(phi) * axial[1]
    common = common + np.cos(2.0 * phi) * saddle[0] + np.sin(2.0 * phi) * saddle[1]
    rows, scatters, orders = [], [], tuple(when.tolist())
    for gauge, turn in zip(gauges, (0.0, 180.0), strict=False):
        mean, scatter = counted(rng, cell, common + shown(rng, cell, head, gauge, surface, turn))
        scatters.append(scatter)
        rows.append([points(cell, row, orders) for row in mean.T.tolist()])
    read, radius = rows[0], cell.radius_mm
    if cell.second_radius_mm is not None:
        read = [bar_points(one, other) for one, other in zip(*rows, strict=True)]
        radius += cell.second_radius_mm
    fits = [fit(row, radius, True) for row in read]
    returned = np.array([row[-1].pushed_mm - row[0].pushed_mm for row in read])
    return Swept(fits, returned, scatters[0], orders)


def points(cell: Cell, row: list[float], orders: tuple[float, ...]) -> list[Spot]:
    """One gauge's readings of one sweep."""
    return [Spot(*point) for point in zip(cell.azimuths, row, orders, strict=True)]


def between_visits(cell: Cell) -> float:
    """The standard deviation of a reading, mm: the mean of moving counts scatters too."""
    if not cell.lively_mm:
        return cell.sd_mm
    counts = math.hypot(cell.lively_mm, cell.resolution_mm / math.sqrt(12.0))
    return math.hypot(cell.sd_mm, counts / math.sqrt(SAMPLES))


def held(cell: Cell, sweeps: int, seed: int, stated: Doubts | None = None) -> tuple[int, int]:
    """How many of the stated intervals hold the true difference, and how many there are.

    `stated`: what the budget is made from, if not from what the readings were drawn from.
    """
    rng = np.random.default_rng(seed)
    head = machine(rng, sweeps, cell)
    gauges = [gauge(rng, sweeps, cell, cell.radius_mm)]
    if cell.second_radius_mm is not None:
        gauges.append(gauge(rng, sweeps, cell, cell.second_radius_mm))
    sits = seated(rng, sweeps, cell)
    first = swept(rng, cell, head, gauges, sits, 1.0)
    sits = seated(rng, sweeps, cell) if cell.turned == "ring" else sits
    other = swept(rng, cell, head, gauges, sits, -1.0) if cell.turned else None
    known = between_visits(cell) * np.sqrt(rng.chisquare(cell.sd_dof, sweeps) / cell.sd_dof)
    inside = 0
    across = 2.0 * cell.radius_mm
    for i in range(sweeps):
        lean = reversed_pair(first.fits[i], other.fits[i]) if other else first.fits[i]
        facts = told(cell, first, i, float(known[i]), lean.slopes)
        facts = replace(facts, friction=returned(rng, cell))
        true_mm = {"side": across * head.lean[0, i], "nod": -across * head.lean[1, i]}
        for axis in AXES:
            within = combine(terms(facts, stated or cell.doubts, axis)).expanded_mm
            inside += abs(facts.d_mm[axis] - true_mm[axis]) <= within
    return inside, 2 * sweeps


def told(cell: Cell, sweep: Swept, i: int, sd_mm: float, slopes: Both[float]) -> SweepFacts:
    """What the product knows of one sweep."""
    return SweepFacts(
        cell.radius_mm,
        cell.azimuths,
        sweep.when,
        slopes.map(lambda slope: 2.0 * cell.radius_mm * slope),
        sd_mm,
        cell.sd_dof,
        cell.resolution_mm,
        cell.max_error_mm,
        float(sweep.returned[i]),
        float(sweep.scatter[i]),
        cell.seat,
        cell.turned,
        cell.second_radius_mm,
    )


def measure(sweeps: int) -> Iterator[tuple[Cell, float]]:
    """Yield each cell with the share of its intervals that hold the true lean."""
    for seed, cell in enumerate((*CELLS, *GRID)):
        inside, of = held(cell, sweeps, seed)
        yield cell, inside / of


def main() -> None:
    """Measure and print every cell."""
    parser = argparse.ArgumentParser(description="How often the 95 % interval holds.")
    parser.add_argument("--sweeps", type=int, default=10_000, help="of each kind (10000)")
    shares = []
    for cell, share in measure(parser.parse_args().sweeps):
        print(f"{cell.say:<50} {100.0 * share:5.1f} %", flush=True)
        shares.append(share)
    lowest, mean, highest = min(shares), sum(shares) / len(shares), max(shares)
    print(f"lowest {lowest:.1%}, mean {mean:.1%}, highest {highest:.1%}")


if __name__ == "__main__":
    main()
