import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.guard import (
    circle_k,
    in_circle,
    in_zone,
    least_radius,
    least_width,
    zone_k,
)
from daq.metrology.student import t_cdf, t_quantile

dofs = st.integers(1, 200).map(float) | st.just(math.inf)
coverages = st.floats(0.6, 0.999)


@settings(derandomize=True, deadline=None)
@given(st.floats(1.0001, 5.0), dofs, coverages)
def test_the_guard_in_a_zone_leaves_exactly_the_coverage(times: float, dof: float, coverage: float):
    width = times * least_width(coverage, dof)
    k, alone = zone_k(width, dof, coverage)
    # With one limit alone, what the other takes (under 0.8 % of the doubt) is left out.
    slack = 0.008 * (1.0 - coverage) if alone else 1e-9
    assert in_zone(k, width - k, dof) == pytest.approx(coverage, abs=slack)


@settings(derandomize=True, deadline=None)
@given(dofs, coverages)
def test_at_the_least_width_only_the_middle_conforms(dof: float, coverage: float):
    width = least_width(coverage, dof)
    assert zone_k(width, dof, coverage) == (pytest.approx(0.5 * width), False)
    assert zone_k(0.3 * width, dof, coverage)[0] == pytest.approx(0.5 * width)
    assert in_zone(0.5 * width, 0.5 * width, dof) == pytest.approx(coverage, rel=1e-9)
    # The guard grows with the root of what is missing, so it is near only very near.
    near = zone_k(width * (1.0 + 1e-9), dof, coverage)[0]
    assert near == pytest.approx(0.5 * width, rel=1e-3)


@settings(derandomize=True, deadline=None)
@given(st.floats(0.1, 20.0), st.floats(1.0, 1.5), dofs)
def test_a_wider_zone_never_needs_more_guard(width: float, times: float, dof: float):
    assert zone_k(width * times, dof, 0.95)[0] <= zone_k(width, dof, 0.95)[0] + 1e-9


def test_where_one_limit_alone_takes_over_the_guard_hardly_changes():
    below, above = zone_k(4.9999, math.inf, 0.95), zone_k(5.0, math.inf, 0.95)
    assert (below[1], above[1]) == (False, True)
    assert above[0] == t_quantile(0.95, math.inf)
    assert 0.0 < below[0] - above[0] < 0.005


def test_one_limit_alone_waits_longer_with_heavier_tails():
    assert zone_k(5.0, math.inf, 0.95)[1]
    assert not zone_k(6.0, 8.0, 0.95)[1]
    assert zone_k(12.0, 8.0, 0.95)[1]
    assert zone_k(math.inf, 1.0, 0.95) == (t_quantile(0.95, 1.0), True)


@settings(derandomize=True, deadline=None)
@given(st.floats(-10.0, 30.0), st.floats(-10.0, 30.0), dofs)
def test_a_zone_seen_from_either_end(below: float, above: float, dof: float):
    if below + above < 0.0:
        below, above = -above, -below
    found = in_zone(below, above, dof)
    assert found == in_zone(above, below, dof)
    outside = t_cdf(-below, dof) + t_cdf(-above, dof)
    assert found == pytest.approx(1.0 - outside, abs=1e-12)


@settings(derandomize=True, deadline=None)
@given(st.floats(1.0001, 40.0), dofs, coverages)
def test_the_guard_in_a_circle_leaves_exactly_the_coverage(
    times: float, dof: float, coverage: float
):
    radius = times * least_radius(coverage, dof)
    k = circle_k(radius, dof, coverage)
    assert in_circle(radius - k, radius, dof) == pytest.approx(coverage, abs=1e-9)
    assert t_quantile(coverage, dof) - 1e-3 < k <= least_radius(coverage, dof) + 1e-9


@settings(derandomize=True, deadline=None)
@given(dofs, coverages)
def test_at_the_least_radius_only_the_middle_conforms(dof: float, coverage: float):
    radius = least_radius(coverage, dof)
    assert in_circle(0.0, radius, dof) == pytest.approx(coverage, rel=1e-9)
    assert circle_k(radius, dof, coverage) == pytest.approx(radius)
    assert circle_k(0.2 * radius, dof, coverage) == pytest.approx(radius)


@settings(derandomize=True, deadline=None)
@given(st.floats(0.05, 50.0), st.floats(0.0, 60.0), st.floats(0.0, 10.0), dofs)
def test_farther_from_the_middle_is_less_probable(
    radius: float, distance: float, more: float, dof: float
):
    near, far = in_circle(distance, radius, dof), in_circle(distance + more, radius, dof)
    assert 0.0 <= far <= near + 1e-12 <= 1.0 + 1e-12


def test_a_huge_circle_is_a_straight_line():
    assert in_circle(2999.0, 3000.0, math.inf) == t_cdf(1.0, math.inf)
    at_the_change = circle_k(1999.9, 8.0, 0.95) - circle_k(2000.1, 8.0, 0.95)
    assert at_the_change == pytest.approx(0.0, abs=1e-3)
    assert circle_k(math.inf, 8.0, 0.95) == t_quantile(0.95, 8.0)
