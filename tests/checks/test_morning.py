"""The morning's look: closed forms, and 2,000 mornings by vector geometry (JCGM 101) a case.

Readings are made by drawing each influence from what is stated of it, as in the coverage of the
sweep; that ring, that spindle are the same ones both times, put down and clamped anew.
"""

import importlib
import math
import sys
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import NormalDist

import numpy as np
import pytest
from scipy import stats

from daq.audit.events import SweepDone
from daq.audit.history import Swept
from daq.audit.last_sweep import last_sweep
from daq.audit.parts import AxisResult, Next, Point
from daq.audit.state import MachineState
from daq.checks.kinds import kind
from daq.checks.kinds.morning import Options
from daq.checks.last import TwoSpots
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.checks.sweep.reduce import Spot, fit
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import combine
from daq.metrology.change import noticed
from daq.metrology.rule import Rule
from daq.words import AXES, POSITIONS, Both
from tests.audit.morning import offering

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))
cells = importlib.import_module("coverage_cells")
coverage = importlib.import_module("coverage_draw")

MORNINGS = 2_000
SURE = 0.99
"""The binomial interval that a count is to lie in."""
PLACES = ("front", "right", "back", "left", "front")


def test_the_threshold_and_the_power_are_those_of_the_normal_distribution():
    """NIST/SEMATECH e-Handbook, 7.2.2.2: δ = (z(1 − α/2) + z(1 − β)) σ, here solved for δ."""
    z = NormalDist().inv_cdf
    found = noticed(0.0, 0.002, None)
    assert found.limit_mm == pytest.approx(1.959964 * 0.002, rel=1e-6)
    assert found.sees_mm == pytest.approx((z(0.975) + z(0.95)) * 0.002)
    few = noticed(0.0, 0.002, 5.9)
    assert few.limit_mm == pytest.approx(stats.t.ppf(0.975, 5) * 0.002)
    assert few.sees_mm == pytest.approx((stats.t.ppf(0.975, 5) + stats.t.ppf(0.95, 5)) * 0.002)


@pytest.mark.parametrize(("change", "moved"), [(0.0039, False), (-0.0039, False), (0.004, True)])
def test_it_moved_where_the_change_is_beyond_the_threshold_either_way(change, moved):
    assert noticed(change, 0.002, None).moved is moved
    assert noticed(-change, 0.002, None).moved is moved
    assert not noticed(0.0, 0.0, None).moved and noticed(0.001, 0.0, None).moved


