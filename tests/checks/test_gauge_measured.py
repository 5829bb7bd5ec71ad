"""What a gauge's check measured stands in later budgets, with its date, for common practice."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from daq.checks.gauge.measured import BenchMeasured, measured
from daq.checks.gauge.plan import steps
from daq.checks.gauge.reduce import LengthRead
from daq.checks.kinds import kind
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.flicks import Friction
from daq.metrology.rule import Rule
from daq.words import Both
from tests.words import en

DAY = "2026-11-30"
SEEN = BenchMeasured(DAY, friction_mm=0.0008, sd_mm=0.00045)
PAPERS = Papers(span_error_mm=0.0012, measured=SEEN)
ROUND, ORDERS = (0.0, 90.0, 180.0, 270.0, 0.0), (0.0, 1.0, 2.0, 3.0, 4.0)
FACTS = SweepFacts(100.0, ROUND, ORDERS, Both(0.01, 0.0), 0.00045, None, 0.001, 0.005)


def told(**given):
    made = terms(replace(FACTS, **given), Doubts(), "side")
    return {term.code: (term.u_mm, en(term.note)) for term in made if term.note is not None}


def test_each_line_says_when_it_was_measured():
    found = told(papers=PAPERS)
    for code in ("term-local", "term-friction", "term-repeatability"):
        assert found[code][1].startswith(f"measured on {DAY}: "), code
    usual = told(papers=Papers())
    assert not [code for code, (_, note) in usual.items() if "measured on" in note]
    share = found["term-friction"][0] / usual["term-friction"][0]
    assert share == pytest.approx(0.0008 / Doubts().friction)


def test_what_the_machine_shows_goes_before_what_the_bench_showed():
    flicked = told(papers=PAPERS, friction=Friction(0.0001, 5.0, 3))
    assert "flicked arm" in flicked["term-friction"][1]
    visited = told(papers=PAPERS, sd_dof=9.0)
    assert "pooled over visits" in visited["term-repeatability"][1]


def test_an_older_check_is_told_as_it_was():
    found = told(papers=Papers(span_error_mm=0.0012))
    assert found["term-local"][1].startswith("the worst its latest check showed")


def test_another_checks_lines_say_so_too():
    runout = kind("runout")
    options = runout.options(limit=0.02)
    sequence = runout.table(options, "mm").sequence
    taken = [Taken(each.key, 0.001 * at, at) for at, each in enumerate(sequence)]
    gauging = Gauging(0.001, 0.00045, None, local_checked=True, measured=SEEN)
    outcome = reduce(runout, options, "mm", taken, gauging, Rule())
    notes = {t.code: en(t.note) for t in outcome.results[0].budget.terms if t.note is not None}
    for code in ("term-local", "term-friction", "term-repeatability"):
        assert notes[code].startswith(f"measured on {DAY}: "), code


def read(noise, hysteresis=0.0, repeats=3):
    draw = np.random.default_rng(7)
    return [
        LengthRead(
            s.nominal_mm,
            s.nominal_mm + draw.normal(0.0, noise) - (hysteresis if s.direction == "down" else 0.0),
            s.direction,
        )
        for s in steps([0.0, 1.0, 2.0, 3.0], down=True, repeats=repeats)
    ]


def test_its_deviation_is_what_few_repeats_leave_of_it():
    """Reference: scipy, the standard deviation of Student's t scaled by that of the repeats."""
    points = read(0.002)
    found = measured(DAY, points, 0.001)
    groups = {}
    for p in points:
        groups.setdefault((p.nominal_mm, p.direction), []).append(p.read_mm - p.nominal_mm)
    freedom = sum(len(group) - 1 for group in groups.values())
    pooled = math.sqrt(sum(np.var(g) * len(g) for g in groups.values()) / freedom)
    assert found.sd_mm == pytest.approx(pooled * stats.t(freedom).std(), rel=1e-6)


def test_what_a_count_hides_is_no_nothing():
    found = measured(DAY, read(0.0), 0.001)
    assert found.friction_mm == pytest.approx(0.0005)
    assert found.sd_mm == pytest.approx(0.001 / math.sqrt(12.0))
    assert measured(DAY, read(0.0, 0.0024), 0.001).friction_mm == pytest.approx(0.0012)


def test_what_was_not_read_is_not_known():
    assert measured(DAY, (), 0.001) == BenchMeasured(DAY)
    up = [p for p in read(0.0, repeats=1) if p.direction == "up"]
    assert measured(DAY, up, 0.001) == BenchMeasured(DAY)
