"""Student's t and the normal distribution against printed tables and a reference library."""

import math

import pytest
from scipy import stats

from daq.metrology.student import normal_cdf, normal_quantile, t_cdf, t_quantile

# Printed in every table of Student's t; recomputed below with scipy.
TABLE = {
    0.975: {1: 12.706, 2: 4.303, 3: 3.182, 4: 2.776, 5: 2.571, 10: 2.228},
    0.95: {2: 2.920, 3: 2.353, 4: 2.132, 10: 1.812},
}
DOFS = [0.5, 1.0, 1.5, 2.0, 3.0, 8.0, 16.76, 29.9, 30.1, 59.9, 60.1, 100.0, 1e3, 1e5, 9e5, 1.1e6]
SHARES = [1e-9, 0.001, 0.025, 0.3, 0.50001, 0.9, 0.95, 0.975, 0.9999]


@pytest.mark.parametrize("p", TABLE)
def test_the_printed_table(p: float):
    for dof, printed in TABLE[p].items():
        assert round(t_quantile(p, dof), 3) == printed


def test_infinitely_many_is_the_last_line_of_the_table():
    # 1.645, 1.960, 2.326, 2.576: the last line of the printed tables.
    found = [round(t_quantile(p, math.inf), 3) for p in (0.95, 0.975, 0.99, 0.995)]
    assert found == [1.645, 1.960, 2.326, 2.576]


@pytest.mark.parametrize("dof", DOFS)
def test_quantiles_against_scipy(dof: float):
    for p in SHARES:
        assert t_quantile(p, dof) == pytest.approx(float(stats.t.ppf(p, dof)), rel=1e-9)


@pytest.mark.parametrize("dof", DOFS)
def test_shares_against_scipy(dof: float):
    for t in (-30.0, -4.0, -1.0, 0.01, 0.5, 1.7, 1.8, 2.5, 6.0, 100.0):
        assert t_cdf(t, dof) == pytest.approx(float(stats.t.cdf(t, dof)), rel=1e-9, abs=1e-12)


def test_one_degree_of_freedom_is_an_arc_tangent():
    # Student's t with one degree of freedom is the Cauchy distribution (textbook).
    for t in (-1e6, -2.0, 1e-6, 0.3, 1.0, 50.0):
        assert t_cdf(t, 1.0) == pytest.approx(0.5 + math.atan(t) / math.pi, abs=1e-15)


def test_the_normal_distribution_against_scipy():
    for z in (-8.0, -1.0, 0.0, 0.5, 3.0):
        assert normal_cdf(z) == pytest.approx(float(stats.norm.cdf(z)), rel=1e-13)
    for p in SHARES:
        assert normal_quantile(p) == pytest.approx(float(stats.norm.ppf(p)), rel=1e-13)
