"""A number that still creeps is told from one that flickers, and how long it takes, from its tail.

Every creep here is an exponential written out, in whole counts as a gauge shows it.
"""

import math
from random import Random

import pytest

from daq.metrology.creeping import creeping
from daq.words import Sample

COUNT = 0.001


def sent(value_at, seconds, hz=10.0, count=COUNT, seed=1, noise=0.0, run="a"):
    """What a gauge sends in whole counts while the number goes as `value_at` says."""
    rng, found = Random(seed), []
    for n in range(round(seconds * hz)):
        shown = round((value_at(n / hz) + rng.gauss(0.0, noise)) / count) * count
        found.append(Sample("g", run, n, round(n / hz * 1e9), f"{shown}", "mm", shown, (), b""))
    return found


def relaxing(left_mm, lasts_s, turned_s=0.0):
    """Turned for so long at a hand's pace; then what is left dies away."""

    def at(t):
        if t < turned_s:
            return 0.02 * (turned_s - t) + left_mm
        return left_mm * math.exp(-(t - turned_s) / lasts_s)

    return at


@pytest.mark.parametrize("noise", [0.0, 0.0007])
@pytest.mark.parametrize(("mm", "lasts_s"), [(0.012, 10.0), (-0.02, 20.0), (0.03, 60.0)])
def test_a_creep_is_seen_with_what_is_left_of_it(mm, lasts_s, noise):
    found = creeping(sent(relaxing(mm, lasts_s, 5.0), 20.0, noise=noise), COUNT)
    assert found is not None
    left = -mm * math.exp(-15.0 / lasts_s)
    assert found.left_mm * left > 0.0
    assert abs(found.left_mm - left) < 3.0 * found.doubt_mm
    assert found.wait_s > 0.0 or abs(left) < 1.5 * COUNT


def test_the_seconds_are_those_until_less_than_a_count_is_left():
    found = creeping(sent(relaxing(0.08, 20.0), 30.0, count=1e-5), 1e-5)
    left = 0.08 * math.exp(-1.5)
    assert found.left_mm == pytest.approx(-left, rel=0.02)
    assert found.wait_s == pytest.approx(20.0 * math.log(left / 1e-5), rel=0.02)


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("noise", [0.0003, 0.0007, 0.002])
def test_nothing_cries_for_a_gauge_that_merely_flickers(seed, noise):
    assert creeping(sent(lambda t: 0.2503, 25.0, seed=seed, noise=noise), COUNT) is None


@pytest.mark.parametrize("at_s", [1.0, 6.0, 12.5, 20.0, 24.0])
def test_nor_for_one_that_changes_over_to_the_next_count_once(at_s):
    assert creeping(sent(lambda t: 0.0 if t < at_s else COUNT, 25.0), COUNT) is None


@pytest.mark.parametrize("seed", range(20))
def test_nor_for_one_that_goes_to_and_fro_between_two_counts(seed):
    rng = Random(seed)
    ways = [rng.choice((0.0, COUNT)) for _ in range(26)]
    assert creeping(sent(lambda t: ways[int(t)], 25.0), COUNT) is None


def test_while_a_hand_turns_nothing_is_said():
    assert creeping(sent(lambda t: 0.02 * t, 25.0), COUNT) is None
    assert creeping(sent(relaxing(0.03, 20.0, 17.0), 20.0), COUNT) is None, "let go 3 s ago"


def test_a_port_opened_anew_begins_anew():
    before = sent(relaxing(0.03, 20.0), 20.0)
    assert creeping(before, COUNT) is not None
    assert creeping([*before, *sent(lambda t: 0.0, 1.0, run="b")], COUNT) is None
    assert creeping([], COUNT) is None


def test_a_gauge_that_sends_now_and_then_is_not_judged():
    assert creeping(sent(relaxing(0.03, 20.0), 20.0, hz=0.3), COUNT) is None
