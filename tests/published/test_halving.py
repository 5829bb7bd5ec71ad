"""What shops know of halving the difference: common practice, no source."""

import pytest

from daq.squaring.advice import advise, stop_at

INCH = 25.4
R = 100.0


def change_in(far_in: float, pivot_in_radii: float) -> float:
    """Return the turn at the near side, in, for a far side that reads `far_in` from zero near."""
    t = -far_in * INCH / (2.0 * R)
    return stop_at(0.0, t, 0.0, R, pivot_in_radii * R, 0.0) / INCH


def test_the_rotation_axis_wants_about_half_at_the_near_side():
    assert change_in(-0.017, 0.0) == pytest.approx(-0.017 / 2.0, rel=1e-12)


def test_the_nod_axis_wants_more_than_the_whole_difference():
    """−0.012 in wanted 0.015 to 0.017 in at the front: pivot 1.5 to 1.8 radii behind."""
    assert abs(change_in(-0.012, 1.5)) == pytest.approx(0.015, abs=0.00005)
    assert abs(change_in(-0.012, 1.8)) == pytest.approx(0.017, abs=0.0003)


def test_halving_at_the_front_leaves_more_than_half_of_the_lean():
    told = advise("nod", "front", 0.0, 0.012 * INCH / (2.0 * R), 0.0, R, 1.65 * R, 0.0)
    halved = 0.006 * INCH / abs(told.change_mm)
    assert 1.0 - halved > 0.5
