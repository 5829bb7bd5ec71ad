import dataclasses
import threading

import pytest

from daq.audit.aim import Aim, Turning
from daq.service.hub import Hub, Served
from daq.service.takes import HOLD_STILL
from daq.service.turns import STILL_NS
from daq.words import GaugeStatus, Snapshot
from tests.patience import PATIENCE_S
from tests.words import en, told

MILL = Served("mill", "Mill", "practice", 1000)
STOP = Aim("practice", 0.9, "mm", 3, Turning(0.9, "down"))
PAST = Aim("practice", 0.9, "mm", 3, Turning(0.9, "up", past_mm=0.05))


def say(live):
    """What the number says, held against the stop-at."""
    return live.against and (live.against.state, en(live.against.say))


class Slot:
    """What a screen is told of one machine, as the streams take it: the latest, no queue."""

    def __init__(self, hub, machine):
        self.hub, self.machine = hub, machine
        self.ready = threading.Condition()
        self.new = {"snapshot"}
        hub.follow(self.tell)

    def tell(self, machine, what):
        with self.ready:
            if machine == self.machine:
                self.new.add(what)
                self.ready.notify()

    def wait(self, timeout_s):
        with self.ready:
            self.ready.wait_for(lambda: self.new, timeout_s)
            new, self.new = self.new, set()
        live = self.hub.live(self.machine) if "live" in new else None
        return live, self.hub.snapshot(self.machine) if "snapshot" in new else None

    def __enter__(self):
        return self

    def __exit__(self, *_):
        pass


@pytest.fixture
def hub(clock):
    made = Hub((MILL, Served("other", "Other", "elsewhere", 1000)), clock.mono_ns)
    for key in ("mill", "other"):
        made.publish(snapshot(key), None, {"mill": "practice", "other": "elsewhere"}[key])
    return made


def snapshot(machine, seq=1):
    return Snapshot(machine, seq, "", {}, (), {"ok": True, "say": ""})


def test_before_the_first_sample_nothing_is_live(hub):
    live = hub.live("mill")
    assert (live.fresh, live.text, live.to_go) == (False, "", None)


def test_a_sample_is_live_until_it_is_old(hub, clock, sample):
    hub.on_sample(sample(1, clock.ns))
    clock.ns += 1_000_000_000
    assert (hub.live("mill").fresh, hub.live("mill").age_ms) == (True, 1000)
    clock.ns += 1_000_000
    assert not hub.live("mill").fresh


def test_the_distance_to_the_stop_at_is_never_shown_for_an_old_sample(hub, clock, sample):
    hub.publish(snapshot("mill"), STOP, "practice")
    hub.on_sample(sample(1, clock.ns, value=1.0))
    assert hub.live("mill").to_go == "-0.100"
    assert hub.live("mill").to_go_mm == pytest.approx(-0.1)
    assert say(hub.live("mill")) == ("down", "down 0.100 to go")
    clock.ns += 2_000_000_000
    assert hub.live("mill").to_go is None
    assert say(hub.live("mill")) == ("unknown", "distance unknown")


def test_that_the_number_has_been_past_the_stop_at_is_kept_for_every_screen(hub, clock, sample):
    """Also by a sample that no screen was sent, and only for the stop-at it was past."""
    hub.publish(snapshot("mill"), PAST, "practice")
    hub.on_sample(sample(1, clock.ns, value=0.93))
    assert say(hub.live("mill")) == ("up", "up 0.020, then back")
    for n, value in enumerate((0.95, 0.92), 2):
        hub.on_sample(sample(n, clock.ns, value=value))
    assert say(hub.live("mill")) == ("down", "Come back: down 0.020")
    hub.publish(snapshot("mill", 2), dataclasses.replace(PAST, digits=2), "practice")
    assert say(hub.live("mill")) == ("up", "up 0.03, then back")


def test_the_live_number_is_the_gauges_face_without_the_wires_padding(hub, clock, sample):
    hub.on_sample(dataclasses.replace(sample(1, clock.ns, value=-1.5), text="-001.500"))
    assert (hub.live("mill").text, hub.live("mill").unit) == ("-1.500", "mm")
    inch = dataclasses.replace(sample(2, clock.ns, value=2.54), text="+00.10000", unit="in")
    hub.on_sample(inch)
    assert (hub.live("mill").text, hub.live("mill").unit) == ("0.10000", "in")


