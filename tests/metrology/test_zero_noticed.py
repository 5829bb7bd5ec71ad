"""Zeroing is told from every way a hand may turn an adjuster through, or to, zero."""

import math
import random
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.jump import Jump, zero_noticed
from daq.words import Sample

COUNT = 0.001

SHAPES: dict[str, Callable[[float], float]] = {
    "steady": lambda u: u,
    "smooth": lambda u: u * u * (3.0 - 2.0 * u),
    "gaining speed": lambda u: u * u,
    "losing speed": lambda u: 1.0 - (1.0 - u) ** 2,
    "half a cosine": lambda u: (1.0 - math.cos(math.pi * u)) / 2.0,
}


def sampled(value: Callable[[float], float], hz: float, phase: float, seconds: float, seed: int):
    """Sample a motion as a gauge would: rounded to counts, with a count of flicker."""
    dice = random.Random(seed)
    times = [(i + phase) / hz for i in range(int(seconds * hz))]
    counts = [round(value(t) / COUNT) + dice.choice((-1, 0, 0, 0, 1)) for t in times]
    return [
        Sample("g", "run-1", n, round(t * 1e9), f"{c * COUNT:.3f}", "mm", c * COUNT, (), b"")
        for n, (t, c) in enumerate(zip(times, counts, strict=True))
    ]


def turn(start: float, end: float, begin_s: float, lasts_s: float, shape: str):
    def value(t: float) -> float:
        u = min(1.0, max(0.0, (t - begin_s) / lasts_s))
        return start + (end - start) * SHAPES[shape](u)

    return value


@pytest.mark.parametrize("base", [1.200, -0.430, 0.012])
@pytest.mark.parametrize("landed", [0.000, 0.002, -0.002])
def test_a_zeroed_gauge_is_noticed(samples, base: float, landed: float):
    run = samples([base] * 10 + [landed] * 4)
    assert zero_noticed(run, COUNT) == Jump(before_mm=base, after_mm=landed, n=10)


def test_a_frame_caught_half_way_is_still_one_zeroing(samples):
    run = samples([1.200] * 10 + [0.700] + [0.000] * 4)
    assert zero_noticed(run, COUNT) == Jump(1.200, 0.000, 11)


def test_a_knock_just_before_does_not_hide_it(samples):
    run = samples([1.200] * 10 + [1.350] + [0.000] * 4)
    assert zero_noticed(run, COUNT) == Jump(1.200, 0.000, 11)


def test_it_must_stay_for_three_further_samples(samples):
    assert zero_noticed(samples([1.200] * 10 + [0.000] * 3), COUNT) is None
    passing = [1.200] * 10 + [0.000] * 3 + [-0.300] * 5
    assert zero_noticed(samples(passing), COUNT) is None


def test_fewer_than_ten_counts_are_no_jump(samples):
    assert zero_noticed(samples([0.009] * 10 + [0.000] * 5), COUNT) is None
    assert zero_noticed(samples([0.010] * 10 + [0.000] * 5), COUNT) is not None


def test_over_two_frames_twenty_counts_are_the_least(samples):
    assert zero_noticed(samples([0.019] * 10 + [0.010] + [0.000] * 5), COUNT) is None
    assert zero_noticed(samples([0.020] * 10 + [0.011] + [0.000] * 5), COUNT) is not None


@pytest.mark.parametrize("step", [0.020, -0.020])
def test_a_jump_is_six_times_the_steps_before_it(samples, step: float):
    def ending_at(last: float) -> list[float]:
        return [last - step * back for back in range(9, -1, -1)] + [0.0] * 5

    assert zero_noticed(samples(ending_at(0.119)), COUNT) is None
    assert zero_noticed(samples(ending_at(0.121)), COUNT) is not None


def test_a_restless_arm_may_stay_as_restless_at_zero(samples):
    restless = [1.200, 1.202] * 5
    assert zero_noticed(samples([*restless, 0.000, 0.004, 0.001, 0.002]), COUNT) is not None
    assert zero_noticed(samples([*restless, 0.000, 0.007, 0.001, 0.002]), COUNT) is None


def test_a_jump_to_anywhere_else_is_no_zeroing(samples):
    assert zero_noticed(samples([1.200] * 10 + [0.003] * 5), COUNT) is None
    assert zero_noticed(samples([1.200] * 10 + [0.500] * 5), COUNT) is None


