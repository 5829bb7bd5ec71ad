"""A gauge that sticks while the adjuster is turned: said, asked about, and a way on."""

import pytest

from tests.service.rig import prepared
from tests.service.test_slow_gauge import SlowRig
from tests.words import en, told

RATES = (4, 10, 25, 50)
SWEEP = (("front", 1.2), ("right", 1.16), ("back", 1.12), ("left", 1.16), ("front", 1.2))


class Flickering(SlowRig):
    stuck = False

    def stream(self, values):
        """The last digit flickers, every third sample; stuck, no digit does anything."""
        for value in values:
            flicker = 0.0 if self.stuck or self.n % 3 else 0.001
            super().stream([round(value + flicker, 3)])


@pytest.fixture(params=RATES)
def rig(request, tmp_path, config, clock, sample):
    made = Flickering(tmp_path / "data", config, clock, sample)
    made.hz = request.param
    prepared(made)
    ok(made, "take", {}, 0.1)
    made.stand(1.2)
    ok(made, "pushed", {}, 0.1)
    made.stand(1.2)
    for position, value in SWEEP:
        assert made.read(position, value).accepted
    ok(made, "take", {"position": "front"}, 1.2)
    ok(made, "loosened", {}, 1.2)
    yield made
    made.decider.close("over")


def press(rig, kind, payload, value):
    reply = rig.post(kind, payload, f"{kind}-{rig.n}")
    rig.stand(value, 2.0)
    return reply.result(0)


def ok(rig, kind, payload, value):
    ack = press(rig, kind, payload, value)
    assert ack.accepted, ack.reason


def wall(rig):
    return told(rig.hub.snapshot("practice-mill").pages["wall"])


def test_stuck_in_mid_move(rig):
    rig.stand(1.18, 2.0)
    rig.stuck = True
    rig.stand(1.16, 6.0)
    assert wall(rig)["headline"] == "Does the gauge move?"
    assert "push the contact" in en(press(rig, "stopped", {}, 1.16).reason)
    assert "push the contact" in en(press(rig, "stopped", {}, 1.16).reason)
    rig.stuck = False
    rig.stream([1.5, 1.7, 1.4])
    rig.stand(1.09, 2.0)
    assert wall(rig)["headline"] == ""
    ok(rig, "stopped", {}, 1.09)
    assert rig.job.step == "check"


def test_a_sound_gauge_may_be_waited_with_for_long(rig):
    rig.stand(1.09, 20.0)
    ok(rig, "stopped", {}, 1.09)
    assert "GaugeNoted" not in rig.types()
