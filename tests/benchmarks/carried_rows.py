"""How often the interval holds with a ring or a spindle that earlier reversals taught.

    python tests/benchmarks/carried_rows.py [--sweeps N] [--cell WORDS]

A thing at its bound in any direction is turned half round once a year, its mark at any quarter,
set by eye, and may change meanwhile; a year after the last reversal one sweep more is read with it
as it lies then. Heads, gauges, seats and surfaces are drawn anew or kept as a shop has them, by
vector geometry as in `coverage_rows.py`; what is learned, carried and stated is the product's.
"""

import math
import zlib
from dataclasses import dataclass, field, replace

import numpy as np
from coverage_cells import Cell
from coverage_draw import Array, Form, Gauge, Machine, any_way, formed, gauge, seated
from coverage_rows import Held, Swept, fitted, known, largest_bound, main, most_often, swept, told

from daq.checks.sweep.arrange import reversed_pair
from daq.checks.sweep.by_mark import ByMark, joined, of_difference, own_parts
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.terms import Turned, terms
from daq.metrology.budget import Budget, combine
from daq.words import AXES, Both

OF = {"ring": "term-wedge", "arm": "term-axial"}
COVERAGE = 0.95
BY_EYE_DEG = 5.0
"""So far off a quarter a mark is set by eye (common practice, no source)."""
FIRST_YEAR = 2030


@dataclass(frozen=True)
class Carried:
    """One kind: what is turned, how often it was before, how much a year it may change.

    `changes_mm`: across the sweep of a ring, of the spindle's amplitude. `one_way`: by as much
    each year; else anew each year.
    """

    say: str
    of: Turned
    pairs: int
    changes_mm: float = 0.0005
    one_way: bool = False
    doubts: Doubts = field(default_factory=Doubts)
    least: float = 0.94

    @property
    def cell(self) -> Cell:
        """Each of its sweeps."""
        return Cell(self.say, doubts=self.doubts, saddle_mm=0.0)

    @property
    def over_mm(self) -> float:
        """What each unit of it is across the sweep, mm."""
        return 2.0 * self.cell.radius_mm if self.of == "ring" else 2.0

    @property
    def most(self) -> float:
        """Its bound: a slope, or an amplitude."""
        if self.of == "ring":
            return self.doubts.wedge / self.over_mm
        return self.doubts.spindle_axial

    @property
    def changes(self) -> float:
        """Its change in a year: a slope, or an amplitude."""
        return self.changes_mm / (self.over_mm if self.of == "ring" else 1.0)


RINGS = tuple(
    Carried(
        f"ring of {1000.0 * wedge_mm:g} µm, {pairs} before{say}",
        "ring",
        pairs,
        one_way=one_way,
        doubts=Doubts(wedge=wedge_mm),
    )
    for wedge_mm in (0.003, 0.01)
    for pairs in (1, 2, 4)
    for one_way, say in ((False, ""), (True, ", changes one way"))
)
LONG = tuple(
    Carried(
        f"ring of 10 µm, {pairs} before, 1 µm a year one way",
        "ring",
        pairs,
        0.001,
        one_way=True,
        doubts=Doubts(wedge=0.01),
    )
    for pairs in (4, 12)
)
SPINDLES = tuple(
    Carried(
        f"spindle of {1000.0 * rise_mm:g} µm, {pairs} before",
        "arm",
        pairs,
        Doubts().spindle_changes,
        doubts=Doubts(spindle_axial=rise_mm),
    )
    for rise_mm in (0.001, 0.003)
    for pairs in (1, 2, 4)
)
EVERY = (*RINGS, *LONG, *SPINDLES)


@dataclass(frozen=True)
class Shop:
    """What stays from year to year, an entry a trial: gauge, scatter, the other influence, form.

    `own`: the thing's parts toward its mark and aside, year by year.
    """

    gauge: Gauge
    scatter: list[float]
    wedge: Array
    axial: Array
    form: Form
    own: list[Array]


def shop(rng: np.random.Generator, case: Carried, n: int) -> Shop:
    """Draw it."""
    cell = case.cell
    ring, rise = cell.doubts.wedge / (2.0 * cell.radius_mm), cell.doubts.spindle_axial
    own = [case.most * any_way(rng, n)]
    rate = rng.uniform(-case.changes, case.changes, (2, n))
    for _ in range(case.pairs):
        rate = rate if case.one_way else rng.uniform(-case.changes, case.changes, (2, n))
        own.append(own[-1] + rate)
    return Shop(
        gauge(rng, n, cell, cell.radius_mm),
        known(rng, cell, n),
        rng.uniform(-ring, ring, (2, n)),
        rng.uniform(-rise, rise, (2, n)),
        formed(rng, cell, n),
        own,
    )


def turned_by(parts: Array, deg: Array) -> Array:
    """Vectors turned anticlockwise."""
    cos, sin = np.cos(np.radians(deg)), np.sin(np.radians(deg))
    return np.array([parts[0] * cos - parts[1] * sin, parts[0] * sin + parts[1] * cos])


