"""The record, its seal and its copies."""

import json
from datetime import UTC, datetime

import pytest

from daq import __version__
from daq.doctor.looks import ledger as of_ledger
from daq.doctor.patient import AtWork
from daq.ledger import Ledger, LedgerView
from daq.ledger.seal import Seal, write_seal
from tests.doctor.conftest import NOW_US, told
from tests.ledger.conftest import make_draft, raw_hand

DAY_US = 86_400_000_000


def test_a_sound_record_says_since_when_also_while_it_is_written(made, look):
    made.record(20)
    with Ledger.open(made.data, stamp=made.clock.stamp()) as ledger:
        (found,) = look("ledger")
        assert found.fine and found.found.code == "doctor-rows-whole"
        assert (found.found.of["rows"], found.found.of["since"]) == (20, "2026-09-21")
        ledger.append([make_draft(20)], [])


def test_an_altered_row_is_named(made, look):
    made.record(20)
    with raw_hand(made.data) as hand:
        hand.execute("UPDATE events SET body = replace(body, 'mill', 'mall') WHERE seq = 6")
    (found,) = look("ledger")
    assert not found.fine and "row-is-altered" in str(found.found)
    assert found.todo.of == {"data": str(made.data)}


def test_a_long_one_is_looked_at_for_a_while_and_says_how_long_all_of_it_takes(
    made, look, monkeypatch
):
    made.record(20)
    monkeypatch.setattr(of_ledger, "WITHIN_S", 0.0)
    (found,) = look("ledger")
    assert found.fine and found.found.code == "doctor-rows-seen"
    assert (found.found.of["seen"], found.found.of["rows"], found.found.of["minutes"]) == (1, 20, 1)


def test_beside_a_service_only_the_latest_rows_are_looked_at(made, look, monkeypatch):
    made.record(20)
    monkeypatch.setattr(of_ledger, "LATEST", 5)
    (found,) = look("ledger", running=AtWork())
    assert (found.found.code, found.found.of["seen"]) == ("doctor-rows-seen", 5)


def test_a_seal_says_how_far_a_start_is_spared_reading(made, look, monkeypatch):
    made.record(20)
    monkeypatch.setattr(of_ledger, "EVERY_ROWS", 10)
    assert told(look("ledger"))[1:] == [(True, "doctor-no-seal")]
    with LedgerView.open(made.data) as view:
        seal = Seal(view.name(), 15, view.hash_of(15), __version__, "{}")
    write_seal(made.data, seal)
    _, found = look("ledger")
    assert (found.found.code, found.found.of["row"]) == ("doctor-sealed", 15)


def test_no_record_yet_is_fine_and_no_folder_is_not(made, look):
    assert told(look("ledger")) == [(True, "doctor-no-record")]
    made.data.rmdir()
    assert told(look("ledger")) == [(False, "doctor-no-folder")]


def test_what_is_no_ledger_is_said(made, look):
    (made.data / "ledger.db").write_bytes(b"no such thing" * 100)
    (found,) = look("ledger")
    assert not found.fine


def copied(made, days, rows):
    moment = datetime.fromtimestamp((NOW_US - days * DAY_US) / 1e6, UTC)
    last = {"utc": moment.strftime("%Y-%m-%dT%H:%M:%SZ"), "to": "/media/drive", "rows": rows}
    (made.data / "backup.json").write_text(json.dumps(last), encoding="utf-8")


@pytest.mark.parametrize(
    ("days", "rows", "fine"), [(0, 20, True), (14, 5, True), (15, 19, False), (400, 20, True)]
)
def test_an_old_copy_is_one_that_lacks_rows(made, look, days, rows, fine):
    made.record(20)
    copied(made, days, rows)
    (found,) = look("backup")
    assert (found.fine, found.found.of["days"]) == (fine, days)
    assert (found.found.of["to"], found.found.of["new"]) == ("/media/drive", 20 - rows)


def test_a_record_that_was_never_copied_is_to_be(made, look):
    assert told(look("backup")) == [(True, "doctor-nothing-to-copy")]
    made.record(2)
    assert told(look("backup")) == [(False, "doctor-no-backup")]
