import threading

from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.backup import backup
from daq.ledger.verify import verify
from tests.words import troubled


def test_copies_made_during_writes_are_sound(folder, draft, tmp_path):
    stop = threading.Event()

    def write():
        with Ledger.open(folder) as ledger:
            while not stop.is_set():
                ledger.append([draft(ledger.seq)], [str(ledger.seq).encode() * 900])

    Ledger.open(folder).close()
    thread = threading.Thread(target=write)
    thread.start()
    try:
        rows = [backup(folder, tmp_path / f"copy-{n}").rows for n in range(25)]
    finally:
        stop.set()
        thread.join()
    assert rows == sorted(rows)
    assert rows[-1] > rows[0]
    for n, count in enumerate(rows):
        assert verify(tmp_path / f"copy-{n}").rows == count
    with Ledger.open(tmp_path / "copy-24") as copy, LedgerView.open(folder) as view:
        assert copy.append([draft(1)])[0].seq == rows[-1] + 1
        assert next(copy.events()) == next(view.events())


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
