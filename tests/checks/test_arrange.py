import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.sweep.arrange import bar_points, reversed_pair
from daq.checks.sweep.reduce import Spot, fit

R = 100.0
FOUR = (270.0, 0.0, 90.0, 180.0)
slope = st.floats(-1e-3, 1e-3)
always = settings(derandomize=True)


def read(azimuths, radius, a, b, zero=1.0, walk=0.0) -> list[Spot]:
    """What a gauge at `radius` reads of slopes to the right and away, drifting by the place."""
    return [
        Spot(
            azimuth,
            zero
            + radius * a * math.cos(math.radians(azimuth))
            + radius * b * math.sin(math.radians(azimuth))
            + walk * k,
            float(k),
        )
        for k, azimuth in enumerate(azimuths)
    ]


@always
@given(slope, slope, slope, slope)
def test_what_was_turned_is_parted_from_the_lean(a: float, b: float, wa: float, wb: float):
    first = fit(read(FOUR, R, a + wa, b + wb), R, drift=False)
    turned = fit(read(FOUR, R, a - wa, b - wb, zero=1.4), R, drift=False)
    parted = reversed_pair(first, turned)
    assert (parted.a, parted.b) == pytest.approx((a, b), abs=1e-14)
    assert (parted.added_a, parted.added_b) == pytest.approx((wa, wb), abs=1e-14)
    assert parted.d_mm.side == pytest.approx(200.0 * a, abs=1e-12)
    assert parted.d_mm.nod == pytest.approx(-200.0 * b, abs=1e-12)


def test_a_wedge_of_six_microns_to_the_front_that_swaps_over():
    # Right reads 10 µm more both times; the front 6 µm more, then 6 µm less.
    first = fit([Spot(270.0, 1.003, 0), Spot(0.0, 1.005, 1), Spot(90.0, 0.997, 2),
                 Spot(180.0, 0.995, 3)], R, drift=False)  # fmt: skip
    turned = fit([Spot(270.0, 0.997, 0), Spot(0.0, 1.005, 1), Spot(90.0, 1.003, 2),
                  Spot(180.0, 0.995, 3)], R, drift=False)  # fmt: skip
    parted = reversed_pair(first, turned)
    assert parted.d_mm.side == pytest.approx(0.010)
    assert parted.d_mm.nod == pytest.approx(0.0, abs=1e-12)
    assert 200.0 * math.hypot(parted.added_a, parted.added_b) == pytest.approx(0.006)


def test_sweeps_on_different_radii_are_not_paired():
    with pytest.raises(ValueError, match=r"100\.0 and 90\.0 mm; allowed: the same"):
        reversed_pair(
            fit(read(FOUR, R, 0, 0), R, drift=False), fit(read(FOUR, 90.0, 0, 0), 90.0, drift=False)
        )


def bar(azimuths, a, b, first_mm, second_mm, zeros=(1.0, 0.7), walk=0.0) -> list[Spot]:
    one = read(azimuths, first_mm, a, b, zeros[0], walk)
    # The other end stands opposite: the same slopes at minus its radius.
    return bar_points(one, read(azimuths, -second_mm, a, b, zeros[1], walk))


@always
@given(slope, slope, st.floats(50.0, 200.0), st.floats(50.0, 200.0), st.floats(-0.01, 0.01))
def test_a_bar_of_two_gauges_leaves_zeros_and_common_drift_out(
    a: float, b: float, first_mm: float, second_mm: float, walk: float
):
    points = bar(FOUR, a, b, first_mm, second_mm, walk=walk)
    circle = fit(points, first_mm + second_mm, drift=False)
    assert (circle.a, circle.b) == pytest.approx((a, b), abs=1e-14)
    assert circle.c_mm == pytest.approx(0.3, abs=1e-12)


@always
@given(slope, st.floats(50.0, 200.0), st.floats(50.0, 200.0))
def test_turning_the_bar_half_round_gives_a_slope_by_the_formula(
    a: float, first_mm: float, second_mm: float
):
    right, left = (p.pushed_mm for p in bar((0.0, 180.0), a, 2e-4, first_mm, second_mm))
    by_formula = (right - left) / (2.0 * (first_mm + second_mm))
    circle = fit(bar(FOUR, a, 2e-4, first_mm, second_mm), first_mm + second_mm, drift=False)
    assert circle.a == pytest.approx(by_formula, abs=1e-14)


def test_three_places_tell_the_zeros_too():
    circle = fit(bar((270.0, 0.0, 180.0), 3e-4, -2e-4, 80.0, 100.0), 180.0, drift=False)
    assert (circle.a, circle.b, circle.c_mm) == pytest.approx((3e-4, -2e-4, 0.3), abs=1e-12)


def test_a_reading_of_one_gauge_alone_is_refused():
    both = read(FOUR, R, 1e-4, 0.0)
    with pytest.raises(ValueError, match="one gauge only"):
        bar_points(both, both[:3])
    with pytest.raises(ValueError, match="one gauge only"):
        bar_points(both, [*both[1:], both[0]])
