"""The gauge's papers in a sweep's uncertainty, against closed forms and `uncertainties`."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import correlated_values, ufloat, umath

from daq.checks.gauge.reduce import SHORT_MM, LengthRead, worst_step
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers, of_gauge
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import Term
from daq.words import AXES, Both
from tests.words import en

CERTIFIED = Papers(u_mm=0.0005, gone_mm=0.0012)
LEVER = Papers(angle=math.radians(12.0), angle_doubt=math.radians(5.0))


def told(papers: Papers, d_mm=0.04, share=1.0, doubts=None) -> dict[str, Term]:
    found = of_gauge(0.005, 0.001, 100.0, share, papers, doubts or Doubts(), d_mm)
    return {term.code.removeprefix("term-"): term for term in found}


def test_without_a_certificate_nothing_is_added_and_that_is_said():
    term = told(Papers())["certificate"]
    assert term.u_mm == 0.0
    assert not term.cancels
    assert en(term.note) == "the gauge's file names no certificate's uncertainty"
    assert "since" not in told(Papers())


# A difference of two values that go together by a half (JCGM 100, 5.2.2).
@settings(derandomize=True)
@given(st.floats(1e-5, 0.01))
def test_a_difference_takes_two_points_of_the_certificate_half_alike(u):
    variance = u * u
    one, two = correlated_values(
        [0.0, 0.0], [[variance, 0.5 * variance], [0.5 * variance, variance]]
    )
    found = told(Papers(u_mm=u))["certificate"].u_mm
    assert found == pytest.approx((one - two).std_dev, rel=1e-9)


# A rectangular distribution: JCGM 100, 4.3.7.
def test_drift_since_is_anywhere_within_its_bound():
    assert told(CERTIFIED)["since"].u_mm == pytest.approx(0.0012 / math.sqrt(3.0))


def test_on_a_bar_each_gauges_papers_count_by_its_share():
    for key in ("certificate", "since", "local"):
        whole, half = told(CERTIFIED)[key].u_mm, told(CERTIFIED, share=0.5)[key].u_mm
        assert half == pytest.approx(whole / 2.0)


# The cosine itself at both ends of the doubt: the larger change of the difference is the bound.
@settings(derandomize=True)
@given(st.floats(0.0, 60.0), st.floats(0.1, 20.0), st.floats(-0.5, 0.5))
def test_a_levers_angle_is_doubted_by_its_cosine(angle, doubt, d):
    at, by = math.radians(angle), math.radians(doubt)
    ends = (abs(1.0 - math.cos(at + side) / math.cos(at)) for side in (-by, by))
    found = told(Papers(angle=at, angle_doubt=by), d)["lever"].u_mm
    assert found == pytest.approx(abs(d) * max(ends) / math.sqrt(3.0), rel=1e-9, abs=1e-15)


# To first order it is the derivative of the cosine (JCGM 100, 5.1.3).
def test_a_small_doubt_of_a_levers_angle_is_the_derivative():
    at, by = math.radians(30.0), 1e-6
    angle = ufloat(at, by / math.sqrt(3.0))
    read = 0.04 / math.cos(at)
    found = told(Papers(angle=at, angle_doubt=by))["lever"].u_mm
    assert found == pytest.approx((read * umath.cos(angle)).std_dev, rel=1e-5)


def test_a_plunger_has_no_stylus_to_doubt():
    assert "lever" not in told(CERTIFIED)
    assert en(told(LEVER)["lever"].name) == "The lever's angle to the surface"


def test_the_latest_check_takes_the_place_of_a_fifth():
    assert told(Papers())["local"].u_mm == pytest.approx(0.0009 / math.sqrt(3.0))
    checked = Papers(span_error_mm=0.0022)
    assert told(checked)["local"].u_mm == pytest.approx(0.0022 / math.sqrt(3.0))
    assert "latest check" in en(told(checked)["local"].note)
    # What the shop wrote down of the machine's sweep goes before both.
    stated = Doubts(local_error=0.0004)
    assert told(checked, doubts=stated)["local"].u_mm == pytest.approx(0.0004 / math.sqrt(3.0))


@pytest.mark.parametrize("axis", AXES)
def test_a_sweeps_budget_holds_them(axis):
    facts = SweepFacts(
        100.0, (270.0, 0.0, 90.0, 180.0), (), Both(0.04, -0.02), 7e-4, 8.0, 1e-3, 5e-3
    )
    both = replace(CERTIFIED, angle=LEVER.angle, angle_doubt=LEVER.angle_doubt)
    found = {term.code for term in terms(replace(facts, papers=both), Doubts(), axis)}
    assert {"term-certificate", "term-since", "term-lever"} <= found


def checked(*of: tuple[float, float]) -> list[LengthRead]:
    return [LengthRead(nominal, nominal + error, "up") for nominal, error in of]


def test_the_worst_step_is_over_a_short_span_only():
    found = worst_step(
        checked((0.0, 0.0), (0.1, 0.002), (0.2, 0.001), (0.3, -0.001), (5.0, 0.009)), SHORT_MM
    )
    assert found == pytest.approx(0.003)  # from 0.1 to 0.3, not the 0.01 from 0.3 to 5


def test_too_few_close_lengths_bound_nothing():
    assert worst_step(checked((0.0, 0.0), (0.1, 0.002), (1.0, 0.001)), SHORT_MM) is None
    assert worst_step(checked((0.0, 0.0), (0.0, 0.002), (0.0, 0.001)), SHORT_MM) is None


@settings(derandomize=True)
@given(st.lists(st.tuples(st.integers(0, 30), st.integers(-9, 9)), min_size=4, max_size=9))
def test_the_worst_step_against_counting_it_out(of):
    points = [(tenth / 10.0, error / 1000.0) for tenth, error in of]
    near = [
        (abs(a[1] - b[1]), frozenset((a[0], b[0])))
        for a, b in itertools.combinations(points, 2)
        if 0.0 < abs(a[0] - b[0]) < 0.2001
    ]
    found = worst_step(checked(*points), SHORT_MM)
    if len({pair for _, pair in near}) < 3:
        assert found is None
    else:
        assert found == pytest.approx(max(change for change, _ in near))
