"""A new ledger in the place of a damaged one: asked for, linked, and the old one left as it is."""

import pytest

from daq.cli import main
from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.carry_on import carry_on, looked_at
from daq.ledger.lock import FolderLock
from daq.ledger.verify import verify
from tests.words import troubled


def command(folder, *more):
    return main(["ledger", "carry-on", "--data", str(folder), *more])


def first(folder):
    with LedgerView.open(folder) as view:
        return view.event(1)


def held(folder):
    """What is in the file and its log; the index that connections share is made anew."""
    files = (folder / "ledger.db", folder / "ledger.db-wal")
    return {p.name: p.read_bytes() for p in files if p.exists() and p.stat().st_size}


@pytest.fixture
def altered(folder, filled, hand):
    """Six rows, the fourth of which was altered; gives the hash of the third."""
    heads = filled(folder, 5)
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'mall') WHERE seq = 4")
    return heads[2]


def test_nothing_begins_unasked(folder, altered, monkeypatch, capsys):
    before = held(folder)
    for said in ("", "no", "y"):
        monkeypatch.setattr("builtins.input", lambda _, said=said: said)
        assert command(folder) == 2
    told = capsys.readouterr().out
    assert "row 4 is altered" in told and "3 rows" in told and altered in told
    assert held(folder) == before and not list(folder.glob("set-aside*"))


def test_the_old_head_is_carried_and_the_old_file_left(folder, altered, draft, monkeypatch, capsys):
    before, old = held(folder), first(folder).ledger
    monkeypatch.setattr("builtins.input", lambda _: " Yes ")
    assert command(folder) == 0
    assert "nothing is left in its spindle" in capsys.readouterr().out
    assert held(folder / "set-aside-1") == before
    assert first(folder).data["previous"] == f"{old} 3:{altered}"
    assert first(folder).ledger != old
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
    assert verify(folder).ok


@pytest.mark.parametrize("left", ["gone", "emptied", "no database", "another"])
def test_whatever_lies_there_instead(folder, filled, tmp_path, left, capsys):
    heads = filled(folder, 2)
    known, path = first(folder).ledger, folder / "ledger.db"
    if left == "another":
        filled(tmp_path / "other", 1)
        (tmp_path / "other" / "ledger.db").replace(path)
    elif left == "gone":
        path.unlink()
    else:
        path.write_bytes(b"" if left == "emptied" else b"a photograph" * 999)
    before = held(folder)
    assert command(folder, "--yes") == 0
    assert before.items() <= held(folder / "set-aside-1").items() or not before
    previous = first(folder).data["previous"]
    assert previous == f"{known} 0:" if left != "another" else previous.split()[1].startswith("2:")
    Ledger.open(folder).close()
    assert heads


def test_a_second_time_the_second_is_put_aside(folder, altered, hand):
    assert command(folder, "--yes") == 0
    (folder / "ledger.db").write_bytes(b"x" * 9000)
    assert command(folder, "--yes") == 0
    assert (folder / "set-aside-2" / "ledger.db").read_bytes() == b"x" * 9000


def test_of_a_sound_ledger_or_of_none_nothing_is_begun(folder, filled, tmp_path, capsys):
    filled(folder, 2)
    before = held(folder)
    assert command(folder, "--yes") == 2
    assert "the ledger is sound" in capsys.readouterr().err
    (tmp_path / "empty").mkdir()
    assert command(tmp_path / "empty", "--yes") == 2
    assert held(folder) == before


def test_a_folder_in_use_is_left_alone(folder, altered):
    lock = FolderLock(folder)
    with troubled(LedgerError, match="another headsweep"):
        looked_at(folder)
    lock.release()


def test_a_cut_before_the_new_name_is_written_down_shuts_nobody_out(folder, altered, monkeypatch):
    monkeypatch.setattr("daq.ledger.lock.FolderLock.name_ledger", lambda *_: None)
    carry_on(folder, looked_at(folder))
    monkeypatch.undo()
    Ledger.open(folder).close()
    Ledger.open(folder).close()
