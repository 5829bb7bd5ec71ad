"""The ledger's files removed, moved or replaced under the writer that has them open."""

import shutil

import pytest

from daq.ledger import Ledger, LedgerView, NotRecorded
from daq.ledger.backup import backup
from daq.ledger.verify import verify
from tests.words import troubled

DB, LOG, SHARED = "ledger.db", "ledger.db-wal", "ledger.db-shm"


def remove(folder, name):
    (folder / name).unlink()


def move(folder, name):
    (folder / name).rename(folder.parent / name)


def replace(folder, name):
    """By a copy of it, as putting an older one back does."""
    shutil.copy(folder / name, folder / "older")
    (folder / "older").rename(folder / name)


@pytest.fixture
def ledger(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
        yield ledger


@pytest.mark.parametrize("name", [DB, LOG, SHARED])
@pytest.mark.parametrize(
    ("change", "say"), [(remove, "is gone"), (move, "is gone"), (replace, "no longer the one")]
)
def test_nothing_more_is_recorded_and_the_file_is_named(ledger, folder, draft, name, change, say):
    before = (ledger.seq, ledger.head)
    change(folder, name)
    for attempt in (lambda: ledger.append([draft(1)]), ledger.probe, ledger.require_in_place):
        with troubled(NotRecorded, match=rf"{name}: the file .*{say}"):
            attempt()
    assert (ledger.seq, ledger.head) == before


def test_the_whole_folder_moved_away(ledger, folder, draft):
    folder.rename(folder.with_name("elsewhere"))
    with troubled(NotRecorded, match="is gone"):
        ledger.append([draft(1)])
    folder.with_name("elsewhere").rename(folder)


def test_what_was_moved_away_and_put_back_goes_on(ledger, folder, draft):
    for name in (DB, LOG, SHARED):
        move(folder, name)
    with pytest.raises(NotRecorded):
        ledger.append([draft(1)])
    for name in (DB, LOG, SHARED):
        (folder.parent / name).rename(folder / name)
    assert ledger.append([draft(1)])[0].seq == 3
    assert verify(folder).rows == 3


def test_a_file_that_goes_while_it_is_written_is_not_answered_for(ledger, folder, draft):
    def gone(*_):
        remove(folder, DB)
        return 0

    ledger._connection.set_wal_hook(gone)  # called right after the commit
    with troubled(NotRecorded, match="is gone"):
        ledger.append([draft(1)])
    assert ledger.seq == 2


def test_checkpoints_copies_and_lookers_on_raise_no_alarm(ledger, folder, draft, child, tmp_path):
    look = "import sys; from pathlib import Path; from daq.ledger.verify import verify\n"
    look += "print(verify(Path(sys.argv[1])).ok)"
    for n in range(4):
        chunk = bytes([n]) * 5_000_000  # more than a thousand pages: checkpointed by itself
        ledger.append([draft(n)], [chunk])
        backup(folder, tmp_path / f"copy-{n}")
        with LedgerView.open(folder) as view:
            assert view.last()[0] == ledger.seq
        assert child(look, str(folder)).communicate()[0] == "True\n"
        ledger._connection.pragma("wal_checkpoint(TRUNCATE)")
        ledger.require_in_place()
        ledger.append([draft(n)])
        ledger.probe()
    assert ledger.seq == 10
