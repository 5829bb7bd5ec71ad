"""What was taken is said on every screen with its commit, as the gauge's face showed it."""

from daq.service.sayings import TAKEN_NS
from tests.service.rig import MILL, prepared
from tests.words import en


def test_a_take_is_said_with_its_commit_and_for_its_time(rig):
    prepared(rig)
    told = []
    rig.hub.follow(lambda machine, what: told.append((what, rig.hub.snapshot(machine).said)))
    reply = rig.post("take", {}, "t1")
    rig.stream([0.254] * 60)
    assert reply.result(0).accepted
    said = rig.hub.snapshot(MILL).said
    assert (said["outcome"], en(said["say"])) == ("taken", "Taken: 0.254")
    assert told[-1][1]["outcome"] == "taken", "no screen has to ask for it"
    assert said["left_ms"] <= TAKEN_NS // 1_000_000
    rig.clock.ns += TAKEN_NS
    assert rig.hub.snapshot(MILL).said is None


def test_what_reads_nothing_says_nothing(rig):
    rig.post("open", {"reason": "practice"}, "c1")
    assert rig.hub.snapshot(MILL).said is None
