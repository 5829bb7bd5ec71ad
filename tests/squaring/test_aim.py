"""Where to stop turning one axis so that the other's turn brings both home."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.squaring.aim import Goal, aim, spoils
from daq.squaring.equations import FIRST, PARAMETERS
from daq.squaring.response import Standing
from daq.words import AXES

RADIUS = 100.0
slopes = st.floats(-0.01, 0.01)
couplings = st.floats(-0.3, 0.3)
goals_ = st.builds(Goal, slopes, st.just(1e-5), st.floats(-1e-4, 1e-4))


def standing(side=0.0, nod=0.0, couplings=(0.0, 0.0), doubts=(0.0, 0.0)):
    values = np.zeros(PARAMETERS + 3)
    covariance = np.zeros((PARAMETERS + 3, PARAMETERS + 3))
    values[PARAMETERS:] = [side, nod, 1.0]
    for axis, coupling, doubt in zip(AXES, couplings, doubts, strict=True):
        at = FIRST[axis] + 1
        values[at], covariance[at, at] = coupling, doubt**2
    return Standing(RADIUS, values, covariance)


def turned(at, axis, lean, couplings):
    """The plain picture: the other lean follows by this one's coupling."""
    own = AXES.index(axis)
    leans = [at.lean(each) for each in AXES]
    leans[1 - own] += couplings[own] * (lean - leans[own])
    leans[own] = lean
    return standing(*leans, couplings)


@given(slopes, slopes, st.tuples(couplings, couplings), goals_, goals_, st.sampled_from(AXES))
@settings(derandomize=True)
def test_one_turn_of_each_brings_both_home(side, nod, answers, one, two, first):
    """Whichever comes first, and tightened both stand as wanted."""
    goals = dict(zip(AXES, (one, two), strict=True))
    second = AXES[1 - AXES.index(first)]
    at = standing(side, nod, answers)
    at = turned(at, first, aim(at, goals, first, others=True), answers)
    at = turned(at, second, aim(at, goals, second, others=False), answers)
    for axis in AXES:
        tight = at.lean(axis) + goals[axis].shift
        assert tight == pytest.approx(goals[axis].wanted, abs=1e-15)


@given(slopes, slopes, st.tuples(couplings, couplings), goals_, goals_, st.sampled_from(AXES))
@settings(derandomize=True)
def test_the_last_axis_is_turned_straight_home(side, nod, answers, one, two, axis):
    goals = dict(zip(AXES, (one, two), strict=True))
    told = aim(standing(side, nod, answers), goals, axis, others=False)
    assert told == pytest.approx(goals[axis].wanted - goals[axis].shift, abs=1e-17)


def test_the_first_of_two_stops_where_the_second_will_fetch_it():
    """By hand: nod has 2e-3 to go and takes side along by a tenth of it."""
    at = standing(side=1e-3, nod=2e-3, couplings=(0.0, 0.1))
    goals = {axis: Goal(0.0, 1e-5) for axis in AXES}
    assert aim(at, goals, "side", others=True) == pytest.approx(2e-4)
    assert aim(at, goals, "nod", others=True) == pytest.approx(0.0, abs=1e-18)
    assert aim(at, goals, "side", others=False) == pytest.approx(0.0, abs=1e-18)


def test_heads_that_do_not_couple_are_turned_one_by_one():
    at = standing(side=1e-3, nod=2e-3)
    goals = {axis: Goal(3e-4, 1e-5) for axis in AXES}
    for axis in AXES:
        both = aim(at, goals, axis, others=True)
        assert both == pytest.approx(aim(at, goals, axis, others=False), abs=1e-18)
        assert both == pytest.approx(3e-4)


def test_what_tightening_adds_is_left_for_it():
    goal = Goal(wanted=1e-4, limit=1e-5, shift=2.5e-5)
    assert goal.before_tight == pytest.approx(7.5e-5)
    assert Goal(1e-4, 1e-5).before_tight == 1e-4


@pytest.mark.parametrize(("doubt", "spoilt"), [(0.0124, False), (0.0126, True)])
def test_an_unknown_answer_of_the_other_axis_spoils_past_a_quarter_of_the_limit(doubt, spoilt):
    """Nod has 2e-3 to go: times a doubt of 0.0125 it is 2.5e-5, a quarter of 1e-4."""
    at = standing(nod=2e-3, doubts=(0.0, doubt))
    goals = {"side": Goal(0.0, 1e-4), "nod": Goal(0.0, 1.0)}
    assert spoils(at, goals, "side") is spoilt


def test_only_the_other_axis_spoils_one():
    at = standing(side=2e-3, nod=2e-3, doubts=(0.5, 0.0))
    goals = {axis: Goal(0.0, 1e-4) for axis in AXES}
    assert not spoils(at, goals, "side")
    assert spoils(at, goals, "nod")


def test_an_axis_that_is_home_spoils_nothing():
    at = standing(side=5e-3, nod=2e-4, doubts=(0.5, 0.5))
    goals = {"side": Goal(0.0, 1e-4), "nod": Goal(1e-4, 1e-4, shift=-1e-4)}
    assert not spoils(at, goals, "side")


@given(slopes, st.floats(0.0, 0.3), slopes, st.sampled_from(AXES))
@settings(derandomize=True)
def test_a_mirrored_turn_spoils_as_much(away, doubt, wanted, axis):
    def told(way):
        goals = {each: Goal(way * wanted, 1e-4) for each in AXES}
        at = standing(way * away, way * away, doubts=(doubt, doubt))
        return spoils(at, goals, axis)

    assert told(1.0) == told(-1.0)
