"""The shop's key signs what people signed: after its commit, and what was left over at a start."""

import io
import stat
from contextlib import contextmanager

import pytest

from daq.audit.recompute import differences
from daq.ledger import Ledger, LedgerView, NotRecorded
from daq.ledger.attested import ATTESTED_TYPE, Attested, fingerprint, public_key, statement
from daq.ledger.backup import backup
from daq.ledger.commands import verify
from daq.service import attesting
from daq.service.attesting import Attester
from daq.service.committed import Committed
from daq.service.hub import Hub, Served
from daq.service.sealing import begin
from daq.service.shop_key import NAME, key, made_key
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import Draft, said
from tests.patience import until
from tests.service.years import ENGINE, grown
from tests.words import en, troubled

MILL = "mill"


@contextmanager
def started(folder, clock, told=None):
    """A service on a ledger of signed audits, its decider turned by hand."""
    ledger = Ledger.open(folder)
    begun = begin(ledger)
    attester = Attester(folder, ledger.uuid, begun.shop.attested)
    hub = Hub((Served(MILL, "Mill", "arm", 1000),), clock.mono_ns)
    followers = {"attester": attester.committed, "told": (told or [].append)}
    floor = Shopfloor(lambda machine: None, {})
    decider = wired(ledger, begun.shop, hub, clock, ENGINE, {}, floor, followers, attests=attester)
    attester.start()
    decider.ledger = ledger
    yield decider
    attester.stop()
    decider.close("over")  # and the ledger


def attested(folder):
    with LedgerView.open(folder) as view:
        return [event for event in view.events() if event.type == ATTESTED_TYPE]


def signed(folder):
    with LedgerView.open(folder) as view:
        return list(view.hashes_of("Signed"))


def turned(decider, folder, count):
    """The decider turned until so many rows are attested."""

    def look():
        decider.tick()
        return len(attested(folder)) == count

    until(look)


def checked(folder, *keys):
    out = io.StringIO()
    return verify(folder, out, en, keys=keys), out.getvalue()


@pytest.fixture
def folder(tmp_path, past):
    grown(tmp_path / "data", past, range(3))
    return tmp_path / "data"


def test_what_was_signed_before_the_key_was_there_is_attested_at_the_start(folder, clock):
    made = made_key(folder)
    with started(folder, clock) as decider:
        turned(decider, folder, 3)
        assert decider.shop.attested == signed(folder)[-1][0]
    assert [(e.data["row"], e.data["hash"]) for e in attested(folder)] == signed(folder)
    assert {(e.machine, e.audit, e.actor) for e in attested(folder)} == {("", "", "service")}
    code, told = checked(folder, made.public)
    assert (code, told.splitlines()[0]) == (
        0,
        f"signed audits: 3 of 3 signed by key {fingerprint(made.public)}",
    )
    with LedgerView.open(folder) as view:  # no attested row is taken for a decision
        last = signed(folder)[-1][0]
        assert all(each.seq <= last for each in differences(view.events(), view.chunk))
    with started(folder, clock) as decider:  # and only once
        for _ in range(5):
            decider.tick()
    assert len(attested(folder)) == 3


def test_a_new_signature_is_attested_after_its_own_commit(folder, clock):
    made_key(folder)
    commits = []
    with started(folder, clock, lambda what: commits.append([e.type for e in what.events])) as now:
        turned(now, folder, 3)
        last = now.ledger.event(signed(folder)[-1][0])
        row = Draft("Signed", 2, "", "", last.stamp, "test", {}, {})
        (event,) = now.ledger.append([row])  # the follower alone is asked here, not the fold
        now._attests.committed(Committed((event,), now.shop, now.shop, now.ledger.head))
        turned(now, folder, 4)
    assert attested(folder)[-1].data["row"] == event.seq
    assert commits[-1] == [ATTESTED_TYPE]


def test_many_are_attested_few_at_a_commit(folder, clock, monkeypatch):
    monkeypatch.setattr(attesting, "AT_ONCE", 2)
    monkeypatch.setattr(attesting, "READY", 2)
    made_key(folder)
    commits = []
    with started(folder, clock, lambda what: commits.append(len(what.events))) as decider:
        turned(decider, folder, 3)
    assert commits[-2:] == [2, 1]


