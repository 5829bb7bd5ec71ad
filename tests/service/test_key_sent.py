"""The decider's work with a gauge that sends on its key: a frame a press, nothing in between."""

import pytest

from tests.service.rig import Rig, prepared
from tests.words import en


@pytest.fixture
def rig(tmp_path, config, clock, sample):
    made = Rig(tmp_path / "data", config, clock, sample, presses={"practice": 1})
    yield made
    made.decider.close("over")


def press(rig, value, rest_s=1.0):
    """One frame, and the decider turning for a while after it."""
    rig.stream([value])
    wait(rig, rest_s)


def wait(rig, seconds):
    end = rig.clock.ns + round(seconds * 1e9)
    while rig.clock.ns < end:
        rig.clock.ns += 20_000_000
        rig.decider.tick()


def at_the_sweep(rig):
    prepared(rig)
    rig.post("take", {}, "c3")
    press(rig, -0.35)
    press(rig, 1.0)
    pushed = rig.post("pushed", {}, "c4")
    press(rig, -0.35)
    assert pushed.result(0).accepted


def test_one_press_is_a_reading(rig):
    at_the_sweep(rig)
    reply = rig.post("take", {"position": "front"}, "c5")
    wait(rig, 1.0)
    assert not reply.done()
    press(rig, 0.5)
    assert reply.result(0).accepted
    reading = list(rig.ledger.events())[-1].data["reading"]
    assert (reading["mean_mm"], reading["count"], reading["sd_mm"]) == (0.5, 1, 0.0)


def test_presses_that_jump_to_zero_are_no_zeroed_gauge(rig):
    """Its key pressed over and over at either place: on a gauge that streams, that is a zero."""
    at_the_sweep(rig)
    for position, value in (("front", 0.5), ("right", 0.0)):
        reply = rig.post("take", {"position": position}, position)
        for _ in range(6):
            press(rig, value, rest_s=0.2)
        wait(rig, 1.0)
        assert reply.result(0).accepted
    assert "Zeroed" not in {event.type for event in rig.ledger.events()}


def test_the_same_numbers_streamed_are_a_zeroed_gauge(tmp_path, config, clock, sample):
    """So that the test before tells something."""
    streams = Rig(tmp_path / "data", config, clock, sample)
    prepared(streams)
    for kind, payload, value in (
        ("take", {}, -0.35),
        ("", {}, 1.0),
        ("pushed", {}, -0.35),
        ("", {}, 0.5),
        ("take", {"position": "front"}, 0.5),
        ("take", {"position": "right"}, 0.0),
    ):
        if kind:
            streams.post(kind, payload, f"{kind}-{value}")
        for _ in range(12):
            press(streams, value, rest_s=0.2)
    assert "Zeroed" in {event.type for event in streams.ledger.events()}
    streams.decider.close("over")


def test_a_take_whose_key_is_not_pressed_says_so(rig):
    at_the_sweep(rig)
    reply = rig.post("take", {"position": "front"}, "c5")
    wait(rig, 10.5)
    assert "the gauge's key was not pressed" in en(reply.result(0).reason)
