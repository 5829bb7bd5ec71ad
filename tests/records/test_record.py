"""An audit as it is read from the record, held against the ledger's own rows."""

import shutil

import apsw
import pytest

from daq.ledger import Ledger
from daq.ledger.errors import LedgerError
from daq.ledger.reads import DB_NAME
from daq.ledger.view import LedgerView
from daq.records.read import read
from tests.ledger.conftest import raw_hand
from tests.ledger.test_let_go import says
from tests.words import en


def test_an_audit_is_all_of_its_rows_and_no_other(data, ids):
    for audit in ids:
        found = read(data, audit)
        with LedgerView.open(data) as view:
            rows = [(event, view.hash_of(event.seq)) for event in view.events(audit=audit)]
        assert [(row.event, row.kept.hash) for row in found.rows] == rows
        assert found.sound and found.signed is not None and found.opened.short.startswith("A-")
        assert found.job.id == audit and found.last.hash == rows[-1][1]


def test_every_reading_is_there_with_its_sweep(data, ids):
    found = read(data, ids[0])
    rows = [row.event for row in found.rows if "reading" in row.event.data]
    kept = [taken for taken in found.readings if not taken.second]
    assert [each.row.seq for each in kept] == [event.seq for event in rows]
    assert [each.reading.mean_mm for each in kept] == [e.data["reading"]["mean_mm"] for e in rows]
    for _, sweep in found.sweeps:
        mine = [each for each in kept if each.sweep == sweep.number and each.row.voided_by is None]
        assert {each.reading.position for each in mine} >= {p.position for p in sweep.points}


def test_what_was_taken_back_is_there_with_the_row_that_took_it(data, ids):
    rows = [row for audit in ids for row in read(data, audit).rows]
    voiding = {seq: row.seq for row in rows for seq in getattr(row.data, "voids", ())}
    assert {row.seq: row.voided_by for row in rows if row.voided_by} == voiding


def test_a_row_or_evidence_that_was_altered_is_not_called_sound(data, ids, tmp_path):
    for sql in (
        "UPDATE events SET body = replace(body, '\"mean_mm\":', '\"mean_mm\":1') WHERE seq = 20",
        "UPDATE chunks SET bytes = CAST('x' AS BLOB) WHERE rowid = (SELECT min(rowid) FROM chunks)",
    ):
        folder = tmp_path / str(len(sql))
        shutil.copytree(data, folder)
        connection = apsw.Connection(str(folder / DB_NAME))
        for trigger in ("events_never_updated", "chunks_never_updated"):
            connection.execute(f"DROP TRIGGER {trigger}")
        connection.execute(sql)
        connection.close()
        assert not all(read(folder, audit).sound for audit in ids)


def test_an_audit_that_is_not_there_is_said_in_words(data):
    with pytest.raises(LedgerError) as none:
        read(data, "7cacbc0c-0000")
    assert en(none.value.said).endswith("ledger.db: it has no audit 7cacbc0c-0000")


def test_what_was_let_go_is_sound_and_said_by_its_row(data, ids, tmp_path):
    folder = tmp_path / "copy"
    shutil.copytree(data, folder)
    with Ledger.open(folder) as ledger:
        named = [e.evidence[0] for e in ledger.events(audit=ids[0]) if e.evidence]
        gone = list(dict.fromkeys(named))[:5]
        row = ledger.let_go(says(gone, up_to=ledger.seq), gone).seq
    found = read(folder, ids[0])
    assert found.sound
    for each in found.rows:
        assert each.kept.let_go == (row if set(each.event.evidence) & set(gone) else None)
    with raw_hand(folder) as connection:
        connection.execute("DELETE FROM chunks WHERE digest = ?", (bytes.fromhex(gone[0]),))
    assert not read(folder, ids[0]).sound
