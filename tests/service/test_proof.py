"""The whole record looked at behind the start: what it finds, and what waits for it."""

import json
from dataclasses import replace

import pytest

from daq.audit.apply import fold
from daq.gauges.ring import Ring
from daq.ledger import Ledger
from daq.ledger.seal import SEAL_NAME, read_seal, write_seal
from daq.service import proof as proof_room
from daq.service.hub import Hub, Served
from daq.service.proof import Known, Proof
from daq.service.sealing import Sealer, begin
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import said
from tests.ledger.conftest import raw_hand
from tests.patience import until
from tests.service.rig import Rig
from tests.service.years import ENGINE, grown, seal_now
from tests.words import en

MILL = "mill"


class Told:
    """What is known of the record: what `now` says."""

    def __init__(self, now):
        self.now = now

    def __getattr__(self, name):
        return getattr(self.now, name)


class Started(Rig):
    """A service on a ledger of many audits, its record checked behind it."""

    machine = MILL

    def __init__(self, folder, clock, sample):
        self.clock, self.sample, self.ring = clock, sample, Ring()
        self.n = 0
        self.hub = Hub((Served(MILL, "Mill", "arm", 1000),), clock.mono_ns)
        self.ledger = Ledger.open(folder, engine=ENGINE)
        self.begun = begin(self.ledger)
        floor = Shopfloor(lambda machine: None, {"arm": self.ring})
        self.sealer = Sealer(folder, self.ledger, ENGINE, self.begun)
        self.real = Proof(folder, self.ledger.seq, self.begun, self.sealer.void)
        self.proof = Told(self.real)
        followers = {"seal": self.sealer.committed}
        shop = self.begun.shop
        self.decider = wired(
            self.ledger, shop, self.hub, clock, ENGINE, {}, floor, followers, self.proof
        )

    def __enter__(self):
        self.sealer.start()
        self.real.start()
        return self

    def __exit__(self, *_):
        self.real.stop()
        self.sealer.stop()
        self.decider.close("over")

    def looks(self):
        self.clock.ns += 2_000_000_000
        self.decider.tick()
        return self.hub.snapshot(MILL)


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def start(folder, clock, sample):
    return lambda: Started(folder, clock, sample)


def over(run):
    until(lambda: run.real.done)
    return run.real


def alarmed(run, why):
    """The record is called unsound: on the screens, in the health report, to every press."""
    proof = over(run)
    assert why in en(proof.fault)
    recording = run.looks().recording
    assert not recording["ok"]
    assert en(recording["say"]).startswith("NOT RECORDED from now on: ")
    assert why in en(recording["say"])
    assert not run.hub.health()["ok"]
    rows = run.ledger.seq
    ack = run.post("abandon", {"why": "x"}).result(0)
    assert ack.code == "not-recorded" and why in en(ack.reason)
    assert run.ledger.seq == rows
    assert run.looks().recording == recording


def test_a_sound_record_is_found_so_and_nothing_is_said(folder, past, unfinished, start):
    grown(folder, past, range(3), unfinished)
    seal_now(folder)
    with start() as run:
        proof = over(run)
        assert (proof.wait, proof.say, proof.fault) == (None, None, None)
        assert proof.rows >= run.begun.at
        snapshot = run.looks()
        assert snapshot.recording["ok"]
        assert "record" not in [fault["code"] for fault in snapshot.faults]
        assert run.post("abandon", {"why": "x"}).result(0).accepted


def test_a_row_altered_in_the_middle_is_an_alarm(folder, past, unfinished, start):
    grown(folder, past, range(3), unfinished)
    seal_now(folder)
    with raw_hand(folder) as connection:
        connection.execute(
            "UPDATE events SET body = replace(body, '\"boot\"', '\"foot\"') WHERE seq = 30"
        )
    with start() as run:
        alarmed(run, "row 30 is altered")
        until(lambda: not (folder / SEAL_NAME).exists())
    assert not (folder / SEAL_NAME).exists()


def test_evidence_that_is_another_is_an_alarm(folder, past, unfinished, start):
    grown(folder, past, range(2), unfinished)
    seal_now(folder)
    with raw_hand(folder) as connection:
        connection.execute("UPDATE chunks SET bytes = x'00' WHERE rowid = 7")
    with start() as run:
        alarmed(run, "is damaged")


def test_damage_in_an_index_is_an_alarm(folder, past, unfinished, start):
    grown(folder, past, range(3), unfinished)
    seal_now(folder)
    with raw_hand(folder) as connection:
        connection.pragma("writable_schema", True)
        connection.execute(
            "UPDATE sqlite_schema SET sql = replace(sql, 'NOT NULL', 'NOT NULL AND seq > 9')"
            " WHERE name = 'events_by_cause'"
        )
    with raw_hand(folder) as connection:
        connection.execute("REINDEX events_by_cause")
        connection.pragma("writable_schema", True)
        connection.execute(
            "UPDATE sqlite_schema SET sql = replace(sql, ' AND seq > 9', '')"
            " WHERE name = 'events_by_cause'"
        )
    with start() as run:
        alarmed(run, "events_by_cause")