def test_a_jump_away_from_zero_is_no_zeroing(samples):
    assert zero_noticed(samples([0.000] * 10 + [1.200] * 10), COUNT) is None


def test_a_number_that_stood_at_zero_all_along_was_not_zeroed(samples):
    assert zero_noticed(samples([0.000] * 30), COUNT) is None


def test_a_new_opening_of_the_port_is_no_jump(samples):
    both = samples([1.200] * 10) + samples([0.000] * 10, start_s=2.0, run="run-2")
    assert zero_noticed(both, COUNT) is None


def test_the_first_of_two_zeroings_is_the_one_that_spoiled_the_base(samples):
    run = samples([1.2] * 10 + [0.0] * 10 + [0.5] * 10 + [0.0] * 10)
    noticed = zero_noticed(run, COUNT)
    assert noticed is not None and noticed.n == 10


def test_too_little_before_it_says_nothing(samples):
    assert zero_noticed(samples([1.200] * 3 + [0.000] * 9), COUNT) is None
    assert zero_noticed([], COUNT) is None


def test_an_inch_gauge_of_half_a_thou_counts(samples):
    run = samples([25.4 * 0.0475] * 10 + [25.4 * 0.0005] * 5, unit="in", decimals=4)
    noticed = zero_noticed(run, 25.4 * 0.0005)
    assert noticed is not None and noticed.after_mm == pytest.approx(0.0127)


rates = st.floats(10.0, 50.0)
phases = st.floats(0.0, 0.999)
shapes = st.sampled_from(sorted(SHAPES))
signs = st.sampled_from((-1.0, 1.0))
seeds = st.integers(0, 999)


@settings(derandomize=True, max_examples=300)
@given(rates, phases, shapes, st.floats(0.4, 3.0), st.floats(0.0, 2.5), signs, seeds)
def test_turning_to_zero_is_no_zeroing(
    hz: float, phase: float, shape: str, lasts_s: float, start: float, sign: float, seed: int
):
    motion = turn(sign * start, 0.0, 1.0, lasts_s, shape)
    assert zero_noticed(sampled(motion, hz, phase, lasts_s + 2.5, seed), COUNT) is None


@settings(derandomize=True, max_examples=300)
@given(rates, phases, shapes, st.floats(0.01, 3.0), st.floats(0.005, 2.5), signs, seeds)
def test_turning_through_zero_at_any_speed_is_no_zeroing(
    hz: float, phase: float, shape: str, lasts_s: float, past: float, sign: float, seed: int
):
    motion = turn(sign * 1.2, -sign * past, 1.0, lasts_s, shape)
    assert zero_noticed(sampled(motion, hz, phase, lasts_s + 2.5, seed), COUNT) is None


@settings(derandomize=True, max_examples=300)
@given(
    hz=rates,
    phase=phases,
    base=st.floats(0.060, 5.0),
    sign=signs,
    drifting=st.floats(-0.02, 0.02),
    seed=seeds,
)
def test_zeroing_is_noticed_at_any_rate_with_flicker_and_creep(
    hz: float, phase: float, base: float, sign: float, drifting: float, seed: int
):
    def value(t: float) -> float:
        return sign * base + drifting * t if t < 1.5 else 0.0

    run = sampled(value, hz, phase, 3.0, seed)
    noticed = zero_noticed(run, COUNT)
    assert noticed is not None
    assert noticed.n == next(s.n for s in run if s.mono_ns >= 1_500_000_000)
    assert noticed.before_mm == pytest.approx(sign * base + drifting * 1.5, abs=0.01)
    assert abs(noticed.after_mm) <= 2 * COUNT + 1e-9


@settings(derandomize=True, max_examples=100)
@given(rates, phases, seeds)
def test_zeroing_after_a_turn_is_noticed(hz: float, phase: float, seed: int):
    turning = turn(1.200, 1.100, 0.5, 1.0, "smooth")
    run = sampled(lambda t: turning(t) if t < 2.0 else 0.0, hz, phase, 3.0, seed)
    noticed = zero_noticed(run, COUNT)
    assert noticed is not None
    assert noticed.before_mm == pytest.approx(1.100, abs=0.0021)
