import shutil
import threading

import pytest

from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.backup import backup
from daq.ledger.verify import verify
from tests.words import troubled

ROWS_A_COPY = 20


@pytest.mark.parametrize(
    "copies", [25, pytest.param(500, marks=[pytest.mark.long, pytest.mark.timeout(3600)])]
)
def test_copies_made_during_writes_are_sound(folder, draft, tmp_path, copies):
    rows, wanted, stop = [], threading.Semaphore(0), threading.Event()

    def write():
        with Ledger.open(folder) as ledger:
            while wanted.acquire() and not stop.is_set():
                ledger.append([draft(ledger.seq)], [str(ledger.seq).encode() * 900])

    Ledger.open(folder).close()
    thread = threading.Thread(target=write)
    thread.start()
    try:
        for n in range(copies):
            wanted.release(ROWS_A_COPY)
            copy = tmp_path / f"copy-{n}"
            rows.append(backup(folder, copy).rows)
            assert verify(copy).rows == rows[-1]
            if n < copies - 1:
                shutil.rmtree(copy)
    finally:
        stop.set()
        wanted.release()
        thread.join()
    assert rows == sorted(rows)
    assert rows[-1] > rows[0]
    with Ledger.open(copy) as restored, LedgerView.open(folder) as view:
        assert restored.append([draft(1)])[0].seq == rows[-1] + 1
        assert next(restored.events()) == next(view.events())


def test_a_copy_never_overwrites(folder, filled, tmp_path):
    filled(folder, 2)
    (tmp_path / "copy").mkdir()
    with troubled(LedgerError, match="exists already; allowed: a new folder"):
        backup(folder, tmp_path / "copy")


def test_an_unsound_ledger_gives_no_copy(folder, filled, hand, tmp_path):
    filled(folder, 5)
    with hand(folder) as connection:
        connection.execute("DELETE FROM events WHERE seq = 3")
    with troubled(LedgerError, match=r"copy is not sound: .*row 3 is missing"):
        backup(folder, tmp_path / "copy")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["data"]


def test_a_place_that_cannot_be_written_is_said(folder, filled, tmp_path):
    filled(folder, 1)
    (tmp_path / "file").write_text("")
    with troubled(LedgerError, match="cannot be written"):
        backup(folder, tmp_path / "file" / "copy")
    opened = troubled(LedgerError, match="file cannot be opened")
    with LedgerView.open(folder) as view, opened:
        view.copy_to(tmp_path / "nothing" / "copy.db")
    with troubled(LedgerError, match="there is no ledger here"):
        backup(tmp_path / "nothing", tmp_path / "copy")
    assert not (tmp_path / "copy").exists()
