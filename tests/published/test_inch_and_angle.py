"""The inch, the general tolerance and one degree, from outside the house."""

import math

import pytest

from daq.checks.sweep.reduce import Spot, fit
from daq.metrology.rule import Rule, judge
from daq.units import MM_PER, parse, show
from tests.audit.conftest import setup_of

ARCSECOND = math.pi / 648_000.0


def limits_across(diameter_mm):
    """A machine's limits of 0.025 mm over 300 mm on a sweep of this diameter."""
    return setup_of(limit=0.025, radius=diameter_mm / 2.0).machine.limits("side")


def test_the_inch():
    """25.4 mm exactly: NIST SP 811."""
    assert MM_PER["in"] == 25.4
    assert parse("1 in", "length") == 25.4
    assert show(25.4, "in", 4) == "1.0000"


def test_0_025_mm_over_300_mm():
    """0.083333 mrad = 17.18873 arcseconds = 0.001 in per foot: arithmetic."""
    slope = parse("0.025 mm/300 mm", "slope")
    assert slope * 1e3 == pytest.approx(0.083333, abs=5e-7)
    assert math.atan(slope) / ARCSECOND == pytest.approx(17.18873, abs=5e-6)
    assert slope == pytest.approx(parse("0.001 in/12 in", "slope"), rel=1e-12)
    assert limits_across(100.0).high_mm == pytest.approx(slope * 100.0, rel=1e-15)
    foot = limits_across(12.0 * 25.4)
    assert foot.high_mm / 25.4 == pytest.approx(0.001, rel=1e-12)
    assert foot.low_mm == -foot.high_mm


def test_0_025_over_300_on_a_sweep_of_200():
    """A limit over a length is a slope, so a shorter sweep has less of it: arithmetic."""
    limits = limits_across(200.0)
    assert limits.high_mm == pytest.approx(0.0166667, abs=5e-8)
    simple = Rule("simple")
    assert judge(0.0166, 0.001, None, limits, simple).word == "in"
    assert judge(0.0167, 0.001, None, limits, simple).word == "out"


def test_a_lean_of_one_degree_swept_at_100_mm():
    """Opposite positions differ by 2 × 100 × tan 1° = 3.491013 mm: geometry.

    The readings are made here from a table plane leaning one degree, cut by plungers
    parallel to the spindle.
    """
    slope = math.sin(math.radians(1.0)) / math.cos(math.radians(1.0))
    points = [
        Spot(azimuth, 100.0 * math.cos(math.radians(azimuth)) * slope, 0.0)
        for azimuth in (270.0, 0.0, 90.0, 180.0)
    ]
    circle = fit(points, 100.0, drift=False)
    assert circle.d_mm.side == pytest.approx(3.491013, abs=5e-7)
    assert circle.d_mm.nod == pytest.approx(0.0, abs=1e-12)
    assert math.degrees(math.atan(circle.a)) == pytest.approx(1.0, rel=1e-12)
