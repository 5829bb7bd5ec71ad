import os
import random
import shutil
import signal

import apsw
import pytest

from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.lock import FolderLock
from daq.ledger.opening import CHECKED_ROWS
from daq.ledger.verify import verify
from tests.words import en, troubled

KILLED_BEFORE_COMMIT = """
import os, signal, sys
from pathlib import Path
from daq.ledger import Ledger, opening
opening.link = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
Ledger.open(Path(sys.argv[1]))
"""


def bytes_of(folder):
    """The database and its log, byte for byte, while no connection is open."""
    files = (folder / "ledger.db", folder / "ledger.db-wal")
    return {file.name: file.read_bytes() for file in files if file.exists() and file.stat().st_size}


def write(folder, name, data):
    folder.mkdir(exist_ok=True)
    (folder / name).write_bytes(data)


def refused(folder, match):
    """Opening must fail with words that match, name the file, and leave it as it was."""
    before = bytes_of(folder)
    with troubled(LedgerError, match=match) as caught:
        Ledger.open(folder)
    assert "ledger.db" in str(caught.value)
    assert bytes_of(folder) == before
    FolderLock(folder).release()


def test_an_old_database_library_is_refused(folder, monkeypatch):
    monkeypatch.setattr(apsw, "sqlite_lib_version", lambda: "3.51.2")
    with troubled(LedgerError, match=r"SQLite 3\.51\.2 .*allowed: 3\.51\.3 or newer"):
        Ledger.open(folder)
    with troubled(LedgerError, match=r"3\.51\.3"):
        LedgerView.open(folder)
    assert not folder.exists()
    monkeypatch.setattr(apsw, "sqlite_lib_version", lambda: "4.0.0")
    Ledger.open(folder).close()


def test_commits_are_set_to_outlive_a_power_cut(folder):
    with Ledger.open(folder) as ledger:
        assert ledger._connection.pragma("journal_mode") == "wal"
        assert ledger._connection.pragma("synchronous") == 2


def test_a_file_system_without_shared_memory_is_refused(folder):
    class NoSharedMemory(apsw.VFS):
        def __init__(self):
            super().__init__("no-shared-memory", "unix-dotfile", makedefault=True)

    shim = NoSharedMemory()
    try:
        with troubled(LedgerError, match=r"found journal mode delete.*allowed: wal"):
            Ledger.open(folder)
    finally:
        shim.unregister()


def test_killed_while_the_first_row_was_written(folder, child):
    process = child(KILLED_BEFORE_COMMIT, str(folder))
    process.communicate()
    assert process.returncode == -signal.SIGKILL
    assert (folder / "ledger.db").exists()
    with Ledger.open(folder) as ledger:
        assert ledger.seq == 1
    assert verify(folder).ok


def test_an_empty_file_is_a_ledger_not_yet_begun(folder):
    write(folder, "ledger.db", b"")
    with Ledger.open(folder) as ledger:
        assert ledger.seq == 1


def test_a_half_written_name_in_the_lock_file_is_no_name(folder):
    write(folder, "ledger.lock", b"7b0c")
    with Ledger.open(folder) as ledger:
        uuid = ledger.uuid
    assert (folder / "ledger.lock").read_text() == uuid


@pytest.mark.parametrize("gone", [True, False])
def test_a_ledger_that_vanished_is_not_begun_anew(folder, filled, gone):
    filled(folder, 3)
    (folder / "ledger.db").unlink()
    if not gone:
        write(folder, "ledger.db", b"")
    with troubled(LedgerError, match=r"empty or gone, but ledger .* was begun"):
        Ledger.open(folder)


@pytest.mark.parametrize("left", [0, 1])
def test_an_emptied_file_beside_a_full_log_keeps_the_log(folder, draft, tmp_path, left):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
        copy = tmp_path / "copy"
        copy.mkdir()
        shutil.copy(folder / "ledger.db-wal", copy)
    write(copy, "ledger.db", bytes(left))
    before = bytes_of(copy)
    with troubled(LedgerError, match="still holds rows"):
        LedgerView.open(copy)
    assert bytes_of(copy) == before  # its log still with it
    refused(copy, "still holds rows")


def test_another_ledger_in_the_folder_is_refused(folder, filled, tmp_path):
    filled(folder, 3)
    filled(tmp_path / "other", 3)
    shutil.copy(tmp_path / "other" / "ledger.db", folder / "ledger.db")
    refused(folder, r"this is ledger .*, but ledger .* was begun")


def test_other_files_are_refused_untouched(folder, tmp_path):
    write(folder, "ledger.db", b"not a database at all" * 100)
    refused(folder, "damaged or is no ledger")
    with troubled(LedgerError, match="damaged or is no ledger"):
        LedgerView.open(folder)
    other = tmp_path / "other"
    other.mkdir()
    connection = apsw.Connection(str(other / "ledger.db"))
    connection.execute("CREATE TABLE notes (text)")
    connection.close()
    refused(other, "not a ledger")
    with troubled(LedgerError, match="not a ledger"):
        LedgerView.open(other)


