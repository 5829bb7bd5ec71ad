"""A start that goes on from the seal, and the thread that writes it."""

import threading
from dataclasses import replace

import pytest

from daq.audit.apply import fold
from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger import reads as reads_room
from daq.ledger.seal import SEAL_NAME, read_seal, write_seal
from daq.service import sealing
from daq.service.committed import Committed
from daq.service.sealing import EVERY_ROWS, Begun, Sealer, begin
from tests.ledger.conftest import raw_hand
from tests.patience import until
from tests.service.years import ENGINE, grown, seal_now
from tests.words import troubled


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


def started(folder):
    """What a start makes of it, and what every row comes to."""
    with Ledger.open(folder, engine=ENGINE) as ledger:
        return begin(ledger), fold(ledger.events())


def test_a_ledger_without_a_seal_is_read_from_its_first_row(folder, past):
    grown(folder, past, range(2))
    begun, whole = started(folder)
    assert begun == Begun(whole)


def test_a_start_from_the_seal_comes_to_the_same_as_every_row(folder, past, unfinished):
    grown(folder, past, range(3), unfinished)
    seal_now(folder)
    begun, whole = started(folder)
    assert begun.shop == whole
    assert begun.at == 1 + 3 * len(past.events) + len(unfinished.events)
    assert begun.shop.machine("mill").job is not None
    assert begun.sealed.open.keys() == {"mill"}


def test_a_seal_older_than_the_last_row_is_gone_on_from(folder, past, unfinished):
    grown(folder, past, range(3))
    seal_now(folder)
    grown(folder, past, range(3, 5), unfinished)
    begun, whole = started(folder)
    assert (begun.shop, begun.at) == (whole, 1 + 3 * len(past.events))


def test_a_seal_newer_than_the_last_row_is_not_used(folder, past, tmp_path, caplog):
    """An older copy of the ledger put back beside it."""
    grown(folder, past, range(2))
    with LedgerView.open(folder) as view:
        view.copy_to(tmp_path / "older.db")
    grown(folder, past, range(2, 4))
    seal_now(folder)
    for name in ("ledger.db-wal", "ledger.db-shm"):
        (folder / name).unlink(missing_ok=True)
    (tmp_path / "older.db").replace(folder / "ledger.db")
    caplog.set_level("INFO")
    begun, whole = started(folder)
    assert begun == Begun(whole)
    assert "which the ledger does not have" in caplog.text


@pytest.mark.parametrize("text", ["{}", '{"open":{},"shop":{}}'])
def test_a_state_that_does_not_fit_the_rows_is_not_used(folder, past, unfinished, caplog, text):
    """The digest is right, the state is not: rows that do not follow from it are noticed."""
    grown(folder, past, range(1))
    grown(folder, past, [], unfinished)
    with Ledger.open(folder, engine=ENGINE) as ledger:
        row = next(e for e in ledger.events() if e.seq == ledger.seq - 2)
        head = ledger.hash_of(row.seq)
        sealer = Sealer(folder, ledger, ENGINE, begin(ledger))
        sealer.start()
        sealer.stop()
    write_seal(folder, replace(read_seal(folder, ENGINE), seq=row.seq, head=head, text=text))
    begun, whole = started(folder)
    assert begun == Begun(whole)
    assert f"{SEAL_NAME} is not used" in caplog.text


def test_an_altered_row_of_an_open_audit_is_not_folded(folder, past, unfinished):
    """It does not follow from what was sealed: then all is looked at before it is gone by."""
    grown(folder, past, range(1), unfinished)
    seal_now(folder)
    with raw_hand(folder) as connection:
        row = len(past.events) + 2
        connection.execute(
            "UPDATE events SET body = replace(body, '\"short\"', '\"shirt\"') WHERE seq = ?", (row,)
        )
    with (
        Ledger.open(folder, engine=ENGINE) as ledger,
        troubled(LedgerError, match=f"row {row} is altered"),
    ):
        begin(ledger)


def test_a_row_of_another_release_is_refused_and_named(folder, past):
    grown(folder, past, range(1))
    drafts, _ = past.again(1)
    with Ledger.open(folder) as ledger:
        ledger.append([replace(drafts[0], v=99)])
        found = f"ledger.db: ledger row {ledger.seq}: found AuditOpened of version 99, which"
        with troubled(LedgerError, match=found):
            begin(ledger)