@dataclass
class Mornings:
    """Heads swept, each with its ring and gauge, and what two of its spots read another day."""

    cell: object
    rng: np.random.Generator
    n: int = MORNINGS

    def __post_init__(self):
        n, cell, rng = self.n, self.cell, self.rng
        self.lean = rng.uniform(-0.01, 0.01, (2, n)) / (2.0 * cell.radius_mm)
        self.wedge_mm = cell.doubts.wedge if cell.seat == "ring" else 0.0
        self.gauge = coverage.gauge(rng, n, cell, cell.radius_mm)
        self.form = cell.saddle_mm * rng.uniform(-1.0, 1.0, (2, n))
        self.known = cell.sd_mm * np.sqrt(rng.chisquare(cell.sd_dof, n) / cell.sd_dof)

    def within(self, bound):
        """What is at most so much on either axis."""
        return self.rng.uniform(-bound, bound, (2, self.n))

    def read(self, places, drift, lean):
        """Arm clamped, ring put down: the readings at these places, in whole counts."""
        cell, rng, n = self.cell, self.rng, self.n
        degrees = tuple(POSITIONS[place] for place in places)
        phi = np.radians(degrees)[:, None]
        fresh = coverage.gauge(rng, n, cell, cell.radius_mm)
        gauge = replace(self.gauge, radius_mm=fresh.radius_mm, local=fresh.local)
        axial = self.within(cell.doubts.spindle_axial)
        sits = self.within(self.wedge_mm) / (2.0 * cell.radius_mm)
        sits = sits + coverage.seated(rng, n, cell)
        head = coverage.Machine(lean, sits, axial)
        there = replace(cell, azimuths=degrees)
        pushed = drift + coverage.shown(rng, there, head, gauge, sits, 0.0)
        pushed = pushed + np.cos(phi) * axial[0] + np.sin(phi) * axial[1]
        if cell.seat == "ring":
            # Put down anew, it stands another way round.
            form = self.within(cell.doubts.form(False) / 2.0)
            pushed = pushed + np.cos(2.0 * phi) * form[0] + np.sin(3.0 * phi) * form[1]
        if cell.seat == "table":
            pushed = pushed + np.cos(2.0 * phi) * self.form[0] + np.sin(2.0 * phi) * self.form[1]
        return np.round(pushed / cell.resolution_mm) * cell.resolution_mm

    def setup(self, i):
        cell, made = self.cell, offering(seat=self.cell.seat, sweep_radius=self.cell.radius_mm)
        doubts = replace(
            cell.doubts, repeatability=float(self.known[i]), repeatability_dof=cell.sd_dof
        )
        gauge = replace(made.gauge, resolution=cell.resolution_mm, max_error=cell.max_error_mm)
        return replace(made, gauge=gauge, machine=replace(made.machine, uncertainty=doubts))

    def swept(self, i, row, when):
        """What a sweep leaves in the state: the product's fit and its budget."""
        cell, setup = self.cell, self.setup(i)
        spots = [Spot(POSITIONS[p], m, t) for p, m, t in zip(PLACES, row, when, strict=True)]
        made = fit(tuple(spots), cell.radius_mm, True)
        returned = row[-1] - row[0]
        facts = SweepFacts(
            cell.radius_mm,
            tuple(s.azimuth_deg for s in spots),
            tuple(when),
            made.d_mm,
            float(self.known[i]),
            cell.sd_dof,
            cell.resolution_mm,
            cell.max_error_mm,
            returned,
            seat=cell.seat,
        )
        budgets = Both.of(lambda axis: combine(terms(facts, cell.doubts, axis)))
        results = Both.of(
            lambda axis: AxisResult(
                made.d_mm[axis], made.d_mm[axis], 0.0167, "in", low_mm=-0.0167, high_mm=0.0167
            )
        )
        drift = returned / (when[-1] - when[0])
        read = zip(PLACES, row, when, strict=True)
        ended = [Point(place, mm + drift * (when[-1] - at)) for place, mm, at in read]
        done = SweepDone(
            1, "final", "", made.c_mm, made.slopes, returned, made.spare_mm, tuple(ended[:4]),
            (), True, results, Next("clear"), budgets=budgets,
        )  # fmt: skip
        machine = setup.machine
        return Swept(
            "a", "A-AAAA", 9, "2026-06-01", machine.diameter, results, Rule(), done,
            setup.gauge.serial_number, machine.seat, 0.0,
        )  # fmt: skip

    def filled(self, spots):
        """Every head's sweep as a morning is opened with it."""
        when = np.cumsum(self.rng.uniform(5.0, 9.0, len(PLACES)))
        drift = coverage.walk(self.rng, self.cell, self.n, when)
        rows = self.read(PLACES, drift, self.lean).T.tolist()
        for i, row in enumerate(rows):
            state = MachineState("mill", swept=self.swept(i, row, when.tolist()))
            last = last_sweep(state, self.setup(i), "scheduled")
            yield kind("morning").filled(Options(spots), last)

    def moved(self, filled, axis):
        """How many mornings say to look closer; `axis`: one that moved by what is seen."""
        cell, sees = self.cell, np.array([each.sees_mm() for each in filled])
        lean = self.lean.copy()
        if axis:
            lean[AXES.index(axis)] += sees * self.rng.choice([-1.0, 1.0]) / (2.0 * cell.radius_mm)
        between = self.rng.uniform(-1.0, 1.0, self.n) * [
            each.last.today.drift_mm * math.sqrt(3.0) for each in filled
        ]
        drift = np.stack([0.0 * between, between])
        spots = sorted({each.spots for each in filled})
        read = {pair: self.read(pair, drift, lean) for pair in spots}
        return sum(
            self.says(i, each, read[each.spots][:, i].tolist()) for i, each in enumerate(filled)
        )

    def says(self, i, filled, row):
        cell = self.cell
        gauging = Gauging(
            resolution_mm=cell.resolution_mm,
            sd_mm=float(self.known[i]),
            sd_dof=cell.sd_dof,
            local_mm=cell.doubts.local(cell.max_error_mm, cell.resolution_mm),
            scale=cell.doubts.scale,
            friction_mm=cell.doubts.friction,
        )
        read = zip(filled.spots, row, (0.0, 8.0), strict=True)
        taken = [Taken(*each) for each in read]
        (result,) = reduce(kind("morning"), filled, "mm", taken, gauging, Rule()).results
        return result.noticed.moved


