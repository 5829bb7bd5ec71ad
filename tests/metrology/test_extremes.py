import math

import pytest
from scipy import stats

from daq.metrology.extremes import length_quantile, range_quantile


@pytest.mark.parametrize("p", [0.5, 0.95, 0.975, 0.9999])
@pytest.mark.parametrize("count", [2, 3, 5, 8, 20])
def test_the_range_of_several_errors_as_scipy_has_it(p, count):
    # scipy's studentized range, with as many degrees of freedom as it can take.
    expected = stats.studentized_range.ppf(p, count, 1e7)
    assert range_quantile(p, count) == pytest.approx(expected, rel=1e-5)


def test_the_range_of_two_is_their_difference():
    assert range_quantile(0.95, 2) == pytest.approx(
        math.sqrt(2.0) * stats.norm.ppf(0.975), rel=1e-9
    )


@pytest.mark.parametrize(("count", "tabled"), [(3, 3.31), (4, 3.63), (5, 3.86), (10, 4.47)])
def test_the_tabled_ranges_at_95_percent(count, tabled):
    # Studentized range, infinitely many degrees of freedom: textbook tables, from memory.
    assert range_quantile(0.95, count) == pytest.approx(tabled, abs=0.006)


@pytest.mark.parametrize("p", [0.05, 0.5, 0.95, 0.999])
def test_the_length_of_a_plane_error_as_scipy_has_it(p):
    assert length_quantile(p) == pytest.approx(stats.rayleigh.ppf(p), rel=1e-12)


def test_one_error_has_no_range():
    with pytest.raises(ValueError, match="found 1; allowed: 2 or more"):
        range_quantile(0.95, 1)
