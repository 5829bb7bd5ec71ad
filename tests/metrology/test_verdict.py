import math

import pytest

from daq.metrology.verdict import Tolerance, simple


def test_an_error_equal_to_its_limit_is_in():
    # Simple acceptance: the limit belongs to the tolerance zone (ISO 14253-1, from memory).
    assert simple(0.025, 0.025).word == "in"
    assert simple(-0.025, 0.025).word == "in"


def test_a_limit_reached_by_arithmetic_is_not_lost_to_the_last_bit():
    tenths = 0.1 + 0.2
    assert tenths > 0.3
    assert simple(tenths, 0.3).word == "in"


@pytest.mark.parametrize("error_mm", [0.0251, -0.0251, 5.0])
def test_an_error_past_its_limit_is_out(error_mm: float):
    assert simple(error_mm, 0.025).word == "out"


def test_the_zone_is_signed_and_in_limits():
    verdict = simple(-0.080, 0.016)
    assert verdict.zone == pytest.approx(-5.0)
    assert (verdict.error_mm, verdict.limit_mm) == (-0.080, 0.016)


def test_the_limit_scales_with_the_diameter():
    assert Tolerance(0.025, 300.0).at(200.0) == pytest.approx(0.05 / 3.0, rel=1e-15)
    assert Tolerance(0.025, 300.0).at(300.0) == 0.025


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_lengths_that_are_no_tolerance_are_refused(value: float):
    with pytest.raises(ValueError, match=r"limit_mm: found .*; allowed: a length above 0 mm"):
        Tolerance(value, 300.0)
    with pytest.raises(ValueError, match=r"over_mm: found .*; allowed: a length above 0 mm"):
        Tolerance(0.025, value)
