"""A table along its travel: numpy's line, what remains of it, and how often it holds."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.kinds.travel import KIND, TravelOptions
from daq.checks.linear import solve
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.metrology.rule import Rule

PLACES = (0.0, 100.0, 200.0, 300.0, 400.0, 500.0)
OPTIONS = TravelOptions("x", PLACES, straightness=0.01, slope=0.02 / 300.0, edge=0.0, laid=0.0)
GAUGING = Gauging(resolution_mm=0.001, sd_mm=0.0007, sd_dof=8.0)


def taken(options, values):
    sequence = KIND.table(options, "mm").sequence
    stations = zip(sequence, [*values, values[0]], strict=True)
    return [Taken(s.key, float(value), float(at)) for at, (s, value) in enumerate(stations)]


def check(options, values, gauging=GAUGING):
    found = reduce(KIND, options, "mm", taken(options, values), gauging, Rule())
    return {result.quantity.name.code: result for result in found.results}, found


@pytest.mark.parametrize("places", [PLACES, (0.0, 50.0, 300.0), (10.0, 400.0, 20.0, 90.0)])
def test_slope_and_straightness_as_numpy_has_them(places):
    values = np.random.default_rng(len(places)).normal(0.0, 0.01, len(places))
    options = replace(OPTIONS, at=places)
    found, _ = check(options, values)
    line = np.polyfit(places, values, 1)
    slope, form = found["travel-slope"].quantity, found["travel-form"].quantity
    assert slope.value_mm / slope.over_mm == pytest.approx(line[0], rel=1e-9)
    rests = values - np.polyval(line, places)
    assert form.value_mm == pytest.approx(np.ptp(rests), rel=1e-9)


def test_a_tilted_bow_in_closed_form():
    """z = 0.0001 x + a (1 − (2x/L − 1)²) at five even places: what remains ranges over a."""
    places, bow = (0.0, 100.0, 200.0, 300.0, 400.0), 0.012
    values = [1e-4 * x + bow * (1.0 - (x / 200.0 - 1.0) ** 2) for x in places]
    found, _ = check(replace(OPTIONS, at=places), values)
    assert found["travel-slope"].quantity.value_mm == pytest.approx(0.04)
    assert found["travel-form"].quantity.value_mm == pytest.approx(bow)
    assert found["travel-slope"].judged.word == "out"
    assert found["travel-slope"].quantity.limit_mm == pytest.approx(0.02 / 300.0 * 400.0)


def test_a_straight_table_is_inside_and_what_has_no_limit_is_only_shown():
    found, whole = check(OPTIONS, [0.0] * 6)
    assert {r.judged.word for r in found.values()} == {"in"}
    assert whole.findings == ()
    shown, _ = check(replace(OPTIONS, straightness=None, slope=None), [0.0] * 6)
    assert {r.judged for r in shown.values()} == {None}


def test_what_is_read_along_counts_where_it_is_not_straight_or_lies_askew():
    rough = replace(OPTIONS, edge=0.003, laid=0.004)
    plain, found = (check(o, [0.0] * 6)[0] for o in (OPTIONS, rough))
    terms = {code: {t.code: t for t in r.budget.terms} for code, r in found.items()}
    assert terms["travel-slope"]["term-laid"].u_mm == pytest.approx(0.004 / math.sqrt(3.0))
    assert terms["travel-form"]["term-laid"].cancels
    assert terms["travel-form"]["term-edge"].u_mm > 0.003 / math.sqrt(3.0)
    assert all(found[code].budget.u_mm > plain[code].budget.u_mm for code in found)


def test_a_form_is_no_finding_and_a_drift_is():
    bent = [0.0, 0.02, -0.02, 0.02, -0.02, 0.0]
    assert check(OPTIONS, bent)[1].findings == ()
    drifting = taken(OPTIONS, [0.0] * 6)
    drifting[-1] = replace(drifting[-1], pushed_mm=0.004)
    found = reduce(KIND, OPTIONS, "mm", drifting, GAUGING, Rule())
    assert [finding.code for finding in found.findings] == ["return-error"]
    # The drift is taken out: what is left of it is half the return error, if it was not steady.
    hump = {t.code: t.u_mm for t in found.results[0].budget.terms}["term-return"]
    assert hump > 0.004 / 2.0 / math.sqrt(3.0) / 2.0


@given(st.floats(-1e-3, 1e-3), st.floats(-5.0, 5.0), st.integers(0, 2**32 - 1))
@settings(derandomize=True, max_examples=60, deadline=None)
def test_height_and_slope_leave_the_straightness_alone(slope, level, seed):
    values = np.random.default_rng(seed).normal(0.0, 0.01, 6)
    one, _ = check(OPTIONS, values)
    other, _ = check(OPTIONS, values + level + slope * np.array(PLACES))
    form = one["travel-form"].quantity.value_mm
    assert other["travel-form"].quantity.value_mm == pytest.approx(form, abs=1e-9)
    rise = other["travel-slope"].quantity.value_mm - one["travel-slope"].quantity.value_mm
    assert rise == pytest.approx(slope * 500.0, abs=1e-9)


FORMS = {
    "straight": (0.0,) * 6,
    "slightly bent": (0.0, 0.0004, 0.0008, 0.0008, 0.0004, 0.0),
    "clearly bent": (0.0, 0.01, 0.018, 0.02, 0.012, 0.0),
}


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_the_interval_holds_the_true_straightness_however_small_it_is(form):
    """At least 95 %, less three standard errors of 4000 trials (0.35 % each).

    A difference of two readings is doubted by √2 of one: too little for a straight table's range.
    """
    gauging = Gauging(resolution_mm=0.0, sd_mm=0.001, sd_dof=None)
    solved = solve(KIND.table(OPTIONS, "mm"), taken(OPTIONS, form))
    errors = np.random.default_rng(1).normal(0.0, 0.001, (4000, 7))
    read = np.ptp(solved.rests[:, None] + solved.rests_by @ errors.T, axis=0)
    off = np.abs(read - np.ptp(solved.rests))
    result = check(OPTIONS, form, gauging)[0]["travel-form"]
    assert np.mean(off <= result.budget.expanded_mm) >= 0.95 - 3 * 0.0035
    if not any(form):
        assert np.mean(off <= 1.96 * math.sqrt(2.0) * 0.001) < 0.85


@pytest.mark.parametrize("at", [(), (0.0, 1.0), (0.0, 1.0, 1.0)])
def test_places_that_no_line_is_told_from_are_refused(at):
    with pytest.raises(ValueError, match="at: found"):
        TravelOptions("x", at)
