"""How near a turn must come to its stop-at."""

from statistics import NormalDist

import pytest

from daq.squaring.band import band

NEAR = (0.0009, 0.0012, 0.0020, 0.0015)
"""What a known head's lean, tightening and creep are in doubt by, mm across: 2.9 µm together."""


def half(within_mm, doubts=(0.0,), shows=1.0, count_mm=0.0001, noise_mm=0.0):
    return band(within_mm, doubts, shows, count_mm, noise_mm)


def test_what_the_limit_leaves_after_the_doubts_is_brought_to_the_parked_spot():
    """R 100 and the pivot 190 away: the face shows 290 of 200."""
    found = half(0.010, NEAR, shows=1.45)
    assert found.half_mm == pytest.approx(1.45 * 0.005, abs=0.0001)
    assert not found.finer


@pytest.mark.parametrize(
    ("of_limit", "most"), [(0.25, 0.03), (0.5, 0.12), (0.7, 0.12), (0.9, 0.12)]
)
def test_at_its_very_edge_the_axis_is_hardly_less_likely_to_end_inside(of_limit, most):
    """Of a limit of 1 with all else in doubt by a part of it, one standard deviation."""
    chances = []
    for off in (0.0, half(1.0, (of_limit,)).half_mm):
        ends = NormalDist(off, of_limit)
        chances.append(ends.cdf(1.0) - ends.cdf(-1.0))
    assert 0.0 < chances[0] - chances[1] < most


def test_what_is_in_doubt_is_taken_off_the_limit():
    """4.8 and 3.6 in quadrature are 6."""
    assert half(0.010, (0.0048, 0.0036)).half_mm == pytest.approx(0.004)


@pytest.mark.parametrize(
    ("within_mm", "count_mm", "noise_mm", "half_mm"),
    [
        (0.003, 0.001, 0.0, 0.002),
        (0.0, 0.001, 0.0, 0.002),
        (0.003, 0.001, 0.0012, 0.003),
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
