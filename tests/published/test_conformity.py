"""Verdicts under uncertainty against JCGM 106, ISO 14253-1 and a reference library.

The documents' numbers are from memory; each is recomputed with scipy beside it.
"""

import math
import random

import numpy as np
import pytest
from scipy import integrate, stats

from daq.metrology.guard import circle_k, in_circle, least_radius
from daq.metrology.rule import NOT_GOOD_ENOUGH, Limits, Rule, conformity, judge, judge_vector
from daq.words import Both


@pytest.mark.parametrize(
    ("probability", "away"), [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]
)
def test_one_limit(probability: float, away: float):
    # JCGM 106, table 1: how many u inside a single limit for which probability of conformity.
    assert conformity(-away, 1.0, None, Limits(None, 0.0)) == pytest.approx(probability, abs=0.001)
    judged = judge(-10.0, 1.0, None, Limits(None, 0.0), Rule(coverage=probability))
    assert judged.k == pytest.approx(away, abs=0.006)
    assert judged.k == pytest.approx(float(stats.norm.ppf(probability)), rel=1e-12)


def test_a_zone_of_sixteen_u():
    # JCGM 106, 7.6: with T/(4u) = 4, estimates from a tenth to nine tenths of the zone conform
    # with 95 % or more.
    zone = Limits(0.0, 16.0)
    assert conformity(1.6, 1.0, None, zone) == pytest.approx(0.95, abs=0.01)
    assert conformity(14.4, 1.0, None, zone) == pytest.approx(0.95, abs=0.01)
    words = [judge(at, 1.0, None, zone, Rule()).word for at in (1.6, 1.7, 8.0, 14.3, 14.4)]
    assert words == ["close", "in", "in", "in", "close"]


def test_the_guard_of_iso_14253_1():
    # ISO 14253-1: k = 1.65 (1.645) at 95 % while the zone is wide against u.
    judged = judge(0.0, 0.002, None, Limits(-0.025, 0.025), Rule())
    assert round(judged.k, 3) == 1.645
    assert judged.guard_mm == pytest.approx(0.00329, abs=5e-6)


@pytest.mark.parametrize(("dof", "k"), [(2, 2.920), (3, 2.353), (4, 2.132), (10, 1.812)])
def test_few_degrees_of_freedom(dof: int, k: float):
    # Table of Student's t, 95 % one-sided.
    assert round(judge(0.0, 0.001, dof, Limits(None, 1.0), Rule()).k, 3) == k


def test_a_zone_narrower_than_3_92_u_can_never_conform():
    # 2 × 1.960: two-sided 95 % of the normal distribution.
    limits = Limits(-0.010, 0.010)
    enough = judge(0.0, 0.020 / 3.93, None, limits, Rule())
    never = judge(0.0, 0.020 / 3.91, None, limits, Rule())
    assert (enough.word, enough.good_enough) == ("in", True)
    assert (never.word, never.good_enough, never.said) == ("close", False, NOT_GOOD_ENOUGH)


@pytest.mark.parametrize("seed", range(30))
def test_probability_of_conformity_against_scipy(seed: int):
    draw = random.Random(seed)
    low, high = draw.uniform(-0.03, 0.0), draw.uniform(0.001, 0.03)
    error, u, dof = draw.uniform(-0.05, 0.05), draw.uniform(0.0005, 0.01), draw.randint(1, 60)
    for theirs, nu in ((stats.t(dof, error, u), dof), (stats.norm(error, u), None)):
        expected = float(theirs.cdf(high) - theirs.cdf(low))
        found = conformity(error, u, nu, Limits(low, high))
        assert found == pytest.approx(expected, rel=1e-9, abs=1e-12)
        upper = conformity(error, u, nu, Limits(None, high))
        assert upper == pytest.approx(float(theirs.cdf(high)), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("width", [3.93, 4.0, 4.3, 4.9])
def test_the_guard_of_a_narrow_zone_against_scipy(width: float):
    limits = Limits(-0.5 * width, 0.5 * width)
    edge = 0.5 * width - judge(0.0, 1.0, None, limits, Rule()).k
    theirs = stats.norm(edge, 1.0)
    assert theirs.cdf(limits.high_mm) - theirs.cdf(limits.low_mm) == pytest.approx(0.95, abs=1e-9)


def test_two_axes_jointly():
    # Two independent axes at √0.95 each: k = 1.955, computed with scipy.
    judged = judge(0.0, 0.001, None, Limits(-1.0, 1.0), Rule(together="jointly"))
    assert round(judged.k, 3) == 1.955
    assert judged.k == pytest.approx(float(stats.norm.ppf(math.sqrt(0.95))), rel=1e-12)


@pytest.mark.parametrize(("radius", "k"), [(3.0, 1.93), (5.0, 1.77), (10.0, 1.70), (20.0, 1.67)])
def test_the_guard_of_a_vector(radius: float, k: float):
    # Non-central χ² with two degrees of freedom, computed with scipy.
    assert round(circle_k(radius, math.inf, 0.95), 2) == k
    edge = radius - circle_k(radius, math.inf, 0.95)
    assert stats.ncx2.cdf(radius**2, 2, edge**2) == pytest.approx(0.95, abs=1e-9)
    judged = judge_vector(
        Both(0.0, 0.0), Both(0.001, 0.0005), None, 0.001 * radius, Rule(together="vector")
    )
    assert round(judged.k, 2) == k


def test_the_shortest_limit_of_a_vector():
    # √(−2 ln 0.05) = 2.4477: 95 % of a circular normal distribution (Rayleigh).
    assert round(least_radius(0.95, math.inf), 4) == 2.4477
    assert least_radius(0.95, math.inf) == pytest.approx(float(stats.rayleigh.ppf(0.95)))
    rule = Rule(together="vector")
    never = judge_vector(Both(0.0, 0.0), Both(0.001, 0.001), None, 0.00244, rule)
    enough = judge_vector(Both(0.0, 0.0), Both(0.001, 0.001), None, 0.00245, rule)
    assert (never.word, never.good_enough, never.said) == ("close", False, NOT_GOOD_ENOUGH)
    assert (enough.word, enough.good_enough) == ("in", True)


@pytest.mark.parametrize("radius", [0.1, 2.5, 10.0, 300.0])
@pytest.mark.parametrize("share", [0.01, 0.5, 0.99, 1.0, 1.01, 1.5])
def test_a_circle_against_scipy(radius: float, share: float):
    distance = share * radius
    expected = float(stats.ncx2.cdf(radius**2, 2, distance**2))
    assert in_circle(distance, radius, math.inf) == pytest.approx(expected, rel=1e-8, abs=1e-11)


@pytest.mark.parametrize("dof", [1, 4, 30])
@pytest.mark.parametrize(("radius", "distance"), [(2.0, 0.7), (5.0, 5.0), (3.0, 6.0)])
def test_a_circle_with_few_degrees_of_freedom_against_scipy(
    dof: int, radius: float, distance: float
):
    # Student's t of two parts: circular normal ones whose common variance is drawn from the
    # inverse of χ²/ν. scipy integrates the non-central χ² over that.
    def share(chi2: float) -> float:
        scale = chi2 / dof
        held = stats.ncx2.cdf(radius**2 * scale, 2, distance**2 * scale)
        return float(held * stats.chi2.pdf(chi2, dof))

    # Substituted by the root: the density of one degree of freedom is infinite at zero.
    expected, _ = integrate.quad(lambda r: 2.0 * r * share(r * r), 0.0, np.inf, epsabs=1e-10)
    assert in_circle(distance, radius, dof) == pytest.approx(expected, abs=1e-8)
