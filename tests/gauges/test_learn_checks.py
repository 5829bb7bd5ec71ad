"""Frames that hold more than their number: no digit is shown that the hand does not move."""

import pytest

from daq.gauges.learn import judge
from daq.gauges.learn.evidence import Evidence
from daq.gauges.learn.follows import Pair, follows
from daq.gauges.learn.propose import propose
from daq.units import MM_PER
from tests.gauges.learn_trials import CHECKED, NOT_TO_BE_TOLD, PLAIN, Trial, hand, still

FRESH = (-399, -98, -1, 0, 7, 123, 599, 888, 1234, 1599)
HANDS = [{}, {"period_s": 3.7, "top_mm": 1.3, "zero_mm": 0.25}]


def heard(trial, seconds=12.0, zero_mm=0.4, **how):
    worked = hand(trial, seconds, zero_mm=zero_mm, **how)
    rest = still(trial, -zero_mm, 2.5, len(worked))
    pushed = still(trial, 1.0 - zero_mm, 2.5, len(worked) + len(rest))
    return Evidence(worked, rest, pushed, 1.0, True, 12.7, trial.every_s > 0.03)


def read(proposal, trial, counts):
    """The number in mm that the proposal reads of frames with these counts; None for none."""
    found = judge.decoded(proposal.table, tuple(trial.frame(counts, 700 + k) for k in range(3)))
    return found[-1].value * MM_PER[found[-1].unit] if found else None


@pytest.mark.parametrize("how", HANDS, ids=["one hand", "another"])
@pytest.mark.parametrize("name", [*CHECKED, *PLAIN])
def test_a_number_is_read_without_what_stands_beside_it(name, how):
    trial = {**CHECKED, **PLAIN}[name]
    best = propose(heard(trial, **how))[0]
    assert best.proved
    number, unit = best.resolution.split()
    assert float(number) * MM_PER[unit] == pytest.approx(trial.size_mm)
    for counts in FRESH:
        assert read(best, trial, counts) == pytest.approx(trial.true_mm(counts), abs=1e-9), counts


@pytest.mark.parametrize("name", NOT_TO_BE_TOLD)
def test_what_cannot_be_told_is_refused_or_true(name):
    trial = NOT_TO_BE_TOLD[name]
    best = next(iter(propose(heard(trial))), None)
    if best is None or not best.proved or not best.resolution:
        return
    for counts in FRESH:
        assert read(best, trial, counts) in (
            None,
            pytest.approx(trial.true_mm(counts), abs=1e-9),
        ), counts


@pytest.mark.parametrize("seconds", [1.0, 2.0, 3.0])
@pytest.mark.parametrize("name", CHECKED)
def test_too_little_heard_is_not_taken_for_proof(name, seconds):
    """A gauge is worked on until its last digit is proved: none may be so by mistake."""
    trial = CHECKED[name]
    best = next(iter(propose(heard(trial, seconds))), None)
    if best is not None and best.proved and best.resolution:
        for counts in FRESH:
            found = read(best, trial, counts)
            assert found is None or found == pytest.approx(trial.true_mm(counts), abs=1e-9)


def test_a_place_that_never_changes_makes_no_step():
    trial = Trial(lambda n, nth: f"{n / 100:+08.3f}\r\n".encode(), 0.01)
    assert propose(heard(trial))[0].resolution == "0.010 mm"


def test_a_digit_that_is_the_same_behind_plus_and_minus_makes_no_step():
    trial = Trial(lambda n, nth: f"{n / 1000:+07.3f}3\r\n".encode())
    best = next(iter(propose(heard(trial))), None)
    assert best is None or not best.resolution or read(best, trial, -398) == pytest.approx(-0.398)


def pairs(part, rests=range(0, 400, 7)):
    return [Pair(False, (rest // 100, rest // 10 % 10, rest % 10), part(rest)) for rest in rests]


def test_a_part_with_a_will_of_its_own_follows_from_nothing():
    assert follows(pairs(lambda rest: rest % 7) + pairs(lambda rest: rest % 9)) is False


def test_the_same_way_gone_again_is_no_proof():
    """By the same places in the same order the last digit is the same, whatever it is."""
    once = pairs(lambda rest: (rest * 7919 + 13) // 11 % 10)
    assert follows([*once, *once, *reversed(once)]) is None


def test_a_stop_come_back_to_is_no_proof():
    ends = [Pair(False, (0, 4), 7), Pair(False, (9, 1), 3)]
    between = pairs(lambda rest: (rest * 7919 + 13) // 11 % 10)
    found = [each for k, one in enumerate(between) for each in (one, ends[k % 2])]
    assert follows(found) is None


def test_too_few_are_no_proof():
    assert follows(pairs(lambda rest: rest % 10, range(5))) is None
    assert follows([]) is None
