"""Files beside the ledger cut short at any byte: old, made anew, or said; never no start."""

import json
import uuid
from contextlib import suppress
from dataclasses import replace

import pytest

from daq import __version__
from daq.app import service
from daq.ledger import LedgerView
from daq.ledger.seal import SEAL_NAME, read_seal, require_fit
from daq.records.index import INDEX_NAME, Index
from daq.service import alive, copies, shop_key
from daq.service.clock import SystemClock
from daq.service.delivery.config import OnSigning
from daq.service.delivery.owed import NAME as OWED
from daq.service.delivery.owed import Book
from daq.service.files import load, shipped
from daq.service.rights import store, wall
from daq.service.rights.access import Access
from daq.settings import plain
from daq.words import Command, SaidTrouble
from tests.patience import until
from tests.system.client import Client
from tests.system.daemon import Daemon
from tests.words import en, troubled

MILL = "practice-mill"
DERIVED = (SEAL_NAME, INDEX_NAME, OWED.format(way="folder"), alive.NAME, copies.NAME)


@pytest.fixture
def files(tmp_path):
    """A shop that has its reports put into a folder."""
    found = load(shipped())
    given = replace(found.shop, on_signing=OnSigning(folder=str(tmp_path)))
    return replace(found, shop=given)


def press(running, kind, payload):
    return running.inbox.submit(Command(str(uuid.uuid4()), MILL, kind, payload)).accepted


def kept(folder):
    """What a service killed in mid-audit leaves beside its ledger: whole, all of it."""
    last = copies.LastCopy("2026-11-29T12:00:00Z", "/media/stick/copy", 1)
    store.write(folder / copies.NAME, json.dumps(plain(last)))
    return {name: (folder / name).read_bytes() for name in DERIVED}


@pytest.mark.parametrize(
    "left",
    [
        "nothing",
        "half",
        pytest.param("one byte", marks=pytest.mark.long),
        pytest.param("all but one", marks=pytest.mark.long),
    ],
)
def test_a_service_starts_on_what_is_left_and_has_it_whole_again(files, tmp_path, left):
    data = tmp_path / "data"
    with service(files, data) as running:
        assert press(running, "open", {"reason": "practice"})
        until(lambda: (data / SEAL_NAME).exists() and not running.listing.behind)
        found = kept(data)
    for name, whole in found.items():
        short = {"nothing": 0, "one byte": 1, "half": len(whole) // 2, "all but one": -1}[left]
        (data / name).write_bytes(whole[:short])
    with service(files, data) as running:
        assert running.cut_off is not None
        assert running.hub.health()["ok"]
        assert press(running, "abandon", {"why": "x"})
        until(lambda: not running.listing.behind)
    assert not (data / alive.NAME).exists()
    with LedgerView.open(data) as view, Index.at(data / INDEX_NAME) as index:
        require_fit(read_seal(data, __version__), view)
        index.require_fit(view, whole=True)
    assert json.loads((data / OWED.format(way="folder")).read_text())["seen"] > 1


def each_cut(path):
    """The file as it is after a cut at each of its bytes."""
    whole = path.read_bytes()
    for length in range(len(whole) + 1):
        path.write_bytes(whole[:length])
        yield whole[:length]


def test_who_may_work_here_is_known_as_before_or_it_is_said_which_file_to_move(tmp_path):
    access = Access(tmp_path, SystemClock())
    access.ask_code()
    assert access.pair(access.shown.code, "Phone on the bench")
    path = tmp_path / store.NAME
    before = access.store.kept()
    for _ in each_cut(path):
        try:
            assert store.Store(tmp_path).kept() == before
        except SaidTrouble as error:
            assert en(error.said).startswith(f"{path}: this is not what headsweep wrote")
            assert "Move this file out of its folder" in en(error.said)


def test_the_walls_key_is_made_anew_in_its_place_where_only_a_part_is_left(tmp_path):
    wall.made_key(tmp_path)
    path = tmp_path / wall.NAME
    path.chmod(0o640)
    before = path.stat()
    for part in each_cut(path):
        if len(part) < wall.LEAST:  # whoever only uses it makes none
            with troubled(SaidTrouble, match="a key has at least"):
                wall.key(tmp_path)
        key = wall.made_key(tmp_path)
        assert len(key) >= wall.LEAST
        assert key == part.decode().strip() or len(part) < wall.LEAST
        after = path.stat()
        assert (after.st_ino, after.st_mode) == (before.st_ino, before.st_mode)


def test_the_shops_key_signs_as_before_or_it_is_said_that_it_cannot_be_read(tmp_path):
    public = shop_key.made_key(tmp_path).public
    for _ in each_cut(tmp_path / shop_key.NAME):
        with suppress(SaidTrouble):
            assert shop_key.key(tmp_path).public == public


def test_what_is_owed_is_known_as_before_or_from_now_on_and_that_is_logged(tmp_path, caplog):
    book = Book(tmp_path, "folder", "uuid", 3, lambda _: ())
    book.more((7, 9))
    path = tmp_path / OWED.format(way="folder")
    for part in each_cut(path):
        caplog.clear()
        owed = Book(tmp_path, "folder", "uuid", 9, lambda _: ()).owed.rows
        assert owed == (7, 9) or "owed from now on" in caplog.text, part


def test_the_note_of_the_last_copy_is_as_before_or_none(tmp_path):
    kept_whole = copies.LastCopy("2026-11-29T12:00:00Z", "/media/stick/copy", 7)
    store.write(tmp_path / copies.NAME, json.dumps(plain(kept_whole)))
    found = [copies.last_copy(tmp_path) for _ in each_cut(tmp_path / copies.NAME)]
    assert set(found) == {None, kept_whole}


class Onlooker(Client):
    """Somebody who comes in nowhere."""

    def enter(self, data):
        pass

    def status(self):
        """What the health page answers with, 0 while nobody does."""
        with suppress(OSError):
            return self.ask("GET", "/healthz").status
        return 0


def test_where_nobody_is_known_any_more_all_screens_say_so_until_the_file_is_moved(shop):
    shop.data.mkdir()
    path = shop.data / store.NAME
    path.write_text('{"screens":', encoding="utf-8")
    daemon = Daemon(shop)
    daemon.client = Onlooker()
    try:
        client = daemon.start().client
        page = client.snapshot()
        assert page["pages"]["wall"]["title"] == "Who may work here is not known"
        assert str(path) in page["recording"]["say"]
        assert client.post("open", {"reason": "scheduled"}).status == 503
        path.rename(shop.data / "access.old")
        until(lambda: client.status() == 200)
        daemon.stop()
    finally:
        daemon.close()