def test_a_row_without_a_field_is_refused_in_words(folder, past):
    grown(folder, past, range(1))
    drafts, _ = past.again(1)
    without = {key: value for key, value in drafts[0].data.items() if key != "short"}
    with Ledger.open(folder) as ledger:
        ledger.append([replace(drafts[0], data=without)])
        found = f"ledger.db: ledger row {ledger.seq}: short: missing; allowed"
        with troubled(LedgerError, match=found):
            begin(ledger)


def test_a_start_reads_the_same_rows_however_long_the_ledger(folder, past, unfinished, monkeypatch):
    read = []
    asked = reads_room.Reads._rows

    def counted(self, sql, values):
        found = asked(self, sql, values)
        read.append(len(found))
        return found

    monkeypatch.setattr(reads_room.Reads, "_rows", counted)
    work = []
    for audits in (6, 40):
        data = folder / str(audits)
        grown(data, past, range(audits))
        seal_now(data)
        grown(data, past, [], unfinished)
        read.clear()
        with Ledger.open(data, engine=ENGINE) as ledger:
            assert begin(ledger).at == ledger.seq - len(unfinished.events)
        work.append(sum(read))
    assert work[0] == work[1]
    assert work[0] < reads_room.PAGE_ROWS + 5 * len(unfinished.events)


class Running:
    """A sealer at work on a ledger, as the deciding thread drives it."""

    def __init__(self, folder, past):
        self.folder, self.past = folder, past
        grown(folder, past, range(1))
        self.ledger = Ledger.open(folder, engine=ENGINE)
        begun = begin(self.ledger)
        self.shop = begun.shop
        self.sealer = Sealer(folder, self.ledger, ENGINE, begun)
        self.sealer.start()

    def commit(self, drafts, chunks=()):
        events = self.ledger.append(drafts, chunks)
        before, self.shop = self.shop, fold(events, self.shop)
        self.sealer.committed(Committed(events, before, self.shop, self.ledger.head))

    def sealed_at(self):
        return read_seal(self.folder, ENGINE).seq

    def close(self):
        self.sealer.stop()
        self.ledger.close()


@pytest.fixture
def running(folder, past):
    made = Running(folder, past)
    yield made
    made.close()


def test_a_ledger_read_from_its_first_row_is_sealed_at_once(running):
    until((running.folder / SEAL_NAME).exists)
    assert running.sealed_at() == running.ledger.seq


def test_it_is_sealed_when_an_audit_is_closed_and_at_the_end(running, past):
    first = running.ledger.seq
    until((running.folder / SEAL_NAME).exists)
    drafts, chunks = past.again(1)
    running.commit(drafts[:-1], chunks)
    running.commit(drafts[-1:])
    until(lambda: running.sealed_at() == first + len(drafts))
    drafts, chunks = past.again(2)
    running.commit(drafts[:5], chunks)
    assert running.sealed_at() == first + len(past.events)
    running.sealer.stop()
    assert running.sealed_at() == first + len(past.events) + 5


def test_it_is_sealed_every_so_many_rows_of_one_audit(running, past):
    drafts, chunks = past.again(1)
    at = next(i for i, each in enumerate(drafts) if each.type == "FreeRead")
    running.commit(drafts[:at], chunks)
    first = running.ledger.seq
    for _ in range(EVERY_ROWS // 50 + 1):
        running.commit([drafts[at]] * 50)
    until(lambda: running.sealed_at() > first)


def test_who_decides_does_not_wait_for_the_disk(running, past, monkeypatch):
    """A write that stands still holds up neither the next commit nor, for long, the end."""
    until((running.folder / SEAL_NAME).exists)
    held, go_on = threading.Event(), threading.Event()

    def stands_still(*_):
        held.set()
        go_on.wait()

    monkeypatch.setattr(sealing, "write_seal", stands_still)
    monkeypatch.setattr(sealing, "STOPS_S", 0.0)
    for n in (1, 2):
        running.commit(*past.again(n))
    held.wait()
    running.sealer.stop()
    go_on.set()


def test_a_disk_that_takes_no_seal_is_no_fault_of_the_record(running, past, monkeypatch, caplog):
    until((running.folder / SEAL_NAME).exists)

    def full(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(sealing, "write_seal", full)
        running.commit(*past.again(1))
        until(lambda: "is not written" in caplog.text)
    running.commit(*past.again(2))
    until(lambda: running.sealed_at() == running.ledger.seq)


def test_a_void_seal_is_taken_away_and_none_follows(running, past):
    until((running.folder / SEAL_NAME).exists)
    running.sealer.void()
    until(lambda: not (running.folder / SEAL_NAME).exists())
    running.commit(*past.again(1))
    running.sealer.stop()
    assert not (running.folder / SEAL_NAME).exists()
