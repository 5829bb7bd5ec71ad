"""The daemon is killed; the audit goes on, and nothing of before is taken for granted."""

import time
import uuid
from concurrent.futures import ThreadPoolExecutor

import pytest

from daq.audit.stages import STAGES
from daq.virtual import Hands
from daq.words import OPPOSITE

OTHER_STORIES = {
    *("touch-back", "closer", "stations", "power-arm", "power-height"),
    *("arm-out-closer", "arm-out-shim", "shim-open", "shim", "arm-back"),
    *("angled", "set-back", "crashed", "levelled", "tap", "put-aside", "aside", "unsafe"),
    *("as-found-drift", "final-drift", "final-ram", "differs", "surmise"),
}
"""Steps that no planned audit comes to which squares by worms a head that its gauge can read."""
EVERY_STEP = ("idle", *(step for step in STAGES if step not in OTHER_STORIES), "signed")
SOME_STEPS = ("idle", "as-found", "question", "move", "tighten", "sign")
"""Before an audit, in a sweep, asked, with bolts loose, pulling them up, and before the end."""
NOTHING_TO_ASK = ("idle", "table", "power", "prepare", "signed")
MOST_STEPS = 250
MACHINE_FILE = "machines/practice-mill.toml"
NOTICED = ("GaugeFault", "GaugeBack", "GaugeNoted")
"""What a busy machine makes the service say by itself: the gauge is held up, or the mill's hand
swings on between two of its frames."""
INTO_THE_TAKE_S = (0.0, 0.05, 0.1, 0.15)
"""A take lasts a tenth of a second here; a kill may fall before, into or after its commit."""


class Interrupted:
    """An audit in which each of some steps is interrupted once, at its first coming."""

    def __init__(self, mill, daemon, steps):
        self.steps = steps
        self.mill = mill
        self.daemon = daemon
        self.client = daemon.client
        self.hands = Hands(self.client.snapshot, self.press, self.client.live, mill)
        self.answered: list[int] = []
        self.seen: list[str] = []

    def press(self, kind, payload):
        ack = self.client.press(kind, payload)
        self.answered += ack.seqs
        return ack

    def step(self):
        console = self.client.console()
        if console["step"] not in self.seen:
            self.seen.append(console["step"])
            if console["step"] in self.steps:
                self.interrupt()
                console = self.client.console()
        if console["step"] == "park" and "question" not in self.seen:
            self.take_from_across(console["do"]["position"])
        elif console["step"] != "signed":
            self.hands.step()

    def interrupt(self):
        before = self.well()
        assert self.unanswered() == []
        self.daemon.kill()
        self.mill.unplug()  # a pseudo-terminal stays exclusive after a reader that was killed
        self.mill.replug()
        self.daemon.start()
        # The record is checked from its first row on behind a start, and said to be.
        after = self.well()
        step = before["pages"]["console"]["step"]
        if step in NOTHING_TO_ASK:
            assert after == before
        else:
            (restarted,) = self.unanswered()
            assert restarted.type == "Restarted"
            self.answered.append(restarted.seq)
            assert after["pages"]["console"]["stop_at"] is None
            assert after["pages"]["console"]["step"] in ("prepare", "clear", "sign")
        self.client.until_live(lambda live: live.fresh)
        assert self.well() == after

    def unanswered(self):
        """What is in the record that no press asked for, and no busy machine."""
        told = (e for e in self.daemon.events() if e.type not in NOTICED)
        return [e for e in told if e.seq not in self.answered]

    def well(self):
        """The snapshot once nothing is amiss, but for what is said of the start itself."""
        found = self.client.until(lambda snapshot: not snapshot["faults"])
        return {**found, "cut_off": None}

    def take_from_across(self, position):
        """Leads to a question: the gauge does not stand where the person says."""
        self.mill.swing_to(OPPOSITE[position])
        assert self.press("take", {"position": position}).accepted


