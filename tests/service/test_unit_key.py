"""The gauge's unit key, pressed as quickly and as often as anybody likes, at every step."""

from dataclasses import replace

import pytest

from tests.service.rig import prepared
from tests.service.test_slow_gauge import SlowRig

SWEEP = (("front", 1.2), ("right", 1.16), ("back", 1.12), ("left", 1.16), ("front", 1.2))
STEPS = ("as-found", "park", "loosen", "move", "check", "tighten")


class UnitRig(SlowRig):
    unit = "mm"

    def __init__(self, folder, config, clock, sample):
        super().__init__(folder, config, clock, self.shown)
        self.plain = sample

    def shown(self, n, mono_ns, value):
        made = self.plain(n, mono_ns, value)
        return made if self.unit == "mm" else replace(made, unit="in", text=f"{value / 25.4:+.5f}")

    def press_unit(self):
        self.unit = "in" if self.unit == "mm" else "mm"

    def ok(self, kind, payload=None, values=(1.2,)):
        reply = self.post(kind, payload, f"{kind}-{self.seq}")
        for value in values:
            self.stand(value, 1.2)
        ack = reply.result(0)
        assert ack.accepted, ack.reason

    def go_to(self, step):
        """Obey until the audit stands at this step; gives what the gauge reads there."""
        if step == "as-found":
            return 1.2
        for position, value in SWEEP:
            assert self.read(position, value).accepted
        if step == "park":
            return 1.2
        self.ok("take", {"position": "front"})
        if step == "loosen":
            return 1.2
        self.ok("loosened")
        if step == "move":
            return 1.2
        stop = round(self.job.stop.stop_face_mm, 3)
        for reading in (1.19, 1.17, 1.15, stop):
            self.stand(reading, 1.0)
        self.ok("stopped", None, (stop,))
        if step == "check":
            return stop
        assert self.read("back", stop).accepted
        assert self.read("front", stop).accepted
        assert self.job.step == step
        return stop

    def press_on(self, step, value):
        """The press that the step is for, right after the unit key."""
        kinds = {"loosen": "loosened", "move": "stopped", "tighten": "tightened"}
        if step in kinds:
            return self.ok(kinds[step], None, (value,))
        place = {"as-found": "front", "park": "front", "check": "back"}[step]
        return self.ok("take", {"position": place}, (value,))


@pytest.fixture
def rig(tmp_path, config, clock, sample):
    made = UnitRig(tmp_path / "data", config, clock, sample)
    made.hz = 10
    prepared(made)
    made.ok("take", {}, (0.1,))
    made.stand(1.2, 1.2)
    made.ok("pushed", None, (0.1,))
    made.stand(1.2, 1.2)
    yield made
    made.decider.close("over")


@pytest.mark.parametrize("step", STEPS)
def test_the_audit_follows_what_the_gauge_shows(rig, step):
    value = rig.go_to(step)
    for frames in (1, 5, 12, 40):
        for presses in (1, 2, 3, 4):
            for _ in range(presses):
                rig.press_unit()
                rig.stream([value] * frames)
            rig.stand(value, 1.2)
            assert rig.job.gauge.unit == rig.unit, (frames, presses)


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize(("presses", "frames"), [(1, 1), (2, 1), (1, 9), (2, 12), (3, 5)])
def test_no_press_is_refused_for_the_unit(rig, step, presses, frames):
    """The key is pressed and nobody waits for the service to notice."""
    value = rig.go_to(step)
    for _ in range(presses):
        rig.press_unit()
        rig.stream([value] * frames)
    rig.press_on(step, value)
    rig.stand(value, 1.2)
    assert rig.job.gauge.unit == rig.unit


@pytest.mark.parametrize("hz", [2, 4])
def test_the_unit_key_of_a_slow_gauge_is_noticed_too(rig, hz):
    rig.hz = hz
    rig.press_unit()
    rig.stand(1.2, 8.0)
    assert rig.job.gauge.unit == "in"