def test_a_newer_format_is_refused(folder, filled):
    filled(folder, 1)
    connection = apsw.Connection(str(folder / "ledger.db"))
    connection.execute("PRAGMA user_version = 4")
    connection.close()
    refused(folder, "has format 4; this headsweep reads format 3")


def test_pages_without_tables_are_damage(folder):
    folder.mkdir()
    connection = apsw.Connection(str(folder / "ledger.db"))
    connection.execute("CREATE TABLE t (x); INSERT INTO t VALUES (zeroblob(9000)); DROP TABLE t")
    connection.close()
    refused(folder, "it has pages, but no tables")


@pytest.mark.parametrize(
    ("sql", "match"),
    [
        ("DROP TRIGGER events_never_updated", "events_never_updated is missing or altered"),
        ("DROP INDEX events_by_audit", "events_by_audit is missing or altered"),
        ("CREATE TABLE more (x)", "more is not part of a ledger"),
    ],
)
def test_another_schema_is_refused(folder, filled, sql, match):
    filled(folder, 2)
    connection = apsw.Connection(str(folder / "ledger.db"))
    connection.execute(sql)
    connection.close()
    refused(folder, match)
    assert match in en(verify(folder).say)


def test_places_that_cannot_be_written_are_refused(tmp_path, folder):
    (tmp_path / "file").write_text("")
    with troubled(LedgerError, match="cannot be opened for writing"):
        Ledger.open(tmp_path / "file" / "data")
    (folder / "ledger.db").mkdir(parents=True)
    with troubled(LedgerError, match=r"ledger\.db: the file cannot be opened"):
        Ledger.open(folder)
    with troubled(LedgerError, match=r"ledger\.db: "):
        LedgerView.open(folder)


def test_a_view_of_nothing_is_refused(folder):
    with troubled(LedgerError, match="there is no ledger here"):
        LedgerView.open(folder)


def crashed(folder, filled, draft, copy):
    """A copy as a kill leaves it: part of the rows in the file, part in the log."""
    filled(folder, 40)
    with Ledger.open(folder) as ledger:
        for n in range(5):
            ledger.append([draft(n)])
        copy.mkdir()
        for name in ("ledger.db", "ledger.db-wal"):
            shutil.copy(folder / name, copy)


def test_what_a_kill_left_opens_with_every_row(folder, filled, draft, tmp_path):
    crashed(folder, filled, draft, tmp_path / "copy")
    with Ledger.open(tmp_path / "copy") as ledger:
        assert ledger.seq == 46
    assert verify(tmp_path / "copy").rows == 46


def test_damage_to_any_page_is_found_before_the_next_append(folder, filled, tmp_path):
    filled(folder, 60)
    whole = (folder / "ledger.db").read_bytes()
    assert len(whole) >= 10 * 4096
    for page in range(len(whole) // 4096):
        copy = tmp_path / f"page-{page}"
        at = page * 4096
        write(copy, "ledger.db", whole[:at] + b"\xa5" * 4096 + whole[at + 4096 :])
        refused(copy, ".")


def test_a_flipped_bit_is_found_or_changes_nothing(folder, filled, tmp_path):
    heads = filled(folder, 60)
    whole = (folder / "ledger.db").read_bytes()
    chance = random.Random(7)
    found = 0
    for n in range(150):
        copy = tmp_path / f"flip-{n}"
        flipped = bytearray(whole)
        flipped[chance.randrange(len(whole))] ^= 1 << chance.randrange(8)
        write(copy, "ledger.db", bytes(flipped))
        try:
            with Ledger.open(copy) as ledger:
                assert tuple(stored.hex() for _, _, stored in ledger.rows()) == heads
        except LedgerError:
            found += 1
            assert (copy / "ledger.db").read_bytes() == bytes(flipped)
    assert found > 50


def test_damage_in_the_log_of_a_killed_writer_is_refused_untouched(
    folder, filled, draft, tmp_path, hand
):
    crashed(folder, filled, draft, tmp_path / "copy")
    connection = apsw.Connection(str(tmp_path / "copy" / "ledger.db"))
    connection.config(apsw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1)
    trigger = connection.execute(
        "SELECT sql FROM sqlite_schema WHERE name = 'events_never_updated'"
    ).fetchall()[0][0]
    connection.execute("DROP TRIGGER events_never_updated")
    connection.execute("UPDATE events SET body = replace(body, '1.2', '1.3') WHERE seq = 44")
    connection.execute(trigger)
    connection.close()
    assert (tmp_path / "copy" / "ledger.db-wal").stat().st_size > 0
    refused(tmp_path / "copy", "row 44 is altered")


def test_opening_checks_the_last_rows_and_the_rest_is_for_verify(folder, draft, hand):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(n) for n in range(CHECKED_ROWS + 50)])
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'till') WHERE seq = 30")
    Ledger.open(folder).close()
    assert verify(folder).first_bad_seq == 30
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'till') WHERE seq = 60")
    refused(folder, "row 60 is altered")


def test_the_lock_survives_nobody(folder):
    lock = FolderLock(folder)
    assert lock.ledger == ""
    assert os.get_inheritable(lock._fd) is False
    lock.release()
    FolderLock(folder).release()
