"""Control charts against the worked examples of the NIST/SEMATECH e-Handbook.

Data, target, standard deviation and printed results: NIST/SEMATECH e-Handbook of
Statistical Methods, 6.3.2.2 (individuals) and 6.3.2.4 (EWMA); from memory.
"""

import pytest

from daq.metrology.charts import ewma, individuals

DATA = [
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
    49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
]  # fmt: skip
TARGET, SD, WEIGHT = 50.0, 2.0539, 0.3


def test_the_ewma_limits():
    chart = ewma(DATA, TARGET, SD, WEIGHT)
    # Printed to four decimals, the lower one cut and not rounded.
    assert (chart.high, chart.low) == pytest.approx((52.5884, 47.4115), abs=1e-4)


def test_the_last_ewma_and_that_all_lie_inside():
    chart = ewma(DATA, TARGET, SD, WEIGHT)
    assert chart.points[-1] == pytest.approx(51.99, abs=0.005)
    assert all(chart.low < point < chart.high for point in chart.points)


def test_the_individuals_chart_of_the_last_ten():
    chart = individuals(DATA[-10:])
    assert chart.center == pytest.approx(50.81, abs=1e-9)
    assert chart.mean_moving_range == pytest.approx(1.8778, abs=5e-5)
    assert (chart.high, chart.low) == pytest.approx((55.8041, 45.8159), abs=1e-4)
    assert chart.outside(DATA[-10:]) == ()