def read(
    rng: np.random.Generator, case: Carried, has: Shop, year: int, lean: Array, lies: Array
) -> Swept:
    """Sweep once, the thing's mark at these azimuths, degrees; a ring is put down for it."""
    parts = turned_by(has.own[year], lies)
    if case.of == "arm":
        head = Machine(lean, has.wedge, parts)
        return swept(rng, case.cell, head, [has.gauge], has.wedge * 0.0, has.form, 1.0)
    waves = zip(has.form.waves, has.form.parts, strict=True)
    form = Form(has.form.waves, tuple(turned_by(each, k * lies) for k, each in waves))
    sits = seated(rng, len(lies), case.cell)
    head = Machine(lean, parts, has.axial)
    return swept(rng, case.cell, head, [has.gauge], sits, form, 1.0)


def set_by_eye(rng: np.random.Generator, at: Array) -> Array:
    """Where a mark stands that is meant to."""
    return at + rng.uniform(-BY_EYE_DEG, BY_EYE_DEG, len(at))


def budgets(case: Carried, sweep: Swept, i: int, sd_mm: float, d_mm: Both[float]) -> Both[Budget]:
    """Both axes' of a reversal."""
    facts = told(replace(case.cell, turned=case.of), sweep, i, sd_mm, d_mm)
    return Both.of(lambda axis: combine(terms(facts, case.doubts, axis), COVERAGE))


def taught(rng: np.random.Generator, case: Carried, has: Shop, year: int) -> list[ByMark]:
    """What a reversal of that year tells of each."""
    cell, n = case.cell, len(has.scatter)
    lean = rng.uniform(-cell.most_mm, cell.most_mm, (2, n)) / (2.0 * cell.radius_mm)
    at = 90.0 * rng.integers(0, 4, n)
    first = read(rng, case, has, year, lean, set_by_eye(rng, at))
    other = read(rng, case, has, year, lean, set_by_eye(rng, at + 180.0))
    both = replace(other, returned=0.5 * np.hypot(first.returned, other.returned))
    found = []
    for i in range(n):
        pair = reversed_pair(fitted(cell, other.read[i]), fitted(cell, first.read[i]))
        across = 2.0 * cell.radius_mm
        parts = Both(across * pair.added_a, -across * pair.added_b)
        budget = of_difference(case.of, budgets(case, both, i, has.scatter[i], pair.d_mm), COVERAGE)
        own = own_parts(parts.map(lambda mm: mm / case.over_mm), float(at[i]) + 180.0)
        u, day = budget.u_mm / case.over_mm, f"{FIRST_YEAR + year}-01-01"
        one = ByMark(*own, u, budget.dof, 1, "A-1", day)
        found.append(replace(one, u=one.u_by_eye))
    return found


def learned(rng: np.random.Generator, case: Carried, has: Shop) -> list[ByMark]:
    """What is known of each after a reversal a year."""
    found = taught(rng, case, has, 0)
    for year in range(1, case.pairs):
        newer = taught(rng, case, has, year)
        found = [
            joined(old.grown(case.changes, new.day), new)
            for old, new in zip(found, newer, strict=True)
        ]
    today = f"{FIRST_YEAR + case.pairs}-01-01"
    return [each.grown(case.changes, today) for each in found]


def held(case: Carried, sweeps: int) -> Held:
    """How many of the stated intervals of sweeps with it carried hold the true difference."""
    rng = np.random.default_rng(zlib.crc32(case.say.encode()))
    cell, has = case.cell, shop(rng, case, sweeps)
    carried = learned(rng, case, has)
    lean = rng.uniform(-cell.most_mm, cell.most_mm, (2, sweeps)) / (2.0 * cell.radius_mm)
    at = 90.0 * rng.integers(0, 4, sweeps)
    sweep = read(rng, case, has, case.pairs, lean, set_by_eye(rng, at))
    inside, largest = dict.fromkeys(AXES, 0), []
    least_mm = case.doubts.seating / math.sqrt(3.0) if case.of == "ring" else 0.0
    for i, known_i in enumerate(carried):
        part, u_mm = known_i.across(float(at[i]), case.over_mm)
        raw = fitted(cell, sweep.read[i]).d_mm
        facts = told(cell, sweep, i, has.scatter[i], raw)
        true = Both(2.0 * cell.radius_mm * lean[0, i], -2.0 * cell.radius_mm * lean[1, i])
        for axis in AXES:
            every = [
                replace(term, u_mm=max(u_mm, least_mm), dof=known_i.dof)
                if term.code == OF[case.of]
                else term
                for term in terms(facts, case.doubts, axis)
            ]
            budget = combine(every, COVERAGE)
            off_mm = raw[axis] - part[axis] - true[axis]
            inside[axis] += abs(off_mm) <= budget.expanded_mm
            largest.append(largest_bound(budget))
    return Held(inside, sweeps, most_often(largest))


if __name__ == "__main__":
    main(EVERY, held, 3_000, "How often the interval holds, carried.")
