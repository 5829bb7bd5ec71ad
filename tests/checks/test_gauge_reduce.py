"""Errors, repeatability and hysteresis, by hand and against numpy and scipy."""

import math
import warnings

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from daq.checks.gauge.reduce import LengthRead, pooled_sd, reduce
from daq.checks.gauge.say import sentence
from tests.words import en


def points(*given):
    return [LengthRead(nominal, read, direction) for nominal, read, direction in given]


def test_a_small_check_by_hand():
    found = reduce(
        points(
            (0.0, 0.500, "up"),
            (1.0, 1.502, "up"),
            (2.0, 2.501, "up"),
            (1.0, 1.499, "down"),
            (0.0, 0.500, "down"),
        ),
        0.004,
    )
    assert found.errors_mm == pytest.approx((0.0, 0.002, 0.001, -0.001, 0.0))
    assert found.span_mm == pytest.approx(0.003)
    assert found.hysteresis_mm == pytest.approx(0.003)
    assert found.repeatability_mm is None
    assert found.passed
    assert [p.nominal_mm for p in found.points] == [0, 1, 2, 1, 0]
    assert found.points[1].read_mm == pytest.approx(1.002)


def test_errors_count_from_the_first_reading_wherever_zero_is():
    near = reduce(points((0.0, 0.0, "up"), (2.0, 2.003, "up")), 0.01)
    far = reduce(points((10.0, -4.0, "up"), (12.0, -1.997, "up")), 0.01)
    assert far.errors_mm == pytest.approx(near.errors_mm)
    assert far.span_mm == pytest.approx(0.003)


def test_a_span_equal_to_the_limit_passes_and_one_count_more_does_not():
    for counts, passed in ((4, True), (5, False)):
        found = reduce(points((0.0, 0.0, "up"), (1.0, 1.0 + counts * 0.001, "up")), 0.004)
        assert found.passed is passed


def test_repeats_on_the_way_up_and_down_are_kept_apart():
    up_down = points((0.0, 0.0, "up"), (1.0, 1.004, "up"), (1.0, 1.000, "down"))
    assert reduce(up_down, 0.01).repeatability_mm is None
    found = reduce([*up_down, LengthRead(1.0, 1.006, "up")], 0.01)
    assert found.repeatability_mm == pytest.approx(math.sqrt(2) * 0.001)
    assert found.hysteresis_mm == pytest.approx(0.005)


@pytest.mark.parametrize("limit", [0.0, -1.0, math.nan, math.inf])
def test_a_limit_that_is_none_is_refused(limit):
    with pytest.raises(ValueError, match="allowed: a length above 0 mm"):
        reduce(points((0.0, 0.0, "up"), (1.0, 1.0, "up")), limit)


def test_one_reading_is_refused():
    with pytest.raises(ValueError, match="found 1 readings; allowed: two or more"):
        reduce(points((0.0, 0.0, "up")), 0.01)


def numbers(least):
    return st.lists(st.floats(-1, 1), min_size=least, max_size=6)


@settings(derandomize=True, max_examples=60)
@given(st.lists(numbers(2), min_size=1, max_size=5))
def test_the_pooled_deviation_is_numpys(groups):
    """Reference: numpy.var with one degree of freedom lost per group, weighted by it."""
    freedom = [len(group) - 1 for group in groups]
    variance = np.average([np.var(group, ddof=1) for group in groups], weights=freedom)
    assert pooled_sd(groups) == pytest.approx(math.sqrt(variance), abs=1e-9)


@settings(derandomize=True, max_examples=60)
@given(numbers(3), numbers(3))
def test_two_groups_pool_as_the_t_test_of_equal_variances_does(one, other):
    """Reference: scipy.stats.ttest_ind, whose standard error holds the pooled deviation."""
    pooled = pooled_sd([one, other])
    difference = abs(float(np.mean(one) - np.mean(other)))
    if pooled < 1e-3 or difference < 1e-3:
        return
    with warnings.catch_warnings():
        # A group of equal numbers has no spread to lose digits of, which scipy warns about.
        warnings.simplefilter("ignore", RuntimeWarning)
        t = stats.ttest_ind(one, other, equal_var=True).statistic
    error = pooled * math.sqrt(1 / len(one) + 1 / len(other))
    assert abs(t) == pytest.approx(difference / error, rel=1e-6)


def test_groups_of_one_say_nothing_about_repeats():
    assert pooled_sd([[1.0], [2.0]]) is None
    assert pooled_sd([[1.0, 3.0], [2.0]]) == pytest.approx(math.sqrt(2))


def test_the_sentence_says_the_verdict_first_and_what_to_do_last():
    good = reduce(points((0.0, 0.0, "up"), (1.0, 1.003, "up")), 0.004)
    assert en(sentence(good, "mm", 4)) == "Good: its errors span 0.0030 mm; allowed 0.0040 mm."
    way = points((0.0, 0.0, "up"), (1.0, 1.003, "up"), (0.0, 0.001, "down"), (1.0, 1.009, "up"))
    bad = reduce(way, 0.004)
    assert en(sentence(bad, "mm", 3)) == (
        "Not good: its errors span 0.009 mm; allowed 0.004 mm. "
        "It repeats within a standard deviation of 0.004 mm. "
        "Up and down differ by up to 0.001 mm. "
        "Take it out of use until it has been seen to."
    )
    assert "0.00016 in" in en(sentence(good, "in", 5))
