import math

import numpy as np
import pytest
from scipy.optimize import curve_fit

from daq.checks.sweep.reduce import Spot, covariance, fit, return_error, solver

R = 100.0


def test_four_readings_give_both_differences_with_their_signs(swept):
    circle = fit(swept([1.24, 1.25, 1.16, 1.15]), R, drift=False)
    assert circle.d_mm.side == pytest.approx(0.10, abs=1e-12)
    assert circle.d_mm.nod == pytest.approx(0.08, abs=1e-12)
    assert circle.c_mm == pytest.approx(1.20, abs=1e-12)
    assert circle.a == pytest.approx(0.10 / 200.0, abs=1e-15)
    assert circle.b == pytest.approx(-0.08 / 200.0, abs=1e-15)
    assert circle.spare_mm == pytest.approx(0.0, abs=1e-12)
    assert circle.residuals_mm == pytest.approx((0.0,) * 4, abs=1e-12)


def test_a_chip_under_one_contact_shows_as_a_quarter_in_the_spare_equation(swept):
    chipped = fit(swept([1.20, 1.20, 1.20, 1.24]), R, drift=False)
    assert chipped.spare_mm == pytest.approx(-0.01, abs=1e-12)
    assert chipped.residuals_mm == pytest.approx((-0.01, 0.01, -0.01, 0.01), abs=1e-12)


def test_the_spare_equation_keeps_its_sign_in_any_order():
    read = {270.0: 1.3, 0.0: 1.1, 90.0: 1.25, 180.0: 1.0}
    for order in ((0.0, 90.0, 180.0, 270.0), (180.0, 270.0, 0.0, 90.0), (90.0, 0.0, 270.0, 180.0)):
        points = [Spot(azimuth, read[azimuth], 0.0) for azimuth in order]
        expected = (1.3 + 1.25 - 1.0 - 1.1) / 4.0
        assert fit(points, R, drift=False).spare_mm == pytest.approx(expected, abs=1e-12)


def test_azimuths_may_be_counted_beyond_a_turn():
    read = [1.24, 1.25, 1.16, 1.15]
    one = [Spot(az, v, 0.0) for az, v in zip((270.0, 0.0, 90.0, 180.0), read, strict=True)]
    other = [Spot(az, v, 0.0) for az, v in zip((-90.0, 360.0, 450.0, 540.0), read, strict=True)]
    first, second = fit(one, R, drift=False), fit(other, R, drift=False)
    assert (first.a, first.b) == pytest.approx((second.a, second.b), abs=1e-15)
    assert second.spare_mm == pytest.approx(first.spare_mm, abs=1e-12)


def test_diagonals_have_a_spare_equation_too():
    azimuths = (45.0, 135.0, 225.0, 315.0)
    points = [Spot(az, v, 0.0) for az, v in zip(azimuths, (0.0, 0.04, 0.0, 0.0), strict=True)]
    assert fit(points, R, drift=False).spare_mm == pytest.approx(0.01, abs=1e-12)


@pytest.mark.parametrize("azimuths", [(0, 120, 240), (0, 90, 180), tuple(range(0, 360, 45))])
def test_other_sets_of_positions_have_none(azimuths: tuple[int, ...]):
    points = [Spot(float(azimuth), 1.0, 0.0) for azimuth in azimuths]
    circle = fit(points, R, drift=False)
    assert circle.spare_mm is None
    assert circle.c_mm == pytest.approx(1.0)


def test_a_steady_drift_is_found_and_taken_out(swept):
    true, per_reading = np.array([1.24, 1.25, 1.16, 1.15, 1.24]), 0.003
    points = swept(list(true + per_reading * np.arange(5)))
    circle = fit(points, R, drift=True)
    assert circle.drift_mm == pytest.approx(per_reading, abs=1e-12)
    assert circle.d_mm.side == pytest.approx(0.10, abs=1e-12)
    assert circle.d_mm.nod == pytest.approx(0.08, abs=1e-12)
    assert circle.c_mm == pytest.approx(1.20, abs=1e-12)
    assert circle.spare_mm == pytest.approx(0.0, abs=1e-12)


def test_left_in_the_drift_biases_each_difference_by_half_the_return_error(swept):
    c = 0.012
    drifting = [1.0 + c * k / 4.0 for k in range(5)]
    assert return_error(drifting[0], drifting[-1]) == pytest.approx(c)
    circle = fit(swept(drifting[:4]), R, drift=False)
    assert abs(circle.d_mm.side) == pytest.approx(c / 2.0, abs=1e-12)
    assert abs(circle.d_mm.nod) == pytest.approx(c / 2.0, abs=1e-12)


def test_with_a_drift_the_spare_equation_uses_the_mean_of_first_and_return(swept):
    read = [1.31, 1.17, 1.22, 1.09, 1.35]
    circle = fit(swept(read), R, drift=True)
    expected = ((read[0] + read[4]) / 2.0 + read[2] - read[1] - read[3]) / 4.0
    assert circle.spare_mm == pytest.approx(expected, abs=1e-12)


