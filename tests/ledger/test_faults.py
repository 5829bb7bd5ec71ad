"""Every call to the disk fails in turn: once, and for ever."""

from pathlib import Path

import apsw
import pytest

from daq.ledger import Ledger, LedgerError, LedgerView, NotRecorded, digest_of
from daq.ledger.backup import backup
from daq.ledger.verify import verify
from tests.ledger.tap import Tap, tapped
from tests.words import en


def live(folder: Path, tap: Tap, draft) -> list[str]:
    """Open, append, append once more when the disk is well again; gives the answered heads."""
    heads = []
    try:
        ledger = Ledger.open(folder)
    except LedgerError:
        return []
    chunk = b"window" * 2000
    for n in range(3):
        try:
            ledger.append([draft(n, evidence=(digest_of(chunk),)), draft(n)], [chunk])
            heads.append(ledger.head)
        except NotRecorded as error:
            assert "ledger.db" in en(error)
    tap.disarm()
    ledger.append([draft(9)])
    heads.append(ledger.head)
    ledger.close()
    return heads


@pytest.mark.parametrize("error", [apsw.IOError, apsw.FullError])
@pytest.mark.parametrize("for_ever", [False, True])
@pytest.mark.parametrize("begun", [False, True])
def test_whatever_call_fails_nothing_answered_is_lost(
    tmp_path, draft, filled, begun, for_ever, error
):
    nth, struck = 0, True
    while struck:
        nth += 1
        folder = tmp_path / f"call-{nth}"
        before = filled(folder, 5)[-1:] if begun else ()
        with tapped() as tap:
            tap.arm(nth, for_ever=for_ever, error=error)
            heads = [*before, *live(folder, tap, draft)]
            struck = tap.struck
        Ledger.open(folder).close()
        assert verify(folder).ok
        with LedgerView.open(folder) as view:
            assert set(heads) <= {stored.hex() for _, _, stored in view.rows()}
    assert nth > 30


@pytest.mark.parametrize("for_ever", [False, True])
def test_whatever_call_fails_while_closing_nothing_is_lost(tmp_path, draft, for_ever):
    nth, struck = 0, True
    while struck:
        nth += 1
        folder = tmp_path / f"call-{nth}"
        with tapped() as tap:
            ledger = Ledger.open(folder)
            ledger.append([draft(0)])
            tap.arm(nth, for_ever=for_ever, error=apsw.IOError)
            try:
                ledger.close()
            except apsw.IOError:
                assert tap.struck
            struck = tap.struck
        with Ledger.open(folder) as again:
            assert (again.seq, again.head) == (2, ledger.head)
        assert verify(folder).ok
    assert nth > 8


def test_a_commit_is_one_flush_and_touches_the_log_alone(folder, draft):
    with tapped() as tap, Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
        for n in range(1, 20):
            tap.calls.clear()
            ledger.append([draft(n), draft(n)], [bytes([n]) * 9000])
            assert [call for call, _ in tap.calls].count("sync") == 1
            assert {name for _, name in tap.calls} == {"ledger.db-wal"}
            assert tap.calls[-1] == ("sync", "ledger.db-wal")


def test_a_copy_is_flushed_before_it_is_named(folder, filled, tmp_path):
    filled(folder, 5)
    backup(folder, tmp_path / "first")
    with tapped() as tap, LedgerView.open(tmp_path / "first") as view:
        view.copy_to(tmp_path / "second.db")
        of_copy = [call for call, name in tap.calls if name == "second.db"]
        assert "write" in of_copy
        assert of_copy[-1] == "sync"
