"""How near a turn must come to its stop-at."""

from statistics import NormalDist

import pytest

from daq.squaring.band import band

NEAR = (0.0009, 0.0012, 0.0020, 0.0015)
"""What a known head's lean, tightening and creep are in doubt by, mm across."""
U_MM = 0.0029154759474226502
"""Their squares added: 0.81 + 1.44 + 4 + 2.25 = 8.5 µm²; its root (worked by hand)."""


def half(within_mm, doubts=(0.0,), shows=1.0, count_mm=0.0001, noise_mm=0.0):
    return band(within_mm, doubts, shows, count_mm, noise_mm)


def test_what_the_limit_leaves_after_the_doubts_is_brought_to_the_parked_spot():
    """R 100 and the pivot 190 away: the face shows 290 of 200."""
    found = half(0.010, NEAR, shows=1.45)
    assert found.half_mm == pytest.approx(1.45 * (0.010 - 1.645 * U_MM), abs=0.0001)
    assert not found.finer


def test_at_its_very_edge_the_axis_still_ends_inside_95_times_of_100():
    room_mm = half(0.010, NEAR).half_mm
    assert NormalDist(room_mm, U_MM).cdf(0.010) == pytest.approx(0.95, abs=0.005)


def test_a_wide_limit_leaves_half_of_it_to_what_comes_later():
    assert half(0.100, NEAR).half_mm == pytest.approx(0.050)


@pytest.mark.parametrize(
    ("within_mm", "count_mm", "noise_mm", "half_mm"),
    [
        (0.005, 0.001, 0.0, 0.002),
        (0.0, 0.001, 0.0, 0.002),
        (0.005, 0.001, 0.0012, 0.003),
        (0.025, 0.01, 0.0, 0.020),
    ],
    ids=["two counts", "a rule that leaves nothing", "twice the noise", "a coarse gauge"],
)
def test_never_nearer_than_the_gauge_can_show_and_that_is_said(
    within_mm, count_mm, noise_mm, half_mm
):
    found = half(within_mm, NEAR, count_mm=count_mm, noise_mm=noise_mm)
    assert (found.half_mm, found.finer) == (pytest.approx(half_mm), True)


def test_it_ends_at_a_whole_count():
    assert half(0.012, shows=0.5, count_mm=0.001).half_mm == pytest.approx(0.003)
    assert half(0.0119, shows=0.5, count_mm=0.001) == half(0.008, shows=0.5, count_mm=0.001)