@pytest.mark.timeout(900)  # a daemon is started anew at each step
@pytest.mark.parametrize(
    "steps",
    [
        pytest.param(SOME_STEPS, id="some"),
        pytest.param(EVERY_STEP, id="every", marks=pytest.mark.long),
    ],
)
def test_killed_at_a_step_the_audit_asks_goes_on_and_is_finished(mill, daemon, steps):
    audit = Interrupted(mill, daemon, steps)
    for _ in range(MOST_STEPS):
        if "signed" not in audit.seen:
            audit.step()
    assert set(audit.seen) == set(EVERY_STEP)
    (signed,) = daemon.events("Signed")
    assert signed.data["verdict"] == "conforms"
    assert audit.unanswered() == []
    assert {e.seq for e in daemon.events()} >= set(audit.answered)


def test_a_take_cut_off_by_a_kill_is_carried_out_once_or_not_at_all(person, gauge, client, daemon):
    """Sent again it has its old answer, or it comes too late: the gauge may have been touched."""
    person.start()
    gauge.move_to(1.0)
    carried_out = 0
    for wait_s in INTO_THE_TAKE_S:
        take = {"position": "front"}
        sent = str(uuid.uuid4())
        with ThreadPoolExecutor(1) as other:
            cut_off = other.submit(client.post, "take", take, id=sent)
            time.sleep(wait_s)
            daemon.kill()
            answered = cut_off.result().body["seqs"] if not cut_off.exception() else None
        gauge.replug()
        daemon.start()
        client.until_live(lambda live: live.fresh)
        again = client.post("take", take, id=sent)
        carried_out += again.status == 200
        assert again.status == 200 or answered is None
        assert answered in (None, again.body["seqs"])
        assert len(daemon.events("ReadingTaken")) == carried_out
        person.prepare()
        gauge.move_to(1.0)


@pytest.fixture
def half_way(person, client):
    """As found, parked and told where to stop."""
    person.start()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    person.take("front", 1.200)
    before = client.snapshot()
    assert before["pages"]["console"]["stop_at"] is not None
    return before


def test_an_edited_file_changes_nothing_of_an_audit_under_way(
    half_way, person, client, daemon, shop
):
    daemon.stop()
    shop.set(MACHINE_FILE, "name", '"Another name"')
    shop.set(MACHINE_FILE, "sweep_radius", '"80 mm"')
    for section in ("[side]", "[nod]"):
        shop.set(MACHINE_FILE, "limit", '"0.25 mm"', section)
        shop.set(MACHINE_FILE, "pivot_distance", '"20 mm"', section)
    shop.set("gauges/practice.toml", "travel", '"5 mm"')
    daemon.start()
    assert client.console()["stop_at"] is None
    person.prepare()
    person.take("front", 1.200)
    person.take("back", 1.120)
    person.take("front", 1.200)
    assert client.console()["stop_at"] == half_way["pages"]["console"]["stop_at"]
    person.done("loosened", 1.180)
    stop_at, before = client.console()["stop_at"], half_way["pages"]["console"]["stop_at"]
    assert (stop_at["axis"], stop_at["value"]) == (before["axis"], before["value"])
    assert (before["base"], stop_at["base"]) == ("1.200", "1.180")
    client.do("abandon", {"why": "the next audit has the edited file"})
    client.do("made-safe")
    person.start()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    console = client.console()
    assert (console["machine_name"], console["step"]) == ("Another name", "clear")
    limits = {(axis["limit"], axis["over"], axis["word"]) for axis in console["axes"]}
    assert limits == {("±0.133", "160 mm", "in")}
    first, second = (e.data["setup"] for e in daemon.events("AuditOpened"))
    assert (first["machine"]["sweep_radius"], second["machine"]["sweep_radius"]) == (100.0, 80.0)
    assert (first["gauge"]["travel"], second["gauge"]["travel"]) == (12.7, 5.0)
