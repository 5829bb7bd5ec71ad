"""The surface's form and a drift that comes and goes, against what the fit makes of them."""

import math
from dataclasses import replace

import numpy as np
import pytest

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.reduce import Spot, fit
from daq.words import AXES
from tests.checks.test_terms import BACK_AGAIN, DRIFTING, EVEN, FACTS, named, u

EIGHT = (270.0, 315.0, 0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0)
THREE = (270.0, 0.0, 180.0, 270.0)
FORMED = Doubts(flatness=0.002)


def formed(wave: int, phase: float, azimuths, orders, axis: str) -> float:
    """What the fit makes of a flat table with one wave of 0.002 from peak to valley."""
    spots = [
        Spot(az, 0.001 * math.cos(wave * math.radians(az) + phase), order)
        for az, order in zip(azimuths, orders, strict=True)
    ]
    return abs(fit(spots, 100.0, True).d_mm[axis])


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("azimuths", [THREE, BACK_AGAIN, EIGHT])
def test_a_form_counts_as_the_worst_wave_that_the_fit_takes_for_lean(azimuths, axis):
    orders = tuple(float(k) for k in range(len(azimuths)))
    worst = max(
        formed(wave, phase, azimuths, orders, axis)
        for wave in range(2, 7)
        for phase in np.linspace(0.0, 2.0 * math.pi, 37)
    )
    facts = replace(FACTS, azimuths_deg=azimuths, orders=orders, seat="table")
    found = named(facts, FORMED, axis)["flatness"]
    assert found.u_mm == pytest.approx(worst / math.sqrt(3.0), rel=0.005, abs=1e-12)
    assert found.cancels == (azimuths is EIGHT)


def test_a_ring_turned_takes_the_third_wave_out_with_its_wedge():
    facts = replace(DRIFTING, turned="ring")
    assert named(facts, FORMED)["flatness"].cancels
    assert u("flatness", replace(facts, azimuths_deg=THREE, orders=EVEN[:4]), FORMED, "nod") > 0.0


@pytest.mark.parametrize(("seat", "form"), [("ring", 0.001), ("table", 0.005), ("block", 0.005)])
def test_a_bare_table_is_less_flat_than_a_ring_unless_the_file_says(seat, form):
    facts = replace(FACTS, seat=seat)
    assert u("flatness", facts) == pytest.approx(form / math.sqrt(3.0))
    assert u("flatness", facts, FORMED) == pytest.approx(0.002 / math.sqrt(3.0))


@pytest.mark.parametrize(("axis", "pair"), [("side", (0.0, 180.0)), ("nod", (270.0, 90.0))])
def test_a_pair_check_sees_odd_waves_and_a_drift_between_its_readings(axis, pair):
    facts = replace(FACTS, azimuths_deg=pair, orders=(), return_error_mm=0.0)
    doubts = Doubts(flatness=0.002, drift=0.003)
    assert u("flatness", facts, doubts, axis) == pytest.approx(0.002 / math.sqrt(3.0))
    assert u("return", facts, doubts, axis) == pytest.approx(0.003 / math.sqrt(3.0))


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("azimuths", [THREE, BACK_AGAIN, EIGHT])
def test_a_drift_that_comes_and_goes_stays_within_its_bound(azimuths, axis):
    """Any run of readings between the first and the last off by the bound, the return reading 0."""
    count = len(azimuths)
    orders = tuple(float(k) for k in range(count))
    bound_mm = u("return", replace(FACTS, azimuths_deg=azimuths, orders=orders,
        return_error_mm=0.0), Doubts(drift=0.003), axis) * math.sqrt(3.0)  # fmt: skip
    for begin in range(1, count - 1):
        for end in range(begin + 1, count):
            off = [0.003 if begin <= k < end else 0.0 for k in range(count)]
            spots = [Spot(*each) for each in zip(azimuths, off, orders, strict=True)]
            assert abs(fit(spots, 100.0, True).d_mm[axis]) <= bound_mm + 1e-12
