"""Control charts: what they compute, checked by other ways to the same numbers."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.metrology.charts import D2, Sums, ewma, individuals

SERIES = st.lists(st.floats(-100.0, 100.0), min_size=2, max_size=40)


def test_three_values_by_hand():
    # 1, 3, 2: mean 2, moving ranges 2 and 1, so 1.5 / 1.128 from one value to the next.
    chart = individuals([1.0, 3.0, 2.0])
    assert (chart.center, chart.mean_moving_range) == (2.0, 1.5)
    assert chart.sd == pytest.approx(1.5 / 1.128, rel=1e-15)
    assert (chart.low, chart.high) == pytest.approx((2 - 4.5 / 1.128, 2 + 4.5 / 1.128), rel=1e-15)


def test_the_mean_range_of_two_is_two_over_the_root_of_pi():
    # The exact mean of |x - y| for normal x and y (geometry of the normal distribution);
    # tables of chart constants give three decimals.
    assert pytest.approx(2 / math.sqrt(math.pi), abs=5e-4) == D2


def test_the_standard_deviation_of_normal_values_is_found():
    values = np.random.default_rng(4).normal(5.0, 0.3, 20_000).tolist()
    assert individuals(values).sd == pytest.approx(0.3, rel=0.02)


def test_a_value_far_off_is_outside_and_others_are_not():
    chart = individuals([0.1, -0.1, 0.0, 0.1, -0.1, 0.05, 0.0, -0.05])
    assert chart.outside([0.0, 5.0, -5.0, 0.1]) == (1, 2)


@pytest.mark.parametrize("value", [0.0, 0.1, -1e6, 1 / 3])
def test_values_that_never_change_are_never_outside(value):
    values = [value] * 11
    chart = individuals(values)
    assert (chart.sd, chart.outside(values)) == (0.0, ())
    assert ewma(values, chart.center, chart.sd).outside == ()


@pytest.mark.parametrize("values", [[], [1.0]])
def test_one_value_has_no_limits(values):
    with pytest.raises(ValueError, match="two or more"):
        individuals(values)


@given(SERIES, st.floats(-50.0, 50.0))
def test_a_constant_added_moves_the_chart_and_no_limit_apart(values, shift):
    before, after = individuals(values), individuals([v + shift for v in values])
    assert after.center - before.center == pytest.approx(shift, abs=1e-9)
    assert after.high - after.low == pytest.approx(before.high - before.low, abs=1e-9)


@given(SERIES)
def test_a_mirrored_series_has_a_mirrored_chart(values):
    chart, mirrored = individuals(values), individuals([-v for v in values])
    assert (mirrored.low, mirrored.high) == pytest.approx((-chart.high, -chart.low), abs=1e-9)


@pytest.mark.parametrize("lam", [0.1, 0.2, 0.3, 1.0])
def test_each_point_is_the_weighted_sum_of_all_before_it_and_so_is_its_variance(lam):
    # Written out: z_t = Σ λ(1-λ)^i x_(t-i) + (1-λ)^t z_0, with independent x of equal spread.
    rng = np.random.default_rng(5)
    target, sd = 2.0, 0.7
    values = rng.normal(target, sd, 25)
    chart = ewma(values.tolist(), target, sd, lam)
    for t in range(1, 26):
        weights = lam * (1 - lam) ** np.arange(t)
        want = float(weights @ values[:t][::-1]) + (1 - lam) ** t * target
        assert chart.points[t - 1] == pytest.approx(want, rel=1e-12)
        reach = 3 * sd * math.sqrt(float(weights @ weights))
        assert chart.highs[t - 1] - target == pytest.approx(reach, rel=1e-9)
        assert target - chart.lows[t - 1] == pytest.approx(reach, rel=1e-9)


def test_with_the_whole_weight_on_the_newest_it_is_the_series_itself():
    chart = ewma([1.0, 4.0, 2.0], 0.0, 1.0, 1.0)
    assert chart.points == (1.0, 4.0, 2.0)
    assert (chart.lows, chart.highs) == ((-3.0,) * 3, (3.0,) * 3)
    assert chart.outside == (1,)


def test_the_limits_widen_to_their_last():
    chart = ewma([0.0] * 200, 0.0, 1.0, 0.2)
    assert list(chart.highs) == sorted(chart.highs)
    assert chart.highs[-1] == pytest.approx(chart.high, rel=1e-12)
    assert chart.high == pytest.approx(1.0, rel=1e-12)  # 3·√(0.2/1.8) = 1


def test_a_slow_drift_is_found_before_a_single_value_stands_out():
    values = [0.0, 0.1, -0.1, 0.05, -0.05, 0.1, -0.1, 0.0] + [0.25] * 12
    chart = ewma(values, 0.0, 0.1)
    assert max(abs(v) for v in values) < 3 * 0.1
    assert chart.outside
    assert chart.outside[0] >= 8


@pytest.mark.parametrize("lam", [0.0, -0.1, 1.01, math.nan])
def test_a_weight_that_is_none_is_refused(lam):
    with pytest.raises(ValueError, match="lam"):
        ewma([1.0], 0.0, 1.0, lam)


@pytest.mark.parametrize("sd", [-0.1, math.nan])
def test_a_spread_that_is_none_is_refused(sd):
    with pytest.raises(ValueError, match="sd"):
        ewma([1.0], 0.0, sd)


@pytest.mark.parametrize("at", [0, 1, 2, 40, 99, 100])
def test_sums_of_values_make_the_charts_of_all_of_them(at):
    values = np.random.default_rng(3).normal(2.0, 0.5, 100).tolist()
    before = Sums().after(values[:at])
    chart, whole = before.after(values[at:]).individuals(), individuals(values)
    assert (chart.center, chart.sd) == pytest.approx((whole.center, whole.sd), rel=1e-12)
    smooth, rest = ewma(values, 2.0, 0.5), before.ewma(values[at:], 2.0, 0.5)
    assert rest.points == pytest.approx(smooth.points[at:], rel=1e-12)
    assert rest.highs == pytest.approx(smooth.highs[at:], rel=1e-12)
    assert (rest.low, rest.high) == (smooth.low, smooth.high)
