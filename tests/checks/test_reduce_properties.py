"""What a fit must do whatever the readings are."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.sweep.arrange import reversed_pair
from daq.checks.sweep.reduce import Fit, Spot, fit
from daq.metrology.pushed import pushed_in

R = 100.0
NAMES = ("front", "right", "back", "left")
AZIMUTH = {"front": 270.0, "right": 0.0, "back": 90.0, "left": 180.0}

value = st.floats(-5.0, 5.0)
four = st.tuples(value, value, value, value)
always = settings(derandomize=True)


def same(one: float, other: float) -> bool:
    return one == pytest.approx(other, abs=1e-11)


def fitted(read: tuple[float, ...], names: tuple[str, ...] = NAMES, radius_mm: float = R) -> Fit:
    points = [
        Spot(AZIMUTH[n], v, float(k)) for k, (n, v) in enumerate(zip(names, read, strict=True))
    ]
    return fit(points, radius_mm, drift=False)


@always
@given(four)
def test_the_differences_are_those_of_opposite_readings(read: tuple[float, ...]):
    front, right, back, left = read
    circle = fitted(read)
    assert same(circle.d_mm.side, right - left)
    assert same(circle.d_mm.nod, front - back)
    assert circle.spare_mm is not None
    assert same(circle.spare_mm, (front + back - left - right) / 4.0)


@always
@given(four)
def test_a_mirror_of_left_and_right_turns_side_only(read: tuple[float, ...]):
    one, mirrored = fitted(read), fitted(read, ("front", "left", "back", "right"))
    assert same(mirrored.d_mm.side, -one.d_mm.side)
    assert same(mirrored.d_mm.nod, one.d_mm.nod)
    assert same(mirrored.c_mm, one.c_mm)
    assert same(mirrored.spare_mm or 0.0, one.spare_mm or 0.0)


@always
@given(four, value)
def test_a_constant_changes_the_level_only(read: tuple[float, ...], constant: float):
    one, raised = fitted(read), fitted(tuple(v + constant for v in read))
    assert same(raised.c_mm, one.c_mm + constant)
    assert same(raised.d_mm.side, one.d_mm.side)
    assert same(raised.d_mm.nod, one.d_mm.nod)
    assert all(map(same, raised.residuals_mm, one.residuals_mm))


@always
@given(st.lists(value, min_size=3, max_size=12), st.integers(0, 999))
def test_the_order_of_positions_does_not_matter(read: list[float], seed: int):
    points = [Spot(360.0 * k / len(read), v, 0.0) for k, v in enumerate(read)]
    shuffled = random.Random(seed).sample(points, len(points))
    one, other = fit(points, R, drift=False), fit(shuffled, R, drift=False)
    assert same(one.d_mm.side, other.d_mm.side)
    assert same(one.d_mm.nod, other.d_mm.nod)
    assert same(one.c_mm, other.c_mm)


@always
@given(four, st.floats(0.01, 100.0))
def test_the_radius_scales_slopes_and_not_differences(read: tuple[float, ...], times: float):
    one, other = fitted(read), fitted(read, radius_mm=R * times)
    assert same(other.a * times, one.a)
    assert same(other.b * times, one.b)
    assert same(other.d_mm.side, one.d_mm.side)
    assert same(other.d_mm.nod, one.d_mm.nod)


@always
@given(four)
def test_a_gauge_that_counts_the_other_way_gives_the_same_lean(face: tuple[float, ...]):
    up = fitted(tuple(pushed_in(v, True, 1.0) for v in face))
    down = fitted(tuple(pushed_in(-v, False, 1.0) for v in face))
    assert (down.a, down.b, down.c_mm) == (up.a, up.b, up.c_mm)


@always
@given(four, st.floats(-0.01, 0.01), st.floats(0.2, 3.0))
def test_a_steady_drift_never_reaches_the_lean(read: tuple[float, ...], drift: float, pause: float):
    times = (0.0, 1.0, 1.0 + pause, 2.0 + pause, 4.0 + pause)
    azimuths = (270.0, 0.0, 90.0, 180.0, 270.0)
    still = [Spot(az, v, t) for az, v, t in zip(azimuths, (*read, read[0]), times, strict=True)]
    moved = [Spot(p.azimuth_deg, p.pushed_mm + drift * p.order, p.order) for p in still]
    one, other = fit(still, R, drift=True), fit(moved, R, drift=True)
    assert same(other.d_mm.side, one.d_mm.side)
    assert same(other.d_mm.nod, one.d_mm.nod)
    assert same(other.drift_mm, one.drift_mm + drift)
    assert same(other.spare_mm or 0.0, one.spare_mm or 0.0)


@always
@given(four)
def test_read_in_inches_it_is_the_same_lean(read: tuple[float, ...]):
    """An inch is 25.4 mm exactly: NIST SP 811."""
    in_mm = fitted(read)
    in_inches = fitted(tuple(v / 25.4 for v in read), radius_mm=R / 25.4)
    assert same(in_inches.a, in_mm.a)
    assert same(in_inches.b, in_mm.b)
    assert same(in_inches.d_mm.side * 25.4, in_mm.d_mm.side)
    assert same((in_inches.spare_mm or 0.0) * 25.4, in_mm.spare_mm or 0.0)


@always
@given(four, st.integers(1, 3))
def test_starting_at_another_position_changes_nothing(read: tuple[float, ...], by: int):
    one = fitted(read)
    other = fitted(read[by:] + read[:by], NAMES[by:] + NAMES[:by])
    assert same(other.d_mm.side, one.d_mm.side)
    assert same(other.d_mm.nod, one.d_mm.nod)
    assert same(other.c_mm, one.c_mm)
    assert same(other.spare_mm or 0.0, one.spare_mm or 0.0)


@always
@given(four)
def test_a_quarter_turn_of_the_surface_swaps_side_and_nod(read: tuple[float, ...]):
    one = fitted(read)
    turned = fitted(read, ("right", "back", "left", "front"))
    assert same(turned.d_mm.side, one.d_mm.nod)
    assert same(turned.d_mm.nod, -one.d_mm.side)
    assert same(turned.spare_mm or 0.0, -(one.spare_mm or 0.0))


@always
@given(four, four, value, value)
def test_a_zero_between_sweeps_changes_nothing_that_compares_them(
    first: tuple[float, ...], again: tuple[float, ...], zeroed: float, anew: float
):
    one, other = fitted(first), fitted(again)
    after = fitted(tuple(v - zeroed for v in again))
    twice = fitted(tuple(v - zeroed - anew for v in again))
    for circle in (after, twice):
        parted, expected = reversed_pair(one, circle), reversed_pair(one, other)
        assert same(parted.d_mm.side, expected.d_mm.side)
        assert same(parted.d_mm.nod, expected.d_mm.nod)
        assert same(parted.added_a, expected.added_a) and same(parted.added_b, expected.added_b)
        assert same(circle.spare_mm or 0.0, other.spare_mm or 0.0)
        assert all(map(same, circle.residuals_mm, other.residuals_mm))
    assert same(after.c_mm, other.c_mm - zeroed)