def test_no_distance_is_shown_for_another_unit_or_another_gauge(hub, clock, sample):
    hub.publish(snapshot("mill"), STOP, "practice")
    hub.on_sample(dataclasses.replace(sample(1, clock.ns), unit="in"))
    assert hub.live("mill").to_go is None
    assert say(hub.live("mill")) == ("unknown", "distance unknown")
    hub.publish(snapshot("mill"), STOP, "elsewhere")
    hub.on_sample(sample(1, clock.ns, gauge="elsewhere"))
    assert (hub.live("mill").fresh, hub.live("mill").to_go) == (True, None)


def test_a_slot_holds_the_latest_and_no_queue(hub, clock, sample):
    with Slot(hub, "mill") as slot:
        live, first = slot.wait(0.1)
        assert live is None and first.seq == 1
        for n in range(1, 6):
            hub.on_sample(sample(n, clock.ns))
        hub.publish(snapshot("mill", seq=2), None, "practice")
        live, changed = slot.wait(0.1)
        assert (live.n, changed.seq) == (5, 2)
        assert slot.wait(0.01) == (None, None)


def test_only_the_machines_own_gauge_wakes_its_screens(hub, clock, sample):
    with Slot(hub, "other") as slot:
        slot.wait(0.1)
        hub.on_sample(sample(1, clock.ns))
        assert slot.wait(0.01) == (None, None)


def test_a_waiting_screen_is_woken(hub, clock, sample):
    found = []
    with Slot(hub, "mill") as slot:
        slot.wait(0.1)
        waiting = threading.Thread(target=lambda: found.append(slot.wait(PATIENCE_S)))
        waiting.start()
        hub.on_sample(sample(7, clock.ns))
        waiting.join(PATIENCE_S)
    assert found[0][0].n == 7


def test_health_notices_a_decider_that_stands_still(hub, clock):
    hub.beat()
    assert hub.health()["ok"]
    clock.ns += STILL_NS
    assert not hub.health()["ok"]


def test_what_a_key_sent_is_never_live_and_keeps_its_distance(clock, sample):
    hub = Hub((dataclasses.replace(MILL, fresh_ms=None),), clock.mono_ns)
    hub.publish(snapshot("mill"), STOP, "practice")
    assert (hub.live("mill").keyed, hub.live("mill").text) == (True, "")
    hub.on_sample(sample(1, clock.ns, value=1.0))
    live = hub.live("mill")
    assert (live.fresh, live.keyed, live.text, live.to_go) == (False, True, "1.000", "-0.100")
    assert say(live) == ("down", "down 0.100 to go, when sent")


def test_what_is_said_of_a_press_elsewhere_wakes_the_screens_and_goes(hub):
    with Slot(hub, "mill") as slot:
        slot.wait(0.1)
        hub.tell("mill", "wait", "Hold still…")
        said = slot.wait(0.1)[1].said
        assert (said["outcome"], said["say"]) == ("wait", "Hold still…")
        hub.tell("mill", "ok", "")
        assert slot.wait(0.1)[1].said is None
        hub.tell("mill", "ok", "")
        assert slot.wait(0.01) == (None, None)


def test_a_refused_press_is_said_to_all_screens_each_with_its_number(hub, clock):
    with Slot(hub, "mill") as slot:
        slot.wait(0.1)
        hub.refuse("mill", "take", "Off contact at left. The contact is not down.", "c-1")
        first = told(slot.wait(0.1)[1].said)
        hub.refuse("mill", "cleared", "Not yet.")
        second = told(slot.wait(0.1)[1].said)
    assert first == {
        "outcome": "refused",
        "say": "NOT TAKEN: Off contact at left.",
        "command": "c-1",
        "n": first["n"],
        "left_ms": 10_000,
    }
    assert second["say"] == "Not done: Not yet."
    assert second["n"] > first["n"]
    clock.ns += 4_000_000_000
    assert hub.snapshot("mill").said["left_ms"] == 6_000
    clock.ns += 6_000_000_000
    assert hub.snapshot("mill").said is None


def test_a_refused_press_is_said_until_the_next_event(hub):
    hub.refuse("mill", "take", "Not yet.")
    hub.publish(snapshot("mill"), None, "practice")
    assert hub.snapshot("mill").said
    hub.publish(snapshot("mill", seq=2), None, "practice")
    assert hub.snapshot("mill").said is None


