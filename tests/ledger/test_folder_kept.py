"""A power cut forgets a folder's name unless the folder it stands in was flushed (POSIX, fsync)."""

import os
from pathlib import Path

import pytest

from daq.ledger import Ledger
from daq.ledger.backup import backup


@pytest.fixture
def flushed(monkeypatch):
    """The folders flushed so far, in order, each with the names that were in it then."""
    found = {}
    real = os.fsync

    def fsync(fd):
        real(fd)
        path = Path(f"/proc/self/fd/{fd}").readlink()
        if path.is_dir():
            found[path] = {each.name for each in path.iterdir()}

    monkeypatch.setattr(os, "fsync", fsync)
    return found


def survives(path, flushed):
    """Whether the name of `path`, and of all above it up to the tests' own, outlive a cut."""
    return all(path.name in flushed.get(path.parent, ()) for path in (path, *path.parents[:2]))


def test_every_folder_made_for_a_ledger_survives(tmp_path, flushed, draft):
    folder = tmp_path / "shop" / "records" / "data"
    with Ledger.open(folder):
        assert survives(folder, flushed)


def test_so_does_one_that_somebody_made_just_before(tmp_path, flushed):
    """A service killed between making the folder and flushing it leaves such a one."""
    folder = tmp_path / "shop" / "records" / "data"
    folder.mkdir(parents=True)
    with Ledger.open(folder):
        assert survives(folder, flushed)


def test_a_ledger_that_was_begun_asks_no_more_of_the_disk(tmp_path, flushed):
    Ledger.open(tmp_path / "data").close()
    flushed.clear()
    Ledger.open(tmp_path / "data").close()
    assert not flushed


def test_a_parent_that_may_not_be_looked_into_is_no_hindrance(tmp_path, monkeypatch):
    real = os.open

    def refusing(path, *args, **kwargs):
        if Path(path) == tmp_path.parent:
            raise PermissionError(13, "Permission denied")
        return real(path, *args, **kwargs)

    monkeypatch.setattr(os, "open", refusing)
    Ledger.open(tmp_path / "data").close()


def test_every_folder_made_for_a_copy_survives(tmp_path, flushed, filled):
    filled(tmp_path / "data", 1)
    target = tmp_path / "stick" / "copies" / "monday"
    backup(tmp_path / "data", target)
    assert survives(target, flushed)
