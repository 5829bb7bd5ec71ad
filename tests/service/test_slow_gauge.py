"""The decider's work with gauges of a few frames a second, the contact elsewhere at the next."""

import pytest

from tests.service.rig import Rig, prepared
from tests.words import told

FRAMES = (2, 4, 10, 50)


class SlowRig(Rig):
    """The decider turns every 20 ms, whatever the gauge does."""

    hz = 4

    def stream(self, values):
        for value in values:
            due = self.clock.ns + round(1e9 / self.hz)
            while self.clock.ns < due:
                self.clock.ns += 20_000_000
                self.decider.tick()
            self.n += 1
            self.ring.append(self.sample(self.n, self.clock.ns, value))

    def stand(self, value, seconds=5.0):
        self.stream([value] * max(12, round(seconds * self.hz)))

    def read(self, position, value):
        """The contact is turned there and a reading is taken, as a person does both."""
        self.stand(value, 1.2)
        reply = self.post("take", {"position": position}, f"{position}-{self.seq}")
        self.stand(value, 1.2)
        return reply.result(0)

    @property
    def job(self):
        return self.decider.shop.machine("practice-mill").job

    def types(self):
        return [event.type for event in self.ledger.events()]


@pytest.fixture(params=FRAMES)
def rig(request, tmp_path, config, clock, sample):
    made = SlowRig(tmp_path / "data", config, clock, sample)
    made.hz = request.param
    prepared(made)
    made.post("take", {}, "free")
    made.stand(-1.0)
    made.stand(0.7)
    pushed = made.post("pushed", {}, "push")
    made.stand(-1.0)
    assert pushed.result(0).accepted
    made.stand(0.7)
    yield made
    made.decider.close("over")


def test_a_spot_that_was_zeroed_is_come_back_to_in_peace(rig):
    """Zeroed at the right; front then reads -0.037 and the right, one frame later, 0.000."""
    assert rig.read("front", 0.7).accepted
    rig.stand(0.737)
    rig.stand(0.0)
    if rig.job.step == "question":
        assert rig.post("answer", {"key": "zeroed"}, "yes").result(0).accepted
    assert (rig.types().count("ReadingTaken"), rig.job.reads.taken) == (1, ())
    zeros = rig.types().count("Zeroed")
    for position, value in (("front", -0.037), ("right", 0.0), ("back", 0.02), ("left", -0.017)):
        ack = rig.read(position, value)
        assert ack.accepted, ack.reason
    assert rig.read("front", -0.037).accepted
    assert rig.types().count("Zeroed") == zeros
    assert "SweepDone" in rig.types()


def test_pressed_before_the_contact_got_there(rig):
    """The take is pressed, and the number of a slow gauge comes to zero after it."""
    rig.stand(0.0)  # zeroed at the front, before anything was read
    for position, value in (("front", 0.0), ("right", 0.05), ("back", 0.08), ("left", 0.03)):
        assert rig.read(position, value).accepted
    reply = rig.post("take", {"position": "front"}, "early")
    rig.stream([0.03])
    rig.stand(0.0)
    assert reply.result(0).accepted, reply.result(0).reason
    assert "SweepDone" in rig.types()


def test_a_zero_nobody_pressed_is_denied_with_one_press(rig):
    assert rig.read("front", 0.7).accepted
    rig.stand(0.0)
    key = {"kind": "answer", "payload": {"key": "not-zeroed"}}
    if rig.job.step != "question":
        key = {"kind": "not-zeroed", "payload": {}}
    offered = told(rig.hub.snapshot("practice-mill").pages["console"])["actions"]
    assert key.items() <= next(a for a in offered if key.items() <= a.items()).items()
    assert rig.post(key["kind"], key["payload"], "no").result(0).accepted
    rig.stand(0.0)
    assert [r.position for r in rig.job.reads.taken] == ["front"]
    assert rig.types().count("Zeroed") == 1
    assert rig.read("right", 0.0).accepted
