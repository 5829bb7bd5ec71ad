"""The pooled standard deviation of repeats against published worked examples.

NIST Statistical Reference Datasets, analysis of variance, data set SiRstv: five
instruments, five repeats each on one silicon wafer (resistivity, ohm cm). Data and
certified values are entered from memory; that they agree to the last digits is the check
of the entry.

JCGM 100:2008 (GUM), example H.5: a voltage standard, five repeats on each of ten days.
The table of daily means and standard deviations and the results are from memory; they are
recomputed here.
"""

import math
from statistics import fmean, stdev

import pytest

from daq.checks.gauge.reduce import LengthRead, pooled_sd, reduce

SIRSTV = [
    [196.3052, 196.1240, 196.1890, 196.2569, 196.3403],
    [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    [196.2119, 196.1051, 196.1850, 196.0052, 196.2090],
]
WITHIN_SQUARES = 2.16636560000000e-01
RESIDUAL_SD = 1.04076068334656e-01

H5_MEANS_UV = [172.0, 116.0, 13.0, 144.0, 106.0, 31.0, 60.0, 125.0, 163.0, 41.0]
"""Microvolts above 10 V."""
H5_SDS_UV = [60.0, 77.0, 111.0, 101.0, 67.0, 93.0, 80.0, 73.0, 88.0, 86.0]


def test_silicon_resistivity():
    pooled = pooled_sd(SIRSTV)
    assert pooled == pytest.approx(RESIDUAL_SD, rel=1e-13)
    assert 20 * pooled**2 == pytest.approx(WITHIN_SQUARES, rel=1e-13)


def test_a_check_of_a_gauge_repeats_as_the_instruments_do():
    """The same data as five lengths, one of each instrument: only repeats of one are pooled."""
    readings = [
        LengthRead(float(length), length + value, "up")
        for repeat in range(5)
        for length, value in enumerate(row[repeat] for row in SIRSTV)
    ]
    found = reduce(readings, 1.0)
    assert found.repeatability_mm == pytest.approx(RESIDUAL_SD, rel=1e-11)
    everything = [value for row in SIRSTV for value in row]
    assert found.span_mm == pytest.approx(max(everything) - min(everything), rel=1e-11)


def day(mean, sd):
    """Five values of that mean and standard deviation (the published table has no others)."""
    return [mean + sd * step / math.sqrt(2.5) for step in (-2, -1, 0, 1, 2)]


def test_the_voltage_standard():
    days = [day(mean, sd) for mean, sd in zip(H5_MEANS_UV, H5_SDS_UV, strict=True)]
    assert round(fmean(H5_MEANS_UV)) == 97  # mean 10.000 097 V
    assert round(stdev(H5_MEANS_UV)) == 57  # between days 57 uV
    assert round(pooled_sd(days)) == 85  # within days 85 uV
