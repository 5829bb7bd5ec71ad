"""The decider's work without its thread: a real ledger, a clock and a ring turned by hand."""

from concurrent.futures import Future

import pytest

from daq.audit.recompute import differences
from daq.gauges.ring import Ring
from daq.service.files import load
from daq.service.shopfloor import Shopfloor
from daq.settings import SettingsError
from daq.words import Command
from tests.cards import READY
from tests.service.rig import MILL, Rig, prepared
from tests.words import en, told, troubled


def on_the_floor(rig, rings):
    """These are the gauges' samples from now on."""
    rig.decider._floor = Shopfloor(rig.decider._floor.setup, rings)
    rig.decider._takes._floor = rig.decider._floor


def test_a_command_is_answered_with_the_numbers_of_its_events(rig):
    ack = rig.post("open", {"reason": "practice"}).result(0)
    assert ack.accepted and ack.seqs == (2,)
    assert rig.seq == 2


def test_the_same_id_twice_makes_one_event(rig):
    first = rig.post("open", {"reason": "practice"}).result(0)
    again = rig.post("open", {"reason": "practice"}, expects=0).result(0)
    assert again.accepted and again.seqs == first.seqs
    assert rig.ledger.seq == 2


def test_an_id_used_for_something_else_is_refused(rig):
    rig.post("open", {"reason": "practice"}, "c1")
    ack = rig.post("prepared", {"serial_number": "P-0417"}, "c1").result(0)
    assert (ack.code, "used before" in en(ack.reason)) == ("refused", True)
    assert rig.ledger.seq == 2


def test_a_machine_nobody_knows_is_refused(rig):
    reply = Future()
    rig.decider.receive(Command("c", "lathe", "open", {"reason": "practice"}), 0, reply)
    assert "no machine called 'lathe'" in en(reply.result(0).reason)


def test_a_zero_while_a_take_settles_ends_the_take(rig):
    prepared(rig)
    rig.post("take", {}, "c3")
    rig.stream([-0.35] * 60)
    assert rig.push(-0.35).accepted
    rig.stream([1.0] * 60)
    reply = rig.post("take", {"position": "front"}, "c6")
    rig.stream([1.0] * 12 + [0.0] * 12)
    assert "Zeroed while it was read" in en(reply.result(0).reason)
    assert told(rig.hub.snapshot(MILL).pages["wall"])["message"]["code"] == "zeroed-noted"


def test_history_from_before_the_service_began_is_recorded_as_missed(rig):
    prepared(rig)
    rig.post("take", {}, "c3")
    rig.stream([-0.35] * 60)
    rig.decider._takes._began_ns = rig.clock.ns + 1
    assert rig.push(-0.35).accepted
    assert list(rig.ledger.events())[-1].cause["missed"] is True


def test_a_screen_that_looked_at_an_older_state_is_told_what_changed(rig):
    rig.post("open", {"reason": "practice"}, "c1")
    rig.post("readied", READY, "r1")
    rig.post("warmed", {"warm": True}, "w1")
    seen = rig.seq
    rig.post("prepared", {"serial_number": "P-0417"}, "c2")
    ack = rig.post("abandon", {"why": "x"}, "c3", expects=seen).result(0)
    assert (ack.accepted, ack.code) == (False, "stale")
    assert [en(step) for step in ack.changed] == ["the machine was prepared"]


def test_a_take_is_answered_when_it_has_settled(rig):
    prepared(rig)
    reply = rig.post("take", {}, "c3")
    rig.stream([1.0, 1.1, 1.2] + [1.0] * 30)
    assert not reply.done(), "the wait and the window have not passed"
    rig.stream([1.0] * 12)
    assert reply.result(0).accepted
    event = list(rig.ledger.events())[-1]
    reading = event.data["reading"]
    assert reading["mean_mm"] == pytest.approx(1.0)
    assert len(rig.ledger.chunk(reading["evidence"]).splitlines()) == reading["count"] + 1