def forged(folder, change):
    """The seal with another state, its digest made right."""
    seal = read_seal(folder, ENGINE)
    state = json.loads(seal.text)
    change(state)
    write_seal(folder, replace(seal, text=json.dumps(state)))


def void_visits(state):
    state["shop"]["machines"][MILL]["visits"] = {}


def later_signed(state):
    state["shop"]["machines"][MILL]["last"]["signed"]["done_by"] = "Nobody"


@pytest.mark.parametrize("change", [void_visits, later_signed])
def test_a_state_that_was_altered_in_its_seal_is_an_alarm_and_healed_by_the_next_start(
    folder, past, unfinished, start, change
):
    grown(folder, past, range(2), unfinished)
    seal_now(folder)
    forged(folder, change)
    with start() as run:
        assert run.begun.sealed is not None
        assert run.begun.shop != fold(run.ledger.events())
        alarmed(run, "stop the service and start it again")
    assert not (folder / SEAL_NAME).exists()
    with start() as run:
        assert over(run).fault is None
        assert run.post("abandon", {"why": "x"}).result(0).accepted


def test_signing_waits_for_it_and_other_presses_do_not(folder, past, start):
    drafts, chunks = past.again(0)
    with Ledger.open(folder) as ledger:
        ledger.append(drafts[:-1], chunks)
    with start() as run:
        over(run)
        say = said("record-under-check", share=43)
        words = "The record is being checked from its first row on: 43 % done."
        run.proof.now = Known(wait=say, say=say)
        faults = run.looks().faults
        assert {"code": "record", "kind": "warning", "say": say} in faults
        assert run.hub.health()["ok"]
        run.post("prepared", {"serial_number": "P-1"}, "p")
        ack = run.post("sign", drafts[-1].cause["payload"], "s").result(0)
        assert (ack.code, en(ack.reason)) == ("refused", f"{words} It can be signed after that.")
        hands = {"left_by": "Ann", "taken_by": "Bea"}
        assert run.post("hand-over", hands, "h").result(0).accepted
        run.proof.now = Known()
        assert "record" not in [fault["code"] for fault in run.looks().faults]
        assert run.post("sign", drafts[-1].cause["payload"], "s").result(0).accepted


class Held:
    """A check that stops where the test says, in place of resting."""

    def __init__(self, folder, ledger, begun, until_row):
        self.found = []
        self.proof = Proof(folder, ledger.seq, begun, lambda: self.found.append("failed"))
        self.proof._rests.turn = self.turn
        self.row = until_row
        self.proof.start()
        until(lambda: self.at)

    at = False

    def turn(self):
        if self.proof.rows >= self.row:
            self.at = True
            self.proof._ending.wait()
        return self.proof._ending.is_set()


@pytest.mark.parametrize("row", [0, 40])
def test_a_service_that_stops_before_it_is_over_ends_it_and_finds_nothing(
    folder, past, monkeypatch, row
):
    """While the file is looked at, and while the rows are."""
    grown(folder, past, range(2))
    with Ledger.open(folder, engine=ENGINE) as ledger:
        held = Held(folder, ledger, begin(ledger), row)
        percent = 100 * row // ledger.seq
        assert en(held.proof.wait).endswith(f": {percent} % done.")
        assert held.proof.say is None
        monkeypatch.setattr(proof_room, "SAID_S", 0.0)
        assert held.proof.say == held.proof.wait
        held.proof.stop()
        assert not held.proof._thread.is_alive()
        assert (held.proof.fault, held.proof.done, held.found) == (None, False, [])


def test_it_rests_as_long_as_it_works(folder, past, monkeypatch):
    """By a clock of its own: each look at it is a millisecond of work."""
    grown(folder, past, range(3))
    now, rested = [0.0], [0.0]

    def monotonic():
        now[0] += 0.001
        return now[0]

    class Ending:
        def is_set(self):
            return False

        def wait(self, seconds):
            now[0] += seconds
            rested[0] += seconds

    monkeypatch.setattr(proof_room.time, "monotonic", monotonic)
    with Ledger.open(folder, engine=ENGINE) as ledger:
        begun = begin(ledger)
        proof = Proof(folder, ledger.seq, begun, lambda: None)
        proof._ending = proof._rests._ending = Ending()
        proof._work()
        assert (proof.done, proof.fault, proof.rows) == (True, None, ledger.seq)
    beyond = now[0] - proof_room.AT_ONCE_S
    assert rested[0] > 0.4 * beyond > 0.0


def test_a_check_that_breaks_off_is_no_sound_record(folder, past, start, monkeypatch):
    grown(folder, past, range(1))

    def breaks(*_, **__):
        raise MemoryError("no room")

    monkeypatch.setattr(proof_room, "walk", breaks)
    with start() as run:
        assert en(over(run).fault) == "its check broke off (MemoryError: no room)"
