"""How well a spot reads the same, pooled over many visits."""

import math
import statistics

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from daq.metrology.repeat import Repeat, pooled

differences = st.lists(st.floats(-0.05, 0.05), max_size=20)
sds = st.floats(1e-5, 0.01)
dofs = st.floats(0.5, 100.0)


def test_nothing_seen_is_what_was_assumed():
    assert pooled(0.0007, 8.0, ()) == Repeat(pytest.approx(0.0007), 8.0)


def test_what_nobody_measured_has_no_degrees_of_freedom_until_visits_outweigh_it():
    assert pooled(0.0007, None, ()) == Repeat(pytest.approx(0.0007), None, 0.0)
    for visits, dof in ((1, None), (7, None), (8, 8.0), (20, 20.0)):
        found = pooled(0.0007, None, (0.0030,) * visits)
        assumed = pooled(0.0007, 8.0, (0.0030,) * visits)
        assert found == Repeat(assumed.sd_mm, dof, visits / (8.0 + visits))


def test_two_readings_of_a_spot_by_hand():
    """8 degrees at 0.0007 and one pair 0.0030 apart: √((8·0.49 + 4.5)/9) = 0.967 µm."""
    found = pooled(0.0007, 8.0, (0.0030,))
    assert found.sd_mm == pytest.approx(0.000967, abs=5e-7)
    assert found.dof == 9.0


@given(sds, dofs, differences)
@settings(derandomize=True)
def test_it_is_the_textbooks_pooled_variance(sd, dof, seen):
    """Σ ν·s² / Σ ν, each pair of readings with its own variance from the standard library."""
    groups = [(dof, sd * sd), *((1, statistics.variance([0.0, d])) for d in seen)]
    variance = sum(n * s2 for n, s2 in groups) / sum(n for n, _ in groups)
    found = pooled(sd, dof, seen)
    assert found.sd_mm == pytest.approx(math.sqrt(variance), rel=1e-12)
    assert found.dof == pytest.approx(dof + len(seen))


@given(sds, dofs, differences)
@settings(derandomize=True)
def test_which_reading_came_first_and_in_what_order_does_not_count(sd, dof, seen):
    told = pooled(sd, dof, seen)
    assert pooled(sd, dof, [-d for d in seen]) == told
    assert pooled(sd, dof, seen[::-1]).sd_mm == pytest.approx(told.sd_mm, rel=1e-12)


@given(sds, dofs, differences, differences)
@settings(derandomize=True)
def test_pooling_twice_is_pooling_once(sd, dof, before, after):
    first = pooled(sd, dof, before)
    again = pooled(first.sd_mm, first.dof, after)
    once = pooled(sd, dof, (*before, *after))
    assert again.sd_mm == pytest.approx(once.sd_mm, rel=1e-12)
    assert again.dof == pytest.approx(once.dof)


def simulated(scatter, dof, visits, count=4000):
    """Gauges whose assumed scatter came from `dof` degrees of freedom, read in pairs."""
    rng = np.random.default_rng(3)
    for _ in range(count):
        assumed = scatter * math.sqrt(rng.chisquare(dof) / dof)
        pairs = rng.normal(0.0, scatter, (visits, 2))
        yield pooled(assumed, dof, (pairs[:, 0] - pairs[:, 1]).tolist())


@pytest.mark.parametrize(("dof", "visits"), [(8.0, 0), (8.0, 3), (4.0, 30)])
def test_the_true_scatter_lies_in_scipys_interval(dof, visits):
    """ν·s²/χ² at 2.5 and 97.5 % (textbook interval of a variance) holds it in 95 %, and
    ν·s²/σ² is chi-squared as the degrees of freedom say."""
    scatter = 0.0007
    found = list(simulated(scatter, dof, visits))
    ratios = np.array([each.dof * (each.sd_mm / scatter) ** 2 for each in found])
    assert {each.dof for each in found} == {dof + visits}
    low, high = stats.chi2.interval(0.95, dof + visits)
    assert 0.94 < np.mean((low < ratios) & (ratios < high)) < 0.96
    assert stats.kstest(ratios, "chi2", args=(dof + visits,)).pvalue > 0.01


@pytest.mark.parametrize("dof", [0.0, -1.0, math.nan])
def test_what_is_known_from_nothing_is_refused(dof):
    with pytest.raises(ValueError, match=r"dof: found .*; allowed: above 0"):
        pooled(0.0007, dof, ())


def test_what_the_last_digit_makes_spots_differ_is_taken_out():
    """Rounding to a digit d scatters by d/√12; 4,000 pairs of readings of sd 0.7 µm."""
    rng = np.random.default_rng(5)
    read = np.round(rng.normal(0.0, 0.0007, (4000, 2)), 3)
    differences = tuple(float(d) for d in read[:, 1] - read[:, 0])
    assert pooled(0.0007, 8.0, differences, 0.001).sd_mm == pytest.approx(0.0007, rel=0.04)
    assert pooled(0.0007, 8.0, differences).sd_mm > 1.05 * 0.0007


def test_differences_of_less_than_the_digit_leave_what_was_assumed_smaller():
    assert 0.0 < pooled(0.0007, 8.0, (0.0,) * 8, 0.001).sd_mm < 0.0007


# Pooled variance (textbook): of n visits beside a guess worth 8, n parts in 8 + n show friction.
@pytest.mark.parametrize("visits", [0, 8, 40, 200])
def test_friction_is_counted_once_whether_visits_showed_it_or_not(visits):
    rubs_mm, spot_mm = 0.0006, 0.0007
    whole_mm = math.hypot(rubs_mm, spot_mm)
    found = pooled(spot_mm, None, (math.sqrt(2.0) * whole_mm,) * visits)
    assert math.hypot(found.sd_mm, found.without(rubs_mm)) == pytest.approx(whole_mm)


def test_visits_show_no_more_friction_than_they_scatter():
    quiet = pooled(0.0007, None, (0.0001,) * 200)
    assert quiet.without(0.003) > 0.00299
    assert quiet.without(0.0) == 0.0