def test_the_second_press_of_a_take_under_way_is_no_refusal(hub):
    hub.refuse("mill", "take", HOLD_STILL)
    assert hub.snapshot("mill").said is None


@pytest.mark.parametrize(
    ("why", "said"),
    [
        ("It reads -0.365 as in the air. Bring it down.", "It reads -0.365 as in the air."),
        ("No sentence at all", "No sentence at all"),
        ("word " * 40 + "end.", "word " * 21 + "word…"),
    ],
)
def test_a_refusal_is_cut_to_what_can_be_read_across_a_shop(hub, why, said):
    hub.refuse("mill", "take", why)
    assert en(hub.snapshot("mill").said["say"]) == f"NOT TAKEN: {said}"


def test_a_listener_hears_its_own_machines_gauge(hub, clock, sample):
    heard = []
    hub.listen("mill", heard.append)
    for gauge in ("practice", "elsewhere"):
        hub.on_sample(sample(1, clock.ns, gauge=gauge))
    assert [one.gauge for one in heard] == ["practice"]


def status(code, run="r1"):
    return GaugeStatus("practice", code, "" if code == "ok" else "Gone.", run, 9, 0, 0)


def test_a_gauge_that_went_takes_its_number_along_however_fresh(hub, clock, sample):
    hub.on_sample(sample(8, clock.ns))
    hub.on_sample(sample(9, clock.ns))
    with Slot(hub, "mill") as slot:
        slot.wait(0.1)
        hub.on_status(status("unplugged"))
        live, _ = slot.wait(0.1)
    assert (live.fresh, live.text, live.value_mm, live.to_go) == (False, "", None, None)
    assert (live.run, live.n, live.age_ms) == ("r1", 9, 0)
    assert hub.lost("practice") == ("r1", 9)
    hub.on_status(status("ok", "r2"))
    assert not hub.live("mill").fresh, "of the opening that ended"
    hub.on_sample(sample(0, clock.ns, run="r2"))
    assert (hub.live("mill").fresh, hub.live("mill").text) == (True, "1.000")


def test_a_gauge_that_still_sends_keeps_what_it_sent_after_the_fault(hub, clock, sample):
    hub.on_sample(sample(3, clock.ns))
    hub.on_status(status("silent"))
    assert not hub.live("mill").fresh
    hub.on_sample(sample(4, clock.ns))
    assert hub.live("mill").fresh


def test_a_number_too_old_to_be_live_is_not_told_at_all(hub, clock, sample):
    hub.on_sample(sample(1, clock.ns))
    clock.ns += 400_000_000
    assert hub.live("mill").fresh_for_ms == 600
    clock.ns += 601_000_000
    live = hub.live("mill")
    assert (live.text, live.unit, live.value_mm, live.age_ms) == ("", "", None, 1001)


def test_what_a_key_sent_goes_with_its_gauge(clock, sample):
    hub = Hub((dataclasses.replace(MILL, fresh_ms=None),), clock.mono_ns)
    hub.publish(snapshot("mill"), None, "practice")
    hub.on_sample(sample(1, clock.ns))
    hub.on_status(status("unplugged"))
    live = hub.live("mill")
    assert (live.keyed, live.text, live.value_mm) == (True, "", None)


def test_a_decider_held_by_its_disk_is_on_every_screen_while_it_is(hub, clock, sample):
    """The live number goes on all the time."""
    hub.beat()
    clock.ns += STILL_NS
    hub.on_sample(sample(1, clock.ns))
    shown = hub.snapshot("mill")
    assert hub.still and hub.live("mill").fresh
    assert (shown.recording["ok"], hub.health()["recording"]["mill"]["ok"]) == (False, False)
    assert en(shown.recording["say"]).startswith("NO ANSWER from recording")
    hub.beat()
    assert (hub.still, hub.snapshot("mill").recording) == (False, {"ok": True, "say": ""})


def test_health_tells_of_a_reader_that_stands_still(hub):
    hub.on_status(GaugeStatus("practice", "unplugged", "", "", 0, 0, 0))
    assert hub.health()["ok"], "that is the cable's fault, not the service's"
    hub.on_status(GaugeStatus("practice", "stuck", "", "", 0, 0, 0))
    assert not hub.health()["ok"]
