"""Which forms of a surface read as a lean: against the discrete Fourier transform.

A surface whose height around the circle is cos(kφ − ψ) is sampled at N even positions.
The transform (numpy.fft) of those samples says what their first harmonic is; the lean
must be just that. By theory k is seen as a lean when k = 1 or −1 modulo N.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.sweep.reduce import Fit, Spot, fit

PHASE = 0.7


def sampled(values: list[float]) -> Fit:
    n = len(values)
    return fit([Spot(360.0 * i / n, v, 0.0) for i, v in enumerate(values)], 1.0, drift=False)


def form(n: int, k: int) -> list[float]:
    return [math.cos(2.0 * math.pi * k * i / n - PHASE) for i in range(n)]


@pytest.mark.parametrize("n", [3, 4, 8])
@pytest.mark.parametrize("k", range(2, 17))
def test_a_harmonic_reads_as_lean_where_the_transform_says_so(n: int, k: int):
    values = form(n, k)
    circle = sampled(values)
    first = np.fft.fft(values)[1] * 2.0 / n
    assert circle.a == pytest.approx(first.real, abs=1e-12)
    assert circle.b == pytest.approx(-first.imag, abs=1e-12)
    aliased = k % n in (1, n - 1)
    assert math.hypot(circle.a, circle.b) == pytest.approx(1.0 if aliased else 0.0, abs=1e-12)


def test_three_positions_take_a_second_harmonic_for_lean_and_cannot_tell():
    circle = sampled(form(3, 2))
    assert math.hypot(circle.a, circle.b) == pytest.approx(1.0)
    assert circle.residuals_mm == pytest.approx((0.0,) * 3, abs=1e-12)
    assert circle.spare_mm is None


def test_four_positions_see_a_second_harmonic_in_the_spare_equation_only():
    circle = sampled(form(4, 2))
    assert math.hypot(circle.a, circle.b) == pytest.approx(0.0, abs=1e-12)
    # cos(2φ − ψ) is cos ψ at right and left and −cos ψ at front and back.
    assert circle.spare_mm == pytest.approx(-math.cos(PHASE), abs=1e-12)


def test_four_positions_take_a_third_harmonic_for_lean():
    circle = sampled(form(4, 3))
    assert math.hypot(circle.a, circle.b) == pytest.approx(1.0)
    assert circle.spare_mm == pytest.approx(0.0, abs=1e-12)


def test_eight_positions_are_clean_to_the_sixth():
    leans = [
        math.hypot(circle.a, circle.b) for circle in (sampled(form(8, k)) for k in range(2, 8))
    ]
    assert leans == pytest.approx([0.0] * 5 + [1.0], abs=1e-12)


@pytest.mark.parametrize(("n", "most"), [(4, 2), (8, 6)])
def test_a_drift_taken_out_lets_no_form_into_the_lean(n: int, most: int):
    """The first position read again at the end: its spot counts no more than the others."""
    times = [0.0, 1.0, 1.7, 2.9, 4.4, 5.0, 6.1, 7.7, 9.0]
    for k in range(2, most + 1):
        values = form(n, k)
        walked = [v + 0.03 * t for v, t in zip([*values, values[0]], times, strict=False)]
        points = [Spot(360.0 * i / n, v, times[i]) for i, v in enumerate(walked)]
        circle = fit(points, 1.0, drift=True)
        assert math.hypot(circle.a, circle.b) == pytest.approx(0.0, abs=1e-12)
        assert circle.drift_mm == pytest.approx(0.03, abs=1e-12)


@settings(derandomize=True)
@given(st.lists(st.floats(-5.0, 5.0), min_size=3, max_size=16))
def test_at_even_positions_the_fit_is_the_first_line_of_the_spectrum(values: list[float]):
    circle, lines = sampled(values), np.fft.fft(values) / len(values)
    assert circle.c_mm == pytest.approx(lines[0].real, abs=1e-12)
    assert circle.a == pytest.approx(2.0 * lines[1].real, abs=1e-12)
    assert circle.b == pytest.approx(-2.0 * lines[1].imag, abs=1e-12)