CASES = {
    "ring, both axes": (cells.Cell("", drift_mm=0.002), "both"),
    "ring, one axis": (cells.Cell("", drift_mm=0.002, radius_mm=150.0), "side"),
    "table and its form": (cells.Cell("", seat="table", drift_mm=0.001), "both"),
    "block": (cells.Cell("", seat="block"), "nod"),
    "few visits": (cells.Cell("", sd_dof=6.0, sd_mm=0.002), "both"),
    "0.0001 in": (cells.Cell("", resolution_mm=0.00254, max_error_mm=0.00762), "both"),
}


SOON = ("ring, both axes",)
FEWER = ("table and its form", "0.0001 in")
"""Mostly bounded influences, which seldom all meet: in vain less often than stated, never more."""


def within(count, least, most):
    low, high = (stats.binom.interval(SURE, MORNINGS, share) for share in (least, most))
    return low[0] <= count <= high[1]


@pytest.mark.parametrize(
    "case", [pytest.param(c, marks=() if c in SOON else pytest.mark.long) for c in CASES]
)
def test_false_alarms_and_what_is_seen_come_as_often_as_is_stated(case):
    cell, spots = CASES[case]
    mornings = Mornings(cell, np.random.default_rng(20260601))
    filled = list(mornings.filled(spots))
    alarms = mornings.moved(filled, "")
    seen = mornings.moved(filled, "nod" if spots == "nod" else "side")
    sees = float(np.mean([each.sees_mm() for each in filled]))
    print(f"{case}: {alarms / MORNINGS:.2%} in vain, {seen / MORNINGS:.2%} seen of {sees:.4f} mm")
    fewer = 0.02 if case in FEWER else 0.0
    assert within(alarms, 0.05 - fewer, 0.05)
    assert within(seen, 0.95, 0.95 + fewer)


def geometry(filled: TwoSpots, side, nod):
    """What two spots differ by on a plane through the circle, as vectors."""
    a, b = side / filled.last.diameter_mm, -nod / filled.last.diameter_mm
    radius = filled.last.diameter_mm / 2.0
    at = [np.exp(1j * math.radians(POSITIONS[spot])) * radius for spot in filled.spots]
    return (a * (at[0] - at[1]).real) + (b * (at[0] - at[1]).imag)


@pytest.mark.parametrize("spots", ["both", "side", "nod"])
def test_what_two_spots_see_of_each_axis_is_that_of_a_plane(spots):
    filled = next(Mornings(cells.Cell(""), np.random.default_rng(1), 1).filled(spots))
    for side, nod in ((0.01, 0.0), (0.0, 0.01), (0.003, -0.007)):
        assert filled.sees(Both(side, nod)) == pytest.approx(geometry(filled, side, nod), abs=1e-15)
    blind = {"both": [(1.0, 1.0), (1.0, -1.0)], "side": [(0.0, 1.0)], "nod": [(1.0, 0.0)]}[spots]
    unseen = [filled.sees(Both(*change)) == pytest.approx(0.0, abs=1e-15) for change in blind]
    assert sum(unseen) == 1
