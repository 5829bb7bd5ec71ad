import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.linalg import lstsq

from daq.checks.sweep.harmonics import aliasing, first_taken_for_lean, second
from daq.checks.sweep.reduce import Spot, fit
from tests.words import en

R = 100.0
EIGHT = tuple(45.0 * k for k in range(8))
always = settings(derandomize=True)


def surface(azimuth: float, lean=(0.0, 0.0), high=0.0, along=0.0) -> float:
    """A leaning saddle: `high` above its mean along the azimuth `along`, radians."""
    phi = math.radians(azimuth)
    tilted = 1.2 + lean[0] * math.cos(phi) + lean[1] * math.sin(phi)
    return tilted + high * math.cos(2.0 * (phi - along))


def swept(azimuths=EIGHT, walk=0.0, **form) -> list[Spot]:
    return [
        Spot(azimuth, surface(azimuth, **form) + walk * k, float(k))
        for k, azimuth in enumerate(azimuths)
    ]


@always
@given(
    st.floats(0.0, 0.05),
    st.floats(0.0, 179.0),
    st.floats(-0.1, 0.1),
    st.floats(-0.1, 0.1),
    st.sampled_from([-0.01, 0.0, 0.003]),
)
def test_a_saddle_is_found_with_its_direction_whatever_the_lean_and_drift(
    high: float, along: float, right: float, away: float, walk: float
):
    form = {"lean": (right, away), "high": high, "along": math.radians(along)}
    azimuths = EIGHT if walk == 0.0 else (*EIGHT, EIGHT[0])
    found = second(swept(azimuths, walk, **form), R, drift=walk != 0.0)
    assert found.amplitude_mm == pytest.approx(high, abs=1e-12)
    assert found.between_mm == 2.0 * found.amplitude_mm
    if high > 1e-6:
        off = (found.direction_deg - along + 90.0) % 180.0 - 90.0
        assert off == pytest.approx(0.0, abs=1e-5)
    assert found.residual_mm == pytest.approx(0.0, abs=1e-12)


def test_where_it_reads_more_the_surface_is_high():
    read = [1.0 + (0.01 if azimuth in (90.0, 270.0) else 0.0) for azimuth in EIGHT]
    points = [Spot(azimuth, value, 0.0) for azimuth, value in zip(EIGHT, read, strict=True)]
    assert second(points, R, drift=False).direction_deg == pytest.approx(90.0)


@pytest.mark.parametrize("drift", [False, True])
@pytest.mark.parametrize("n", [6, 7, 8, 12])
def test_noisy_readings_give_what_scipy_fits_all_at_once(n: int, drift: bool):
    rng = np.random.default_rng(n)
    azimuths = (np.arange(n) * 360.0 / n + rng.uniform(-8.0, 8.0, n)).tolist()
    azimuths += azimuths[:1] if drift else []
    points = [Spot(az, float(rng.normal(1.0, 0.01)), float(k)) for k, az in enumerate(azimuths)]

    phi = np.radians(azimuths)
    columns = [np.ones_like(phi), np.cos(phi), np.sin(phi), np.cos(2 * phi), np.sin(2 * phi)]
    design = np.column_stack(columns + ([np.arange(len(phi))] if drift else []))
    read = np.array([point.pushed_mm for point in points])
    best = lstsq(design, read)[0]
    found = second(points, R, drift)
    assert found.amplitude_mm == pytest.approx(math.hypot(best[3], best[4]), abs=1e-12)
    off = read - design @ best
    spare = len(points) - design.shape[1]
    assert found.residual_mm == pytest.approx(math.sqrt(off @ off / spare), abs=1e-12)


def test_a_third_wave_is_left_in_the_residual():
    points = [Spot(az, 0.01 * math.cos(3.0 * math.radians(az)), 0.0) for az in EIGHT]
    found = second(points, R, drift=False)
    assert found.amplitude_mm == pytest.approx(0.0, abs=1e-12)
    assert found.residual_mm == pytest.approx(math.sqrt(8 * 0.5 * 0.01**2 / 3))


def test_five_positions_leave_nothing_to_check_it_with():
    points = swept(tuple(72.0 * k for k in range(5)), high=0.01)
    found = second(points, R, drift=False)
    assert found.amplitude_mm == pytest.approx(0.01)
    assert found.residual_mm is None


@pytest.mark.parametrize("n", [3, 4])
def test_too_few_positions_are_refused(n: int):
    with pytest.raises(ValueError, match="5 or more"):
        second(swept(tuple(360.0 / n * k for k in range(n))), R, drift=False)


SAID = {
    (0.0, 120.0, 240.0): "nothing can tell",
    (270.0, 0.0, 180.0): "nothing can tell",
    (270.0, 0.0, 90.0, 180.0, 270.0): "four positions a hollow or a ridge shows; a surface with "
    "three high places",
    EIGHT: "up to six high places",
    (0.0, 45.0, 90.0, 180.0, 270.0): "five positions spread like this",
    tuple(60.0 * k for k in range(6)): "up to four high places",
}


@pytest.mark.parametrize(("azimuths", "said"), SAID.items())
def test_what_positions_can_tell_is_said(azimuths: tuple[float, ...], said: str):
    assert said in en(aliasing(azimuths))


@pytest.mark.parametrize("azimuths", SAID)
def test_what_is_said_is_so(azimuths: tuple[float, ...]):
    def reads_as_lean(waves: int) -> bool:
        seen = []
        for phase in (0.0, 0.5, 1.0):
            forms = [math.cos(waves * math.radians(az) - phase) for az in azimuths]
            points = [Spot(az, form, 0.0) for az, form in zip(azimuths, forms, strict=True)]
            circle = fit(points, 1.0, drift=False)
            seen.append(math.hypot(circle.a, circle.b))
        return max(seen) > 1e-6

    # Without a drift the spot read twice only weighs more: leave it out.
    azimuths = tuple(dict.fromkeys(azimuths))
    first = first_taken_for_lean(azimuths)
    assert [reads_as_lean(waves) for waves in range(2, first + 1)] == [False] * (first - 2) + [True]
