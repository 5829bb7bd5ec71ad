"""A commit that fails although its frames were written: what a restart finds of it."""

import subprocess

import apsw
import pytest

from daq.ledger import Ledger, NotKnown, NotRecorded
from daq.ledger.verify import verify
from tests.ledger.tap import tapped
from tests.words import troubled


def restarted(folder, tmp_path):
    """How many rows a start finds after kill -9 now; copied by another program: opening and
    closing the files here would drop the writer's locks."""
    copy = tmp_path / "after-the-kill"
    subprocess.run(["cp", "-r", folder, copy], check=True)
    with Ledger.open(copy) as ledger:
        return ledger.seq


@pytest.fixture
def tap():
    with tapped() as tap:
        yield tap


@pytest.fixture
def ledger(tap, folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
        yield ledger
        tap.disarm()


@pytest.mark.parametrize("chunk", [b"", b"window" * 50_000])
@pytest.mark.parametrize("error", [apsw.IOError, apsw.FullError])
def test_not_recorded_is_true_after_a_kill(ledger, tap, folder, draft, tmp_path, error, chunk):
    """The flush fails once: its frames are in the log, whole, with the mark of a commit."""
    tap.arm(1, for_ever=False, error=error, only="sync")
    with pytest.raises(NotRecorded) as raised:
        ledger.append([draft(1)], [chunk] if chunk else [])
    assert tap.struck and not isinstance(raised.value, NotKnown)
    assert restarted(folder, tmp_path) == 2
    assert ledger.append([draft(2)])[0].seq == 3
    assert verify(folder).rows == 3


@pytest.mark.parametrize("call", ["sync", "write"])
def test_where_nothing_can_be_written_over_it_nothing_is_promised(ledger, tap, draft, call):
    """The second call to the disk of that kind fails, and every later one."""
    tap.arm(1, for_ever=True, error=apsw.IOError, only=call)
    with pytest.raises(NotKnown):
        ledger.append([draft(1)])
    tap.disarm()
    assert ledger.append([draft(2)])[0].seq == 3


def test_a_probe_that_came_through_has_written_over_it(ledger, tap, folder, draft, tmp_path):
    tap.arm(1, for_ever=True, error=apsw.IOError, only="sync")
    with pytest.raises(NotKnown):
        ledger.append([draft(1)])
    tap.disarm()
    ledger.probe()
    assert restarted(folder, tmp_path) == 2


def test_what_never_came_to_a_commit_is_surely_not_recorded(ledger, draft, folder):
    for path in folder.glob("ledger.db*"):
        path.unlink()
    with troubled(NotRecorded, match="is gone") as raised:
        ledger.append([draft(1)])
    assert not isinstance(raised.value, NotKnown)


def test_of_a_file_that_goes_while_it_is_written_nothing_is_promised(ledger, folder, draft):
    aside = folder / "aside"

    def gone(*_):
        (folder / "ledger.db").rename(aside)
        return 0

    ledger._connection.set_wal_hook(gone)  # called right after the commit
    with troubled(NotKnown, match="is gone"):
        ledger.append([draft(1)])
    aside.rename(folder / "ledger.db")
