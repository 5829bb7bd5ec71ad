"""A data folder that cannot be used at the start: the pages come up all the same, and say why."""

import urllib.request
import uuid
from contextlib import closing

import apsw
import pytest

from daq.ledger import Ledger, LedgerView
from daq.ledger.lock import FolderLock
from tests.faults.test_disk import Disk
from tests.patience import until
from tests.system.daemon import Daemon, headsweep
from tests.system.shop import MACHINE

PAGES = (f"/machines/{MACHINE}/wall", f"/machines/{MACHINE}/console", "/setup", "/")
EVERYTHING = ("open", "readied", "take", "abandon", "sign", "made-safe", "keep-answer", "undo")
EVERYTHING += ("add-to-signed", "hand-over")


def damaged(data):
    Ledger.open(data).close()
    with (data / "ledger.db").open("r+b") as file:
        file.seek(4096)
        file.write(b"\xa5" * 4096)


def altered(data):
    Ledger.open(data).close()
    path = data / "ledger.db"
    path.write_bytes(path.read_bytes().replace(b"LedgerBegan", b"LedgerBogus"))


def no_database(data):
    data.mkdir()
    (data / "ledger.db").write_bytes(b"a photograph" * 1000)


def foreign(data):
    data.mkdir()
    with closing(apsw.Connection(str(data / "ledger.db"))) as other:
        other.execute("CREATE TABLE parts (number TEXT)")


def another(data):
    Ledger.open(data).close()
    other = data.with_name("other")
    Ledger.open(other).close()
    (other / "ledger.db").replace(data / "ledger.db")


def gone(data):
    Ledger.open(data).close()
    (data / "ledger.db").unlink()


def no_folder(data):
    data.write_text("not a folder", encoding="utf-8")


WAYS = {
    damaged: "The record is damaged",
    altered: "The record is damaged",
    no_database: "The record is damaged",
    foreign: "This is not this shop's record",
    another: "This is not this shop's record",
    gone: "The record is gone",
    no_folder: "The record cannot be written to",
}


@pytest.fixture
def started(shop):
    """Starts a service on the data folder as something left it."""
    running = Daemon(shop)

    def start(before=()):
        return running.start(before)

    with closing(running):
        yield start


def page(client, path):
    with urllib.request.urlopen(f"http://127.0.0.1:{client.port}{path}", timeout=60) as answer:
        return answer.read().decode()


def refused(client):
    """Nothing can be pressed, by anybody."""
    snapshot = client.snapshot()
    assert snapshot["pages"]["console"]["actions"] == []
    assert not snapshot["recording"]["ok"]
    for kind in EVERYTHING:
        answer = client.post(kind, id=str(uuid.uuid4()))
        assert (answer.status, answer.body["code"]) == (503, "not-recorded")
    return snapshot


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_the_pages_come_up_and_say_why_and_nothing_is_touched(shop, started, way):
    way(shop.data)
    before = held(shop.data)
    client = started().client
    snapshot = refused(client)
    why = WAYS[way]
    for view in snapshot["pages"].values():
        assert view["title"].startswith(why)
        assert len(view["title"].split()) <= 9
        assert any("loose" in caution for caution in view["cautions"])
    for path in (*PAGES, "/own?ticket=of-the-wall", f"/own?ticket=t&machine={MACHINE}"):
        text = page(client, path).replace("&#39;", "'")
        assert why in text, path
    health = client.ask("GET", "/healthz")
    assert health.status == 503
    assert str(shop.data) in str(health.body["service"]["recording"][MACHINE]["say"])
    assert str(shop.data) in client.ask("GET", "/api/setup").body["ledger"]["problem"]
    assert not client.live().fresh
    assert held(shop.data) == before


def held(data):
    """What stands in the record's own files."""
    files = [data] if data.is_file() else [data / "ledger.db", data / "ledger.db-wal"]
    there = {path.name: path.read_bytes() for path in files if path.exists()}
    return {name: content for name, content in there.items() if content}


@pytest.fixture
def mislaid(shop, started):
    """A service without its record, and where that is."""
    Ledger.open(shop.data).close()
    away = (shop.data / "ledger.db").rename(shop.data.with_name("away"))
    daemon = started()
    refused(daemon.client)
    return daemon, away


