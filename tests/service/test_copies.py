"""Copies on a stick: checked, the last so many kept, nobody else's touched, and told of."""

import json
import shutil
from collections import namedtuple

import pytest

from daq.cli import main
from daq.ledger.errors import LedgerError, NotSound
from daq.ledger.store import Ledger
from daq.ledger.verify import verify
from daq.service import copies
from daq.service.copies import LastCopy, copy_into, last_copy
from daq.words import Draft, Stamp
from tests.words import troubled

NOON = Stamp(1, 1_700_000_000_000_000, "boot", True)
Usage = namedtuple("Usage", "total used free")


@pytest.fixture
def data(tmp_path):
    Ledger.open(tmp_path / "data", stamp=NOON, engine="test").close()
    return tmp_path / "data"


@pytest.fixture
def stick(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


def more(data, rows=1):
    """Somebody goes on working."""
    with Ledger.open(data) as ledger:
        for n in range(rows):
            ledger.append([Draft("Pushed", 1, "mill", "7b0c", NOON, "wall", {}, {"n": n})])


def on(stick):
    return sorted(each.name.rpartition("-")[2] for each in stick.glob("headsweep-*"))


def test_the_last_copies_are_kept_and_each_is_a_ledger(data, stick, config):
    for _ in range(5):
        last = copy_into(data, stick, 3, NOON, config)
        more(data)
    assert on(stick) == ["000000003", "000000004", "000000005"]
    reports = [verify(copy) for copy in sorted(stick.iterdir())]
    assert [(report.ok, report.rows) for report in reports] == [(True, n) for n in (3, 4, 5)]
    copied = stick / last.to / "config"
    assert (copied / "shop.toml").read_bytes() == (config / "shop.toml").read_bytes()
    assert {each.name for each in copied.rglob("*")} == {
        each.name for each in config.rglob("*") if each.is_dir() or each.suffix == ".toml"
    }
    assert last_copy(data) == LastCopy("2023-11-14T22:13:20Z", last.to, 5)


def test_a_copy_that_has_every_row_already_is_checked_again_and_stays(data, stick):
    first = copy_into(data, stick, 3, NOON)
    (copy,) = stick.iterdir()
    before = (copy / "ledger.db").stat().st_ino
    assert copy_into(data, stick, 3, NOON) == first
    assert (copy / "ledger.db").stat().st_ino == before
    (copy / "ledger.db").write_bytes(b"a stick that forgets")
    assert copy_into(data, stick, 3, NOON) == first
    assert verify(copy).ok


def test_what_is_not_a_copy_of_this_ledger_stays_on_the_stick(data, stick, tmp_path):
    Ledger.open(tmp_path / "other", stamp=NOON, engine="test").close()
    copy_into(tmp_path / "other", stick, 1, NOON)
    (stick / "holiday.jpg").write_bytes(b"not ours")
    copy_into(data, stick, 1, NOON)
    first = next(each for each in stick.iterdir() if data_of(each) == data_of(data))
    (first / "note.txt").write_text("somebody's")
    alike = stick / f"{first.name}-mine"
    shutil.copytree(first, alike)
    others = {each for each in stick.iterdir() if each != first}
    more(data)
    copy_into(data, stick, 1, NOON)
    assert others < set(stick.iterdir())
    assert [each.name for each in first.iterdir()] == ["note.txt"]
    assert verify(alike).ok


def data_of(folder):
    """Which ledger a folder holds, "" for none."""
    if not (folder / "ledger.db").exists():
        return ""
    with Ledger.open(shutil.copytree(folder, folder.with_name(f"look-{folder.name}"))) as ledger:
        name = next(ledger.events()).ledger
    shutil.rmtree(folder.with_name(f"look-{folder.name}"))
    return name


def test_a_full_stick_gives_up_its_oldest_copies_and_never_the_last(data, stick, monkeypatch):
    for _ in range(4):
        copy_into(data, stick, 9, NOON)
        more(data)
    free = iter([0, 0, 10**9])
    monkeypatch.setattr(copies.shutil, "disk_usage", lambda place: Usage(0, 0, next(free)))
    copy_into(data, stick, 9, NOON)
    assert on(stick) == ["000000003", "000000004", "000000005"]
    more(data)
    monkeypatch.setattr(copies.shutil, "disk_usage", lambda place: Usage(0, 0, 0))
    monkeypatch.setattr(copies, "backup", full)
    with pytest.raises(LedgerError):
        copy_into(data, stick, 9, NOON)
    assert on(stick) == ["000000005"]
    assert last_copy(data).rows == 5


def full(data, target, progress):
    raise LedgerError(copies.said("disk-is-full"))


def test_a_ledger_that_is_not_sound_takes_nothing_away(data, stick):
    more(data, 3)
    kept = copy_into(data, stick, 1, NOON)
    more(data)
    with Ledger.open(data):
        pass
    file = data / "ledger.db"
    file.write_bytes(file.read_bytes().replace(b'"n":1', b'"n":7'))
    with pytest.raises(NotSound):
        copy_into(data, stick, 1, NOON)
    assert [str(each) for each in stick.iterdir()] == [kept.to]
    assert last_copy(data) == kept


def test_a_stick_that_is_not_in_is_said_and_its_folder_never_made(data, tmp_path):
    with troubled(LedgerError, match="is its disk plugged in"):
        copy_into(data, tmp_path / "stick", 3, NOON)
    assert not (tmp_path / "stick").exists()
    assert last_copy(data) is None


@pytest.mark.parametrize("text", ["", "{", "[]", '{"utc": 3, "to": "x", "rows": 1}'])
def test_a_note_that_is_none_tells_of_no_copy(data, text):
    (data / "backup.json").write_text(text)
    assert last_copy(data) is None


def test_a_stick_that_is_not_mounted_is_no_place_for_a_copy(data, stick, capsys, monkeypatch):
    def in_memory(place):
        raise LedgerError(copies.said("data-in-memory", kind="tmpfs"))

    monkeypatch.setattr("daq.cli.copies.require_lasting", in_memory)
    assert main(["ledger", "backup", "--data", str(data), "--into", str(stick)]) == 2
    assert "is its disk mounted?" in capsys.readouterr().err
    assert (list(stick.iterdir()), last_copy(data)) == ([], None)


def test_at_the_command_line(data, stick, capsys, monkeypatch):
    monkeypatch.setattr("daq.cli.copies.require_lasting", lambda place: None)
    asked = ["ledger", "backup", "--data", str(data)]
    assert main([*asked, "--into", str(stick), "--keep", "2"]) == 0
    (copy,) = stick.iterdir()
    assert capsys.readouterr().out == f"{copy}: 1 rows, checked from the first to the last\n"
    assert json.loads((data / "backup.json").read_text())["to"] == str(copy)
    assert main([*asked, "--into", str(stick / "gone")]) == 2
    assert "is its disk plugged in" in capsys.readouterr().err
    for wrong in (["--into", "a", "--to", "b"], [], ["--into", "a", "--keep", "0"]):
        with pytest.raises(SystemExit):
            main([*asked, *wrong])
