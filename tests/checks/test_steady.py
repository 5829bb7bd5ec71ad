"""What stays in doubt of a drift that is taken for steady, and what is the same drift."""

import math

import numpy as np
import pytest

from daq.checks.sweep.steady import BENT, Walked, walked
from daq.checks.sweep.weights import weights
from daq.words import AXES
from tests.words import en

FOUR = (270.0, 0.0, 90.0, 180.0, 270.0)
WHEN = (0.0, 11.0, 22.0, 33.0, 60.0)
"""Round by quarters, and the same way back."""
SWEEP_S = WHEN[-1]


def bent(slow_s, axis):
    """What a warming of this time constant bends a difference by, of 1 mm walked."""
    walked = [math.expm1(-at / slow_s) / math.expm1(-SWEEP_S / slow_s) for at in WHEN]
    return abs(
        math.fsum(map(math.prod, zip(weights(FOUR, WHEN, axis).values, walked, strict=True)))
    )


@pytest.mark.parametrize("axis", AXES)
def test_what_warms_up_bends_a_difference_by_less_than_half(axis):
    """Exponential, after Newton's law of cooling, in a minute or in hours."""
    for slow_s in (SWEEP_S / 5.0, 20.0, 30.0, 300.0, 3600.0):
        assert bent(slow_s, axis) <= BENT
    assert bent(SWEEP_S, axis) < 0.125
    assert bent(3600.0, axis) < 0.01


@pytest.mark.parametrize(
    ("mm", "same"), [(0.003, True), (0.0015, True), (0.0045, True), (0.008, False), (-0.002, False)]
)
def test_the_same_drift_is_as_fast_within_half_and_what_readings_scatter(mm, same):
    assert Walked(mm, 60.0).is_as(0.003 / 60.0, sd_mm=0.0007) is same
    assert Walked(mm / 2.0, 30.0).is_as(0.003 / 60.0, sd_mm=0.00035) is same


def test_the_scatter_of_its_two_readings_is_no_drift():
    """Variance of a difference: E C² = d² + 2 s² (JCGM 100, 5.1.2)."""
    rng = np.random.default_rng(7)
    seen = 0.004 + rng.normal(0.0, math.sqrt(2.0) * 0.001, 200_000)
    squares = [walked(each, 0.001) ** 2 for each in seen]
    assert math.sqrt(float(np.mean(squares))) == pytest.approx(0.004, rel=0.005)
    assert (walked(0.0014, 0.001), walked(-0.003, 0.0)) == (0.0, 0.003)


def test_it_is_told_by_the_minute():
    told = Walked(-0.002, 40.0).told(0.001, "mm")
    assert not told.blocking
    assert en(told.said) == (
        "The gauge drifts by -0.003 mm a minute, said to be steady: taken out, up to 0.001 mm "
        "either way is left in doubt."
    )