def test_it_goes_on_by_itself_once_the_record_is_there_again(shop, mislaid):
    daemon, away = mislaid
    port = daemon.client.port
    away.rename(shop.data / "ledger.db")
    opened_again(daemon.client, lambda snapshot: snapshot["recording"]["ok"])
    assert daemon.client.port == port
    daemon.client.opened()
    assert daemon.events("AuditOpened")


def opened_again(client, true_of):
    """Wait for that, also while the pages are not served for a moment."""

    def look():
        try:
            return true_of(client.snapshot())
        except OSError:
            return False

    until(look)


def test_a_new_ledger_that_was_asked_for_is_gone_on_with(shop, started):
    damaged(shop.data)
    before = held(shop.data)
    daemon = started()
    refused(daemon.client)
    done = headsweep("ledger", "carry-on", "--yes", "--data", shop.data)
    assert done.returncode == 0, done.stderr
    opened_again(daemon.client, lambda snapshot: snapshot["recording"]["ok"])
    daemon.client.opened()
    assert held(shop.data / "set-aside-1") == before
    with LedgerView.open(shop.data) as view:
        assert view.event(1).data["previous"].endswith(" 0:")


def test_a_command_that_still_has_the_folder_is_waited_for(shop, mislaid):
    """It ends; and till then the pages are there."""
    daemon, away = mislaid
    port = daemon.client.port
    lock = FolderLock(shop.data)
    away.rename(shop.data / "ledger.db")
    opened_again(daemon.client, lambda snapshot: "has this data folder open" in str(snapshot))
    lock.release()
    opened_again(daemon.client, lambda snapshot: snapshot["recording"]["ok"])
    assert daemon.client.port == port


READ_ONLY = 'mount --bind "$0" "$0" && mount -o remount,ro,bind "$0" && exec "$@"'


def test_a_read_only_folder(shop, started):
    shop.data.mkdir()
    sh = ["unshare", "--map-root-user", "--mount", "sh", "-c"]
    client = started([*sh, READ_ONLY, str(shop.data)]).client
    snapshot = refused(client)
    assert snapshot["pages"]["wall"]["title"].startswith("The record cannot be written to")


def test_a_full_disk_and_then_room(shop, started):
    """There is no ledger yet, and no room to begin one."""
    full = Daemon(shop)
    full.disk = Disk(full)
    fill = 'mount -t tmpfs -o size=4m tmpfs "$0" && head -c 4m /dev/zero >"$0/ballast"; exec "$@"'
    *sh, _, folder = full.disk.before
    with closing(full.start([*sh, fill, folder])):
        snapshot = refused(full.client)
        assert snapshot["pages"]["wall"]["title"].startswith("The record's disk is full")
        full.disk.free()
        opened_again(full.client, lambda snapshot: snapshot["pages"]["console"]["actions"])
        full.client.opened()


IN_MEMORY = {
    "tmpfs": 'mount -t tmpfs tmpfs "$0"',
    "ramfs": 'mount -t ramfs ramfs "$0"',
    "overlay": (
        'mkdir -p "$0-up" && mount -t tmpfs tmpfs "$0-up" && mkdir "$0-up/u" "$0-up/w" && mount -t'
        ' overlay over -o "lowerdir=$0,upperdir=$0-up/u,workdir=$0-up/w" "$0"'
    ),
}


@pytest.mark.parametrize(
    "kind", ["tmpfs", *(pytest.param(k, marks=pytest.mark.long) for k in ("ramfs", "overlay"))]
)
def test_a_folder_in_memory_is_refused_unless_it_is_allowed(shop, kind):
    shop.data.mkdir()
    mount = f'{IN_MEMORY[kind]} && exec "$@"'
    before = ["unshare", "--map-root-user", "--mount", "sh", "-c", mount, str(shop.data)]
    with closing(Daemon(shop, in_memory=False).start(before)) as running:
        snapshot = refused(running.client)
        assert snapshot["pages"]["wall"]["title"] == "The record would go with the power"
        setup = running.client.ask("GET", "/api/setup").body
        assert "--data-in-memory" in setup["ledger"]["problem"]
        assert "in memory" in running.stderr
    with closing(Daemon(shop).start(before)) as running:
        running.client.opened()


def test_a_folder_that_another_service_has_is_still_refused_at_once(shop, started):
    started()
    second = headsweep("run", "--config", shop.config, "--data", shop.data)
    assert second.returncode == 2


def test_the_end_is_as_quick_as_ever(shop, started):
    gone(shop.data)
    started().stop()
