"""From readings to verdicts: each term by arithmetic, what blocks, and the larger of two doubts."""

import math
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest

from daq.checks.kinds import runout, travel
from daq.checks.linear import solve
from daq.checks.outcome import Gauging, reduce
from daq.checks.quantity import Influence, Measurand, spread
from daq.checks.station import Station, Table, Taken
from daq.metrology.rule import Rule
from daq.words import Said

GAUGING = Gauging(
    resolution_mm=0.001,
    sd_mm=0.0007,
    sd_dof=8.0,
    local_mm=0.003,
    scale=0.002,
    friction_mm=0.0005,
)
LINE = travel.TravelOptions("x", (0.0, 100.0, 200.0), slope=1e-4, straightness=0.01, edge=0.002)
BAR = runout.RunoutOptions(limit=0.01, tilt=1e-4, heights=(0.0, 100.0), bar=0.003, turned=0.05)


def check(kind, options, values, gauging=GAUGING, rule=None):
    sequence = kind.table(options, "mm").sequence
    taken = [
        Taken(station.key, value, float(at))
        for at, (station, value) in enumerate(zip(sequence, values, strict=True))
    ]
    return reduce(kind, options, "mm", taken, gauging, rule or Rule())


def terms(result):
    return {term.code.removeprefix("term-"): term.u_mm for term in result.budget.terms}


def test_the_terms_of_a_slope_by_arithmetic():
    """Three even places: it rises by the last less the first.

    The drift takes 2/3 of the return error from the last, so that it is
    −y₀/3 + y₂ − 2y₃/3 of the readings and −1, 0, 1 of the places.
    """
    (slope, _) = check(travel.KIND, LINE, [0.0, 0.010, 0.020, 0.0015]).results
    assert slope.quantity.value_mm == pytest.approx(0.020 - 2.0 / 3.0 * 0.0015)
    third = math.sqrt(3.0)
    assert terms(slope) == pytest.approx(
        {
            "repeatability": 0.0007 * math.sqrt(14.0 / 9.0),
            "resolution": 0.001 / math.sqrt(6.0),
            "friction": 0.0005 / third * math.sqrt(14.0 / 9.0),
            "local": 0.003 / third,
            "return": 0.0015 / 2.0 / third,
            "edge": 0.002 / third * math.sqrt(2.0),
            "scale": 0.019 * 0.002 / third,
            "laid": 0.002 / third,
            "zero": 0.0,
        }
    )
    assert slope.budget.u_mm == pytest.approx(math.hypot(*terms(slope).values()))
    assert {t.code: t.dof for t in slope.budget.terms if t.dof}["term-repeatability"] == 8.0


def test_a_drift_counts_together_where_all_but_the_first_count_one_way():
    """Both far places rise by about a half each: a hump lifts both, and that adds up to one."""
    together = replace(LINE, at=(0.0, 300.0, 300.001))
    (slope, _) = check(travel.KIND, together, [0.0, 0.0, 0.0, 0.0012]).results
    assert terms(slope)["return"] == pytest.approx(0.0012 / 2.0 / math.sqrt(3.0), rel=1e-4)


def test_what_only_a_bar_brings_in():
    """Half a turn of 0.004 off, at each height: the bar's error, and stopping 0.05 rad amiss."""
    turn = [0.004, 0.0, -0.004, 0.0, 0.004]
    found = {r.quantity.name.code: r for r in check(runout.KIND, BAR, turn * 2).results}
    off = 0.003 / math.sqrt(3.0)
    shares = {"runout-total": 2.0, "runout-eccentricity": 1.0, "runout-tilt": math.sqrt(2.0)}
    for code, share in shares.items():
        assert terms(found[code])["bar"] == pytest.approx(share * off)
        ratio = terms(found[code])["turned"] / terms(found[code])["repeatability"]
        assert ratio == pytest.approx(0.004 * 0.05 / math.sqrt(3.0) / 0.0007)
    clear = replace(BAR, bar=0.0, turned=0.0)
    sharp = Gauging(0.0, 0.0001, None)
    plain = {r.quantity.name.code: r for r in check(runout.KIND, clear, turn * 2, sharp).results}
    at = plain["runout-eccentricity"]
    # The end of an error as long as U, square to it, is seen under asin(U/e).
    assert at.toward_doubt_deg == pytest.approx(
        math.degrees(math.asin(at.budget.expanded_mm / 0.004))
    )


def test_what_a_gauge_scatters_by_itself_is_no_finding():
    """A chip that leaves 3 standard deviations at most: three times 0.007, past a fifth of 0.01."""
    options = runout.RunoutOptions(limit=0.01)
    chip = [0.0, 0.03, 0.0, 0.0, 0.0]
    noisy = replace(GAUGING, sd_mm=0.007)
    assert check(runout.KIND, options, chip, noisy).findings == ()
    assert [f.code for f in check(runout.KIND, options, chip).findings] == ["do-not-fit"]


def test_three_stops_leave_nothing_that_could_fail_to_fit():
    angles = tuple(2.0 * math.pi / 3.0 * k for k in range(3))
    options = runout.RunoutOptions(limit=0.01, angles=angles)
    assert check(runout.KIND, options, [0.0, 0.5, -0.2, 0.0]).findings == ()


@pytest.mark.parametrize("coverage", [0.9, 0.95, 0.99])
def test_the_larger_of_range_and_twice_the_length_is_held_at_nothing(coverage):
    """Four stops, nothing running out: within three standard errors of 40 000 trials."""
    nothing = Said("x")
    rows = [{"zero": 1.0, "x": math.cos(a), "y": math.sin(a)} for a in np.arange(4) * math.pi / 2]
    stations = tuple(Station(str(i), nothing, nothing, row) for i, row in enumerate(rows))
    solved = solve(
        Table(stations, "mm", None, (), returns=False),
        [Taken(str(i), 0.0, float(i)) for i in range(4)],
    )
    by = np.vstack([solved.of("x", "y")[1], solved.levels_by])
    quantity = Measurand(nothing, 0.0, "turn", by)
    u_mm = spread(quantity, Influence(nothing, nothing, (1.0,) * 4), solved, coverage)
    errors = np.random.default_rng(7).normal(0.0, 1.0, (40_000, 4))
    x, y = solved.of("x", "y")[1] @ errors.T
    total = np.maximum(np.ptp(errors, axis=1), 2.0 * np.hypot(x, y))
    held = np.mean(total <= u_mm * NormalDist().inv_cdf(0.5 + 0.5 * coverage))
    assert held >= coverage - 3.0 * math.sqrt(coverage * (1.0 - coverage) / 40_000)
