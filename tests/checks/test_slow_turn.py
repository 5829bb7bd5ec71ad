"""A slow turn: where the arm was when, what was not done as it is to be, and the circle."""

import importlib
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from daq.checks.sweep.slow_turn.fit import TooFewError, swept
from daq.checks.sweep.slow_turn.way import NotRoundError, legs_of, monotone
from daq.words import AXES, FOUR_POSITIONS, POSITIONS, Passed, Position

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))

rows = importlib.import_module("slow_turn_rows")
CELLS = {cell.name: cell for cell in rows.CELLS}
QUARTER_S = 2.5
HALF_S = 0.1
THERE_AND_BACK = "frblflbrf"
TURNS = 20


def passed(way: str, quarter_s: float = QUARTER_S) -> tuple[Passed, ...]:
    """The switches closing and opening on a way by the first letters of its places."""
    edges: list[Passed] = []
    for n, letter in enumerate(way):
        place: Position = next(p for p in FOUR_POSITIONS if p[0] == letter)
        for closed, at_s in ((True, -HALF_S), (False, HALF_S)):
            edges.append(Passed(place, closed, round((n * quarter_s + at_s) * 1e9)))
    return tuple(edges)


def test_between_two_switches_it_goes_as_a_monotone_cubic() -> None:
    # scipy's PCHIP: Fritsch and Butland's slopes within; its ends are others, so not held here.
    times = np.array([0.0, 1.0, 1.2, 3.0, 3.1, 6.0, 7.0])
    values = np.array([0.0, 80.0, 95.0, 170.0, 180.0, 265.0, 300.0])
    at = np.linspace(1.0, 6.0, 200)
    found, speed = monotone(times, values, at)
    theirs = PchipInterpolator(times, values)
    assert found == pytest.approx(theirs(at), abs=1e-9)
    assert speed[:-1] == pytest.approx(theirs.derivative()(at)[:-1], abs=1e-9)


@pytest.mark.parametrize(
    ("way", "quarter_s", "code"),
    [
        ("", QUARTER_S, "round-no-switch"),
        ("frbl", QUARTER_S, "round-half-way"),
        ("frblflb", QUARTER_S, "round-half-way"),
        ("frbrblflbrf", QUARTER_S, "round-went-back"),
        ("frblflblbrf", QUARTER_S, "round-went-back"),
        ("frlflbrf", QUARTER_S, "round-missed"),
        (THERE_AND_BACK, 1.0, "round-too-fast"),
    ],
)
def test_what_is_not_once_round_and_back_is_named(way: str, quarter_s: float, code: str) -> None:
    with pytest.raises(NotRoundError) as refused:
        legs_of(passed(way, quarter_s), "four", 0)
    assert refused.value.said.code == code


@pytest.mark.parametrize(
    ("marks", "code"),
    [("ff", "round-too-few"), ("fff", "round-too-fast")],
)
def test_one_mark_wants_three_passes(marks: str, code: str) -> None:
    with pytest.raises(NotRoundError) as refused:
        legs_of(passed(marks), "mark", 0)
    assert refused.value.said.code == code


def test_one_mark_missed_on_the_way_back_is_named() -> None:
    once = [*passed("fff", 11.0)[:4], *passed("f" * 6, 11.0)[-2:]]
    with pytest.raises(NotRoundError) as refused:
        legs_of(once, "mark", 0)
    assert refused.value.said.code == "round-unlike"


@pytest.mark.parametrize("way", [THERE_AND_BACK, "frblfflbrf", "flbrfrblf", "frbl" + "frblflbrf"])
def test_the_last_way_round_counts_either_way_begun(way: str) -> None:
    forth, back = legs_of(passed(way), "four", 0)
    assert forth.way == -back.way == (-1.0 if way.startswith("fl") else 1.0)
    assert forth.seconds == pytest.approx(4 * QUARTER_S - 2 * HALF_S)


def test_an_even_hand_gives_lean_drift_and_lag_back() -> None:
    radius, a, b, lag, drift = 100.0, 2e-4, -1e-4, 0.2, 2e-5
    legs = legs_of(passed(THERE_AND_BACK), "four", 0)
    t = np.arange(0.0, 8 * QUARTER_S, 0.05)
    turned = 90.0 / QUARTER_S * np.minimum(t - lag, 8 * QUARTER_S - (t - lag))
    phi = np.radians(POSITIONS["front"] + turned)
    mm = 1.0 + radius * (a * np.cos(phi) + b * np.sin(phi)) + drift * (t - t[0])
    found = swept(t.tolist(), mm.tolist(), legs, "four", radius)
    assert (found.a, found.b) == (pytest.approx(a, abs=2e-6), pytest.approx(b, abs=2e-6))
    assert found.lag_s == pytest.approx(lag, abs=0.01)
    assert found.drift_mm_s == pytest.approx(drift, abs=5e-6)
    assert found.level_mm(0.0, 0.0) == pytest.approx(1.0 + radius * a, abs=2e-4)


def test_a_gauge_that_sends_seldom_is_named() -> None:
    legs = legs_of(passed(THERE_AND_BACK), "four", 0)
    times = np.arange(0.0, 8 * QUARTER_S, 0.5)
    with pytest.raises(TooFewError):
        swept(times.tolist(), [0.0] * len(times), legs, "four", 100.0)


def test_a_saddle_of_the_surface_is_seen_and_stays_out_of_the_lean() -> None:
    rng = np.random.default_rng(3)
    made = rows.turn(rng, replace(CELLS["nearly square"], form_mm=0.0))
    t, at = rows.hand(np.random.default_rng(3), CELLS["nearly square"])
    late = np.interp(made.times_s - made.lag_s, t, at)
    saddle = 0.01 * np.cos(2.0 * np.radians(POSITIONS["front"] + late))
    flat, formed = (
        rows.of(CELLS["nearly square"], replace(made, mm=made.mm + more)) for more in (0.0, saddle)
    )
    assert formed.second.amplitude_mm == pytest.approx(0.01, abs=0.001)
    assert formed.second.direction_deg % 180.0 == pytest.approx(0.0, abs=4.0) or (
        formed.second.direction_deg == pytest.approx(180.0, abs=4.0)
    )
    assert abs(formed.a - flat.a) * 200.0 < 0.002


@pytest.mark.parametrize(
    "name",
    [
        "nearly square",
        pytest.param("one mark, nearly square", marks=pytest.mark.long),
        pytest.param("as found", marks=pytest.mark.long),
        pytest.param("far out", marks=pytest.mark.long),
        pytest.param("the gauge averages", marks=pytest.mark.long),
        pytest.param("an uneven hand", marks=pytest.mark.long),
    ],
)
def test_the_stated_interval_holds_the_true_lean(name: str) -> None:
    # 40 differences at 95 %: fewer than 34 inside would be a chance of 0.3 %.
    cell, inside = CELLS[name], 0
    for n in range(TURNS):
        made = rows.turn(np.random.default_rng([n, 11]), cell)
        found = rows.of(cell, made)
        for axis in AXES:
            d_mm = 200.0 * (found.a if axis == "side" else -found.b)
            inside += abs(d_mm - made.d_mm[axis]) <= rows.expanded(cell, found, axis)
    assert inside >= 34
