"""A number let go at the stop-at that creeps on is said to, and nobody is told to turn again."""

import math

import pytest

from daq.audit.aim import Aim, Turning
from daq.service.hub import Hub, Served
from daq.words import Sample, Snapshot
from tests.words import en

STOP_MM = 0.9
HZ = 20
TURN = Turning(STOP_MM, "up", band_mm=0.004, count_mm=0.001)


def to_the_stop(s):
    """Turned up to the stop-at in 5 s."""
    return STOP_MM - 0.05 * max(0.0, 5.0 - s)


def let_go(s):
    """The same; then it goes back by 12 µm, with a time constant of 20 s."""
    return to_the_stop(s) - 0.012 * (1.0 - math.exp(-max(0.0, s - 5.0) / 20.0))


def shown(clock, number, seconds, turn=TURN, fresh_ms=1000):
    """What the screens say of the number at each whole second."""
    hub = Hub((Served("mill", "Mill", "arm", fresh_ms),), clock.mono_ns)
    snapshot = Snapshot("mill", 1, "", {}, (), {"ok": True, "say": ""})
    hub.publish(snapshot, Aim("arm", STOP_MM, "mm", 3, turn), "arm")
    said = []
    for n in range(seconds * HZ):
        clock.ns += 1_000_000_000 // HZ
        mm = round(number((n + 1) / HZ), 3)
        sample = Sample("arm", "r", n, clock.mono_ns(), f"{mm:.3f}", "mm", mm, (), b"")
        hub.on_sample(sample)
        if (n + 1) % HZ == 0:
            against = hub.live("mill").against
            said.append((against.state, en(against.say)))
    return said


def test_let_go_at_the_stop_it_is_told_to_creep_with_the_seconds_and_never_to_be_turned(clock):
    said = shown(clock, let_go, 90)
    assert said[2] == ("up", "up 0.100 to go")
    assert said[5] == ("there", "There"), "in a second no creep is seen"
    creeps = [say for state, say in said if state == "creeps"]
    first = next(i for i, (state, _) in enumerate(said) if state == "creeps")
    assert first <= 12
    assert {state for state, _ in said[first : first + 20]} == {"creeps"}, "beyond the band, too"
    waits = [int(say.removeprefix("It creeps: wait ").removesuffix(" s")) for say in creeps]
    assert all(wait % 5 == 0 and wait > 0 for wait in waits)
    # Less than a count of 12 is left after 20 s times their natural logarithm.
    ends_s = 5.0 + 20.0 * math.log(12.0)
    told = [(i + 1, waits[i - first]) for i in range(first + 8, 40)]
    assert all(abs(at_s + wait_s - ends_s) <= 12.0 for at_s, wait_s in told)
    # It has gone its way: what is left to turn is told again.
    assert said[-1] == ("up", "up 0.012 to go")


@pytest.mark.parametrize(
    ("number", "turn"),
    [
        pytest.param(to_the_stop, TURN, id="stands"),
        pytest.param(lambda s: let_go(s) - 0.03, TURN, id="never there"),
        pytest.param(let_go, Turning(STOP_MM, "up", past_mm=0.05, count_mm=0.001), id="not past"),
    ],
)
def test_what_stands_still_or_was_never_at_the_stop_is_not_told_to_creep(clock, number, turn):
    assert "creeps" not in {state for state, _ in shown(clock, number, 40, turn)}


def test_whoever_turns_on_is_told_the_way_at_once(clock):
    """The hand comes back while it creeps: the number goes by faster than any creep."""

    def on(s):
        return let_go(s) - 0.03 * max(0.0, s - 20.0)

    said = shown(clock, on, 26)
    assert said[18][0] == "creeps"
    assert [state for state, _ in said[21:]] == ["up"] * 5
