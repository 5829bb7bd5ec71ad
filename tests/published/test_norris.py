"""Least squares against certified values: NIST StRD, linear regression, data set Norris.

Data and certified values: NIST Statistical Reference Datasets, Norris. The data are
entered from memory; that the certified values come out to their last digits is the check
of the entry.

The house's fit is a circle with a steady drift. Each observation is entered at three
azimuths a third of a turn apart, so that the circle is orthogonal to the line: the level
is then B0, the drift along x is B1, and a and b vanish. Three equal copies leave the
estimates alone and divide their covariance by three.
"""

import math

import pytest

from daq.checks.sweep.reduce import Spot, covariance, fit

Y_X = """
0.1 0.2  338.8 337.4  118.1 118.2  888.0 884.6  9.2 10.1  228.1 226.5
668.5 666.3  998.5 996.3  449.1 448.6  778.9 777.0  559.2 558.2  0.3 0.4
0.1 0.6  778.1 775.5  668.8 666.9  339.3 338.0  448.9 447.5  10.8 11.6
557.7 556.0  228.3 228.1  998.0 995.8  888.8 887.6  119.6 120.2  0.3 0.3
0.6 0.3  557.6 556.8  339.3 339.1  888.0 887.2  998.5 999.0  778.9 779.0
10.2 11.1  117.6 118.3  228.9 229.2  668.4 669.1  449.2 448.9  0.2 0.5
"""
NUMBERS = [float(number) for number in Y_X.split()]
OBSERVED = list(zip(NUMBERS[::2], NUMBERS[1::2], strict=True))

B0, B0_SD = -0.262323073774029, 0.232818234301152
B1, B1_SD = 1.00211681802045, 0.429796848199937e-3
RESIDUAL_SD = 0.884796396144373
R_SQUARED = 0.999993745883712

# The drift is counted from the first reading, so the level is the line there, not at x = 0.
POINTS = [Spot(azimuth, y, x) for y, x in OBSERVED for azimuth in (0.0, 120.0, 240.0)]


def squares(values: list[float]) -> float:
    return math.fsum(value * value for value in values)


def test_the_estimates():
    line = fit(POINTS, 1.0, drift=True)
    assert line.drift_mm == pytest.approx(B1, rel=1e-13)
    assert line.c_mm - line.drift_mm * OBSERVED[0][1] == pytest.approx(B0, rel=1e-11)
    assert (line.a, line.b) == pytest.approx((0.0, 0.0), abs=1e-11)


def test_the_residuals():
    line = fit(POINTS, 1.0, drift=True)
    left = squares(list(line.residuals_mm)) / 3.0
    assert math.sqrt(left / 34.0) == pytest.approx(RESIDUAL_SD, rel=1e-12)
    mean = math.fsum(y for y, _ in OBSERVED) / 36.0
    assert 1.0 - left / squares([y - mean for y, _ in OBSERVED]) == pytest.approx(
        R_SQUARED, rel=1e-14
    )


def test_the_standard_deviations():
    cov = covariance(POINTS, 1.0, True, RESIDUAL_SD)
    assert math.sqrt(3.0 * cov[3][3]) == pytest.approx(B1_SD, rel=1e-12)
    x = OBSERVED[0][1]
    at_zero = cov[0][0] - 2.0 * x * cov[0][3] + x * x * cov[3][3]
    assert math.sqrt(3.0 * at_zero) == pytest.approx(B0_SD, rel=1e-12)