def test_the_drift_may_run_along_nanoseconds_of_a_long_running_clock(swept):
    start, step = 9.0e17, 2.5e10
    times = [start + step * k for k in (0.0, 1.0, 2.6, 3.1, 4.4)]
    read = [1.24, 1.25, 1.16, 1.15, 1.24]
    drift_per_ns = 1e-13
    points = [
        Spot(point.azimuth_deg, value + drift_per_ns * (time - start), time)
        for point, value, time in zip(swept(read), read, times, strict=True)
    ]
    circle = fit(points, R, drift=True)
    assert circle.drift_mm == pytest.approx(drift_per_ns, rel=1e-9)
    assert circle.d_mm.side == pytest.approx(0.10, abs=1e-9)
    assert circle.d_mm.nod == pytest.approx(0.08, abs=1e-9)
    assert circle.c_mm == pytest.approx(1.20, abs=1e-9)


def _random_points(rng: np.random.Generator, n: int, repeat: bool) -> list[Spot]:
    azimuths = list(rng.permutation(np.arange(n) * 360.0 / n + rng.uniform(-9.0, 9.0, n)))
    azimuths += azimuths[:1] if repeat else []
    return [Spot(float(az), float(rng.normal(1, 0.1)), float(k)) for k, az in enumerate(azimuths)]


def _design(points: list[Spot], drift: bool) -> np.ndarray:
    phi = np.array([math.radians(point.azimuth_deg) for point in points])
    columns = [np.ones_like(phi), R * np.cos(phi), R * np.sin(phi)]
    return np.column_stack([*columns, [p.order for p in points]] if drift else columns)


@pytest.mark.parametrize("n", range(3, 13))
@pytest.mark.parametrize("drift", [False, True])
def test_the_fit_is_that_of_numpy(n: int, drift: bool):
    rng = np.random.default_rng(n)
    points = _random_points(rng, n, repeat=drift)
    design, read = _design(points, drift), np.array([p.pushed_mm for p in points])
    expected = np.linalg.lstsq(design, read, rcond=None)[0]
    circle = fit(points, R, drift)
    assert (circle.c_mm, circle.a, circle.b) == pytest.approx(expected[:3], rel=1e-9, abs=1e-12)
    assert circle.drift_mm == pytest.approx(expected[3] if drift else 0.0, abs=1e-12)
    assert circle.residuals_mm == pytest.approx(read - design @ expected, abs=1e-12)


@pytest.mark.parametrize("drift", [False, True])
def test_the_covariance_is_that_of_scipy(drift: bool):
    points = _random_points(np.random.default_rng(7), 8, repeat=drift)
    design, read = _design(points, drift), np.array([p.pushed_mm for p in points])
    sd_mm = 0.0023
    _, expected = curve_fit(
        lambda _, *unknowns: design @ np.array(unknowns),
        np.arange(len(read)),
        read,
        p0=[0.0] * design.shape[1],
        sigma=np.full(len(read), sd_mm),
        absolute_sigma=True,
        jac=lambda *_: design,
    )
    found = np.array(covariance(points, R, drift, sd_mm))
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-22)


def test_four_positions_know_each_difference_to_root_two_of_a_reading(swept):
    found = covariance(swept([0.0] * 4), R, False, 0.002)
    assert 2.0 * R * math.sqrt(found[1][1]) == pytest.approx(math.sqrt(2.0) * 0.002)
    assert 2.0 * R * math.sqrt(found[2][2]) == pytest.approx(math.sqrt(2.0) * 0.002)


def test_too_few_different_positions_are_refused(swept):
    with pytest.raises(ValueError, match="found 2 different positions; allowed: 3 or more"):
        fit([Spot(az, 0.0, 0.0) for az in (0.0, 180.0, 0.0, 360.0)], R, drift=False)
    with pytest.raises(ValueError, match="found 0 different positions"):
        fit([], R, drift=False)


def test_a_drift_needs_a_position_read_twice(swept):
    with pytest.raises(ValueError, match="only from a position that was read twice"):
        fit(swept([0.0] * 4), R, drift=True)


def test_a_drift_without_any_order_is_refused():
    points = [Spot(az, 0.0, 5.0) for az in (270.0, 0.0, 90.0, 180.0, 270.0)]
    with pytest.raises(ValueError, match="cannot be told apart"):
        fit(points, R, drift=True)


def test_positions_on_a_heap_are_refused():
    points = [Spot(az, 0.0, 0.0) for az in (0.0, 1e-6, 2e-6)]
    with pytest.raises(ValueError, match="cannot be told apart"):
        fit(points, R, drift=False)


@pytest.mark.parametrize("radius_mm", [0.0, -1.0, math.nan, math.inf])
def test_a_radius_that_is_none_is_refused(swept, radius_mm: float):
    with pytest.raises(
        ValueError, match=r"sweep radius: found .* mm; allowed: a length above 0 mm"
    ):
        fit(swept([0.0] * 4), radius_mm, drift=False)


def test_what_the_readings_do_not_change_is_prepared_once():
    assert solver((270.0, 0.0, 90.0, 180.0)) is solver((270.0, 0.0, 90.0, 180.0))