def test_on_a_full_disk_it_waits_and_keeps_nothing_else_waiting(folder, clock, monkeypatch):
    made_key(folder)
    tried = []

    def full(drafts, *_):
        tried.extend(each.type for each in drafts)
        raise NotRecorded(said("disk-is-full"))

    with started(folder, clock) as decider:
        until(lambda: decider._attests.due(clock.stamp(), ENGINE))
        with monkeypatch.context() as patch:
            patch.setattr(decider.ledger, "append", full)
            for _ in range(20):
                decider.tick()
        assert (
            tried.count(ATTESTED_TYPE) == 3
        )  # once: not at every turn: a probe has to come through first
        clock.ns += 2_000_000_000
        turned(decider, folder, 3)


def test_without_a_key_nothing_is_signed_and_nothing_is_said(folder, clock):
    with started(folder, clock) as decider:
        decider.tick()
    code, told = checked(folder)
    assert (code, attested(folder), len(told.splitlines())) == (0, [], 1)
    code, told = checked(folder, "ab" * 32)
    assert code == 3
    assert "NOT SOUND: signed audits: 3 of 3 signed by no key, the first in row " in told


def test_a_key_that_others_can_read_is_logged_and_not_used(folder, clock, caplog):
    made_key(folder)
    (folder / NAME).chmod(0o644)
    with started(folder, clock) as decider:
        until(lambda: caplog.records)
        decider.tick()
    assert "key-open" in caplog.text
    assert attested(folder) == []


def changes(folder, made):
    """What a row may say that is no signature of that key, and what is said of it."""
    (row, head), ledger = signed(folder)[0], attested(folder)[0].ledger
    good = {"row": row, "hash": head, "key": made.public}
    good["signature"] = made.sign(statement(ledger, row, head))
    yield {**good, "signature": "00" * 64}, "is no signature of its key"
    yield {**good, "signature": made.sign(statement(ledger, row + 1, head))}, "is no signature"
    yield {**good, "key": "00" * 32}, "is no signature of its key"
    yield {**good, "row": row + 1}, "no signed audit stands there with that hash"
    yield {**good, "hash": "00" * 32}, "no signed audit stands there"
    yield {**good, "row": "1"}, "does not say of what"
    yield {**good, "key": "AB" * 32}, "does not say of what"
    yield {}, "does not say of what"


def test_a_wrong_signature_is_found_at_its_row(folder, clock):
    made = made_key(folder)
    with started(folder, clock) as decider:
        turned(decider, folder, 3)
    with LedgerView.open(folder) as view:
        rows = [
            (event, stored.hex())
            for event, (_, _, stored) in zip(view.events(), view.rows(), strict=True)
        ]
    for data, why in changes(folder, made):
        check = Attested()
        faults = [check.look(event, head) for event, head in rows]
        assert faults == [None] * len(rows)
        wrong = type(rows[-1][0])(
            **{f: getattr(rows[-1][0], f) for f in rows[-1][0].__slots__} | {"data": data}
        )
        assert why in en(check.look(wrong, ""))
    code, told = checked(folder, "ab" * 32)
    assert code == 3
    assert f"is signed by another key, {fingerprint(made.public)}" in told
    assert f"first bad row: {attested(folder)[0].seq}" in told


def test_the_key_is_made_once_for_its_owner_alone_and_is_in_no_copy(folder, tmp_path):
    made = made_key(folder)
    assert stat.S_IMODE((folder / NAME).stat().st_mode) == 0o600
    assert key(folder).public == made.public
    with troubled(Exception, match="is there already"):
        made_key(folder)
    backup(folder, tmp_path / "copy")
    assert [each.name for each in (tmp_path / "copy").iterdir()] == ["ledger.db"]
    (folder / NAME).chmod(0o640)
    with troubled(Exception, match="can be read by others"):
        key(folder)
    (folder / NAME).chmod(0o600)
    (folder / NAME).write_text("no key")
    with troubled(Exception, match="cannot be read"):
        key(folder)


def test_a_public_key_is_read_as_people_type_it():
    assert public_key(f" {'AB' * 16} {'cd' * 16}\n") == "ab" * 16 + "cd" * 16
    for wrong in ("", "ab", "xy" * 32):
        with pytest.raises(ValueError, match="allowed: a public key"):
            public_key(wrong)
