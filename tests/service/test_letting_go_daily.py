"""Samples let go by the service itself: when, by whom, and what stops it."""

import pytest

from daq.audit.apply import fold
from daq.ledger.aged import Batch
from daq.ledger.errors import LetGo
from daq.ledger.verify import verify
from daq.service import letting_go
from daq.service.letting_go import (
    DAY_NS,
    LettingGo,
    RecordRules,
    drafted,
)
from daq.service.proof import Known
from daq.settings import SettingsError, build
from daq.words import said
from tests.patience import until
from tests.service.old_audits import DAYS, KNOWN, Clock, Past, at, kept, let_go
from tests.service.rig import Rig, prepared
from tests.words import faults


@pytest.fixture
def past(tmp_path):
    made = Past(tmp_path / "data")
    yield made
    made.close()


def test_the_policy_is_a_number_of_days_or_none():
    assert build(RecordRules, {}, "shop.toml").keep_samples_days is None
    for found in (0, -3, 1.5, "400", 40_000):
        with pytest.raises(SettingsError) as caught:
            build(RecordRules, {"keep_samples_days": found}, "shop.toml")
        assert "keep_samples_days" in faults(caught.value)[0]


@pytest.fixture
def service(past, tmp_path, monkeypatch):
    monkeypatch.setattr(letting_go, "LOOKS_S", 0.01)
    started = []

    def start(proof=KNOWN, clock=None, days=DAYS, forwarded=lambda: None):
        made = LettingGo(tmp_path / "data", RecordRules(days), proof, clock or Clock(), forwarded)
        made.start()
        started.append(made)
        return made

    yield start
    for each in started:
        each.stop()


def write(past, made):
    """What the writer does with what waits."""
    until(lambda: made.waits is not None)
    batch = made.waits
    past.ledger.let_go(drafted(batch, made.days, at(0), "test"), batch.digests)
    made.answer(well=True)


def test_the_service_does_it_once_a_start_and_once_a_day(past, service):
    past.audit("old", 300)
    past.audit("a day younger", DAYS)
    clock = Clock()
    clock.ns = -1000
    made = service(clock=clock)
    write(past, made)
    assert kept(past.ledger) == ({"a day younger"}, {"old"})
    clock.ns += DAY_NS - 1
    assert not made._due()
    clock.ns += 1
    write(past, made)
    assert kept(past.ledger) == (set(), {"old", "a day younger"})


@pytest.mark.parametrize(
    "proof", [Known(wait=said("record-under-check", share=9)), Known(fault=said("file-is-damaged"))]
)
def test_nothing_goes_before_the_record_was_found_sound(past, service, proof):
    past.audit("old", 300)
    made = service(proof=proof)
    until(lambda: made.turns._at_ns is not None)
    assert not made._due() and made.waits is None


def test_nothing_goes_by_a_clock_that_was_not_set(past, service):
    past.audit("old", 300)
    clock = Clock(trusted=False)
    made = service(clock=clock)
    assert not made._due()
    clock.trusted = True
    write(past, made)


def test_without_a_policy_there_is_no_thread(past, service):
    made = service(days=None)
    assert not made._thread.is_alive()


def test_what_could_not_be_written_waits_until_tomorrow(past, service):
    past.audit("old", 300)
    clock = Clock()
    made = service(clock=clock)
    until(lambda: made.waits is not None)
    made.answer(well=False)
    until(lambda: not made._due())
    assert made.waits is None
    clock.ns += DAY_NS
    write(past, made)


def test_the_fold_passes_it_over(past):
    past.audit("old", 300)
    (row,) = let_go(past.ledger)
    assert fold([row]) == fold([])


class Wanted:
    """Stands for the thread: something waits to be let go."""

    days = DAYS

    def __init__(self, digests, up_to):
        self.waits, self.answered = Batch(tuple(digests), up_to), []

    def answer(self, *, well):
        self.waits = None
        self.answered.append(well)


def test_who_decides_lets_it_go_between_two_presses_and_tells_of_it(
    tmp_path, config, clock, sample
):
    rig = Rig(tmp_path / "rig", config, clock, sample)
    prepared(rig)
    rig.post("take", {}, "c3")
    rig.stream([1.0] * 60)
    read = rig.ledger.event(rig.ledger.seq)
    (named,) = read.evidence
    rig.post("undo", {}, "c4")
    reply = rig.post("take", {}, "c5")
    wanted = rig.decider._writer._letting_go = Wanted([named], read.seq)
    rig.stream([1.0] * 3)
    assert rig.decider.busy and wanted.waits is not None  # a press comes first
    rig.stream([1.0] * 60)
    assert reply.done() and wanted.answered == [True]
    row = rig.ledger.last_of("SamplesLetGo")
    assert (row.data["count"], row.data["older_than_days"]) == (1, DAYS)
    assert rig.hub.snapshot(rig.machine).head == rig.ledger.head
    with pytest.raises(LetGo):
        rig.ledger.chunk(named)
    rig.decider.close("over")
    assert verify(tmp_path / "rig").ok
