"""What a bridge makes of the edges of a gauge: every whole frame, and never a wrong value."""

import pytest

from tests.hardware.bridge.said import KINDS, ready, sent, values
from tests.hardware.bridge.wires import lines

MANY = [330, pytest.param(12_000, marks=pytest.mark.long)]
"""Frames, a third of which are spoilt."""


@pytest.mark.parametrize(("rising", "ends"), [(a, b) for a in (False, True) for b in (False, True)])
@pytest.mark.parametrize("period_us", [120, 500, 1600])
@pytest.mark.parametrize("kind", KINDS)
def test_every_frame_of_a_jittery_gauge_comes_through(program, kind, period_us, rising, ends):
    moves = 0.1 if ends else 0.02
    wires = ready(seed=period_us, rising=rising, ends=ends, period_us=period_us, moves=moves)
    said, must, _ = sent(program, wires, 40, kind)
    assert said == must
    assert len(said) == 39


@pytest.mark.parametrize("rising", [False, True])
@pytest.mark.parametrize("kind", KINDS)
def test_glitches_on_both_wires_change_nothing(program, kind, rising):
    wires = ready(seed=11, rising=rising)

    def spoil(changes, nth):
        return wires.glitched(changes), True

    said, must, _ = sent(program, wires, 60, kind, spoil)
    assert said == must
    assert len(said) == 59


def without(changes, chance, many):
    """The same with some edges of the clock never heard."""
    gone = set(chance.sample([n for n, c in enumerate(changes) if c[1] == "clock"][:-1], many))
    return [change for nth, change in enumerate(changes) if nth not in gone]


def with_pulses(changes, wires, many):
    """The same with pulses of the clock too many, too long for glitches."""
    found, half, read = list(changes), wires.period_us // 2, int(wires.rising)
    edges = [at for at, wire, level in changes if (wire, level) == ("clock", read)]
    for edge in wires.chance.sample(edges, many):
        long = wires.chance.randrange(30, half - 60)
        left = edge - half + wires.chance.randrange(30, half - long - 20)
        found += [(left, "clock", read), (left + long, "clock", 1 - read)]
    return found


@pytest.mark.parametrize("many", MANY)
@pytest.mark.parametrize("kind", KINDS)
def test_lost_edges_cost_their_frame_and_the_next_and_no_value_is_wrong(program, kind, many):
    wires = ready(seed=12)

    def spoil(changes, nth):
        if nth % 3:
            return changes, True
        return without(changes, wires.chance, wires.chance.choice((1, 1, 2, 5))), False

    said, must, _ = sent(program, wires, many, kind, spoil)
    assert said == must
    assert len(said) == many // 3


@pytest.mark.parametrize("many", MANY)
@pytest.mark.parametrize("kind", KINDS)
def test_as_many_edges_too_many_as_lost_make_no_value(program, kind, many):
    wires = ready(seed=13)

    def spoil(changes, nth):
        if nth % 3:
            return changes, True
        faults = wires.chance.choice((1, 2))
        return with_pulses(without(changes, wires.chance, faults), wires, faults), False

    said, must, meant = sent(program, wires, many, kind, spoil)
    left = iter(meant)
    assert [value for value in said if value not in left] == []
    assert set(said) >= set(must)
    assert len(must) == many // 3


@pytest.mark.parametrize("many", MANY)
@pytest.mark.parametrize("kind", KINDS)
def test_a_gauge_switched_on_in_mid_frame_says_nothing_until_two_frames_came(program, kind, many):
    wires = ready(seed=14)

    def spoil(changes, nth):
        if nth % 3:
            return changes, True
        return changes[wires.chance.randrange(2, len(changes) - 1) :], False

    said, must, _ = sent(program, wires, many, kind, spoil)
    assert said == must
    assert len(said) == many // 3


def test_noise_alone_and_any_characters_make_no_value(program):
    """Levels of 1 µs to 2 ms on both wires and whatever bytes, for 20 s of the bridge's time."""
    wires = ready(seed=15)
    while wires.now_us < 20_000_000:
        at, noise = wires.now_us, []
        for _ in range(wires.chance.randrange(1, 150)):
            at += round(10 ** wires.chance.uniform(0, 3.3))
            wire = wires.chance.choice(("clock", "clock", "data", "typed"))
            most = 256 if wire == "typed" else 2
            noise.append((at, wire, wires.chance.randrange(most)))
        wires.now_us = at
        wires.take(noise)
    said = lines(program, wires)
    assert values(said) == []
    assert sum(line.startswith("# no frame") for line in said) >= 10