def test_the_same_take_sent_again_while_it_settles_waits_for_the_same_answer(rig):
    prepared(rig)
    first, again = rig.post("take", {}, "c3"), rig.post("take", {}, "c3")
    other = rig.post("take", {}, "c4").result(0)
    assert other.code == "refused" and "hold still" in en(other.reason)
    rig.stream([1.0] * 60)
    assert first.result(0) == again.result(0)


def test_a_take_that_never_settles_says_why_and_records_nothing(rig):
    prepared(rig)
    reply = rig.post("take", {}, "c3")
    before = rig.ledger.seq
    rig.stream([1.0, 1.5] * 280)
    ack = reply.result(0)
    assert ack.code == "refused" and "still moving" in en(ack.reason)
    assert rig.ledger.seq == before


def test_samples_from_before_the_take_do_not_count(rig):
    prepared(rig)
    rig.stream([2.0] * 60)
    reply = rig.post("take", {}, "c3")
    rig.stream([1.0] * 60)
    assert reply.result(0).accepted
    assert list(rig.ledger.events())[-1].data["reading"]["mean_mm"] == pytest.approx(1.0)


def test_whoever_waits_is_answered_when_the_service_stops(rig):
    prepared(rig)
    reply = rig.post("take", {}, "c3")
    rig.decider.close("The service is stopping.")
    rig.closed = True
    assert en(reply.result(0).reason) == "The service is stopping."


def test_a_gauge_that_left_the_files_leaves_the_decider_alive(rig):
    prepared(rig)
    on_the_floor(rig, {})
    reply = rig.post("take", {}, "c3")
    rig.stream([1.0] * 600)
    assert "no samples" in en(reply.result(0).reason)


def test_a_second_gauge_is_bound_and_read_with_every_take(tmp_path, config, clock, sample):
    """A two-gauge bar: one take, a reading of each gauge, both with their samples."""
    gauges = config / "gauges"
    text = (gauges / "practice.toml").read_text(encoding="utf-8")
    text = text.replace("P-0417", "P-0418").replace("ttys/practice", "ttys/far")
    (gauges / "far.toml").write_text(text, encoding="utf-8")
    machine = config / "machines" / "practice-mill.toml"
    with_bar = machine.read_text(encoding="utf-8").replace(
        'gauge = "practice"',
        'gauge = "practice"\nsecond_gauge = "far"\nsecond_radius = "90 mm"',
    )
    machine.write_text(with_bar, encoding="utf-8")
    rig = Rig(tmp_path / "data", config, clock, sample)
    far = Ring()
    on_the_floor(rig, {"practice": rig.ring, "far": far})
    prepared(rig)
    assert rig.decider.shop.bound("far").machine == MILL

    def both(count, near, other):
        for _ in range(count):
            far.append(sample(rig.n, rig.clock.ns + 20_000_000, other, gauge="far", run="f1"))
            rig.stream([near])

    rig.post("take", {}, "c3")
    both(60, -0.35, 0.0)
    both(5, 1.0, 0.0)
    rig.post("pushed", {}, "c4")
    both(60, -0.35, 0.0)
    alone = rig.post("take", {"position": "front"}, "c5")
    rig.stream([1.2] * 60)
    assert not alone.done(), "the second gauge has not settled"
    both(60, 1.2, 0.7)
    assert alone.result(0).accepted
    event = list(rig.ledger.events())[-1]
    assert event.data["reading"]["mean_mm"] == pytest.approx(1.2)
    assert event.data["second"]["mean_mm"] == pytest.approx(0.7)
    assert event.data["second"]["gauge"] == "far"
    assert list(differences(rig.ledger.events(), rig.ledger.chunk)) == []
    rig.decider.close("over")


def test_the_same_gauge_twice_is_no_bar(config):
    machine = config / "machines" / "practice-mill.toml"
    text = machine.read_text(encoding="utf-8").replace(
        'gauge = "practice"',
        'gauge = "practice"\nsecond_gauge = "practice"\nsecond_radius = "90 mm"',
    )
    machine.write_text(text, encoding="utf-8")
    with troubled(SettingsError, match="the same gauge twice"):
        load(config)
