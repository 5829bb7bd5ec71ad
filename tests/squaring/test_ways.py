"""What each way on costs, against many heads drawn one by one, and at its plain ends."""

import math
from dataclasses import replace
from random import Random

import pytest

from daq.squaring.pace import USUAL, StepTimes
from daq.squaring.plan import AxisStands, Steps, inside, ways

COST = Steps(pair=22.0, move=43.0, onward=59.0, again=187.0)
AXIS = AxisStands(
    off=0.002,
    doubt=0.004,
    parked=0.003,
    later=0.003,
    reads=0.001,
    leaves=0.0015,
    far=0.0015,
    half=0.010,
)


def left_by_drawing(axis: AxisStands, draws: int) -> float:
    """How often an axis left as it stands is read in, drawn one by one."""
    rng = Random(axis.off)
    sd = math.hypot(axis.doubt, axis.later)
    return sum(abs(rng.gauss(axis.off, sd)) <= axis.half for _ in range(draws)) / draws


@pytest.mark.parametrize("off", [0.0, 0.004, -0.008, 0.012])
def test_how_likely_it_is_in_is_how_often_it_comes_so(off):
    axis = replace(AXIS, off=off)
    assert ways(axis, COST).likely == pytest.approx(left_by_drawing(axis, 20_000), abs=0.015)


def test_reading_first_costs_what_it_costs_on_average_over_what_may_be_read():
    """The same by drawing where the head stands, what the pair reads, and what is then better."""
    found, rng, draws = ways(AXIS, COST), Random(1), 40_000
    known = AXIS.doubt * AXIS.reads / math.hypot(AXIS.doubt, AXIS.reads)
    spread, sd = math.sqrt(AXIS.doubt**2 - known**2), math.hypot(known, AXIS.later)
    small = ways(replace(AXIS, off=0.0, doubt=AXIS.leaves, parked=0.0, far=AXIS.leaves), COST)
    ended = small.turned - COST.move
    again = COST.again + max(ended, found.turned - COST.move)
    total = 0.0
    for _ in range(draws):
        reads = rng.gauss(AXIS.off, spread)
        total += min((1.0 - inside(reads, sd, AXIS.half)) * again, COST.onward + ended)
    assert found.pair == pytest.approx(COST.pair + total / draws, rel=0.02)


def test_what_is_surely_in_is_left_and_what_is_far_out_is_turned():
    sure = ways(replace(AXIS, off=0.0, doubt=0.0005, later=0.001), COST)
    assert sure.left < min(sure.pair, sure.turned)
    out = ways(replace(AXIS, off=0.3), COST)
    assert out.turned < min(out.left, out.pair)


def test_what_is_in_doubt_is_read():
    unsure = ways(replace(AXIS, off=0.004, doubt=0.02, parked=0.018, far=0.004), COST)
    assert unsure.pair < min(unsure.left, unsure.turned)


def test_a_pace_is_the_usual_one_until_steps_were_seen_and_then_as_they_took():
    pace = StepTimes()
    assert pace.of("crack") == USUAL["crack"]
    for _ in range(400):
        pace = pace.after("crack", 20.0)
    assert pace.of("crack") == pytest.approx(20.0, abs=0.3)
    assert pace.swing(270.0) == 3 * USUAL["quarter"]


@pytest.mark.parametrize("seconds", [0.5, 3600.0])
def test_what_cannot_have_been_that_step_alone_is_left_out(seconds):
    assert StepTimes().after("turn", seconds) == StepTimes()
