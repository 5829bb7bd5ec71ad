"""A vise's jaw along the travel: a straight line in closed form, which end is nearer, how sure."""

import math
from dataclasses import replace

import numpy as np
import pytest

from daq.checks.kinds.vise import KIND, ViseOptions
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.metrology.rule import Rule
from tests.words import en

OPTIONS = ViseOptions(limit=0.02, length=150.0, at=(10.0, 75.0, 140.0), form=0.0)
GAUGING = Gauging(resolution_mm=0.001, sd_mm=0.0007, sd_dof=8.0)


def check(options, values, gauging=GAUGING):
    sequence = KIND.table(options, "mm").sequence
    stations = zip(sequence, [*values, values[0]], strict=True)
    taken = [Taken(s.key, float(value), float(at)) for at, (s, value) in enumerate(stations)]
    found = reduce(KIND, options, "mm", taken, gauging, Rule())
    (result,) = found.results
    return result, found


@pytest.mark.parametrize("places", [(10.0, 140.0), (140.0, 75.0, 10.0), (0.0, 20.0, 90.0, 150.0)])
@pytest.mark.parametrize(("slope", "end"), [(0.0002, "right"), (-0.0004, "left")])
def test_a_straight_jaw_is_judged_over_its_whole_length(places, slope, end):
    result, _ = check(replace(OPTIONS, at=places), [1.0 + slope * at for at in places])
    assert result.quantity.value_mm == pytest.approx(abs(slope) * 150.0)
    assert (result.quantity.limit_mm, result.quantity.over_mm) == (0.02, 150.0)
    assert en(result.quantity.name) == f"Jaw: {end} end nearer the gauge"
    assert result.judged.word == "out"


def test_along_the_other_travel_its_ends_are_front_and_back():
    result, _ = check(replace(OPTIONS, along="y"), [1.0, 1.03, 1.06])
    assert en(result.quantity.name) == "Jaw: back end nearer the gauge"
    assert KIND.table(replace(OPTIONS, along="y"), "mm").ends == {"10": "front", "140": "back"}


def test_the_slope_of_uneven_readings_is_numpy_s():
    values = np.random.default_rng(3).normal(1.0, 0.01, 3)
    result, _ = check(OPTIONS, values)
    line = np.polyfit(OPTIONS.at, values, 1)
    assert result.quantity.value_mm == pytest.approx(abs(line[0]) * 150.0, rel=1e-9)


def test_each_reading_s_scatter_counts_as_the_slope_follows_it():
    """Two places d apart, one read twice: u² = s²(1 + 1/2)·(L/d)² with the drift taken out.

    The drift halves what the first place's two visits count: its level is the first visit's.
    """
    gauging = Gauging(resolution_mm=0.0, sd_mm=0.001, sd_dof=None)
    result, _ = check(replace(OPTIONS, at=(0.0, 100.0)), [1.0, 1.0], gauging)
    assert result.budget.u_mm == pytest.approx(0.001 * math.sqrt(1.5) * 1.5)


def test_a_chip_on_the_jaw_does_not_fit():
    _, found = check(OPTIONS, [1.0, 1.05, 1.0])
    assert [finding.code for finding in found.findings] == ["do-not-fit"]


@pytest.mark.parametrize("at", [(10.0,), (10.0, 10.0), (-1.0, 100.0), (10.0, 150.1), ()])
def test_places_beside_the_jaw_or_too_few_are_refused(at):
    with pytest.raises(ValueError, match="at: found"):
        ViseOptions(limit=0.02, length=150.0, at=at)
