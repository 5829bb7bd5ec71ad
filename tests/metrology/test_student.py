import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.student import (
    LEAST_DOF,
    normal_cdf,
    normal_quantile,
    t_cdf,
    t_quantile,
    whole_dof,
)

dofs = st.floats(LEAST_DOF, 1e7) | st.just(math.inf)
shares = st.floats(1e-6, 1.0 - 1e-6)


@settings(derandomize=True, deadline=None)
@given(shares, dofs)
def test_the_quantile_undoes_the_share(p: float, dof: float):
    assert t_cdf(t_quantile(p, dof), dof) == pytest.approx(p, rel=1e-9)


@settings(derandomize=True, deadline=None)
@given(shares, dofs)
def test_the_distribution_is_symmetric(p: float, dof: float):
    t = t_quantile(p, dof)
    assert t_cdf(-t, dof) == pytest.approx(1.0 - p, rel=1e-9, abs=1e-12)
    assert t_quantile(1.0 - p, dof) == pytest.approx(-t, rel=1e-8, abs=1e-9)


@settings(derandomize=True, deadline=None)
@given(st.floats(0.51, 0.9999), st.floats(1.0, 1e5), st.floats(1.01, 3.0))
def test_fewer_degrees_of_freedom_reach_further(p: float, dof: float, times: float):
    assert t_quantile(p, dof) > t_quantile(p, dof * times) > normal_quantile(p)


def test_the_two_ways_to_the_tail_meet():
    # Far out and near the middle are worked out differently, and so are many degrees of freedom.
    for dof in (3.0, 50.0, 1e6):
        for t in (1.2, 1.7, 1.74, 1.8, 2.2):
            assert t_cdf(math.nextafter(t, 9.0), dof) - t_cdf(t, dof) == pytest.approx(
                0.0, abs=1e-14
            )
    assert t_quantile(0.975, 1e6) == pytest.approx(t_quantile(0.975, 1e6 + 1.0), rel=1e-11)


def test_infinitely_many_degrees_of_freedom_are_normal():
    assert t_cdf(1.3, math.inf) == pytest.approx(normal_cdf(1.3), rel=1e-15)
    assert t_quantile(0.7, math.inf) == normal_quantile(0.7)


@pytest.mark.parametrize(
    ("dof", "whole"), [(None, math.inf), (16.76, 16.0), (8.0 - 1e-12, 8.0), (0.4, 1.0)]
)
def test_whole_degrees_of_freedom(dof: float | None, whole: float):
    # JCGM 100 G.4.1 (from memory): cut to the next lower whole number.
    assert whole_dof(dof) == whole


@pytest.mark.parametrize("p", [0.0, 1.0, -0.1, math.nan])
def test_what_is_no_share_is_refused(p: float):
    for refused in (lambda: normal_quantile(p), lambda: t_quantile(p, 5.0)):
        with pytest.raises(ValueError, match="allowed: a share between 0 and 1"):
            refused()


@pytest.mark.parametrize("dof", [0.0, -1.0, math.nan])
def test_too_few_degrees_of_freedom_are_refused(dof: float):
    for refused in (lambda: t_cdf(1.0, dof), lambda: t_quantile(0.9, dof)):
        with pytest.raises(ValueError, match=r"dof: found .*; allowed: 0.1 or more"):
            refused()
