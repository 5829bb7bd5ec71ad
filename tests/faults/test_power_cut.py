"""The power fails under a real service: what it answered is there, what it denied is not.

Killing a process does not show this, because the system's cache outlives it. So every call that a
service makes on its data folder is written down with the answers it gave, and the disk is put
together as a cut at any moment may leave it.
"""

import random
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from daq.ledger import LedgerError
from tests.cards import READY
from tests.faults.calls import Call
from tests.faults.kept import kept
from tests.faults.power import Ordered, Strict
from tests.faults.recorded import Answered, Heard, Record, Watch
from tests.system.daemon import Daemon
from tests.system.person import Person
from tests.system.shop import Shop
from tests.system.ttygauge import TtyGauge
from tests.words import en

SEED = 20
STARTS = 3
IN_MEMORY = Path("/dev/shm")
"""What is put together here is looked at and taken away: to flush it would only take time."""
PRESSES = 110
"""Twice so many rows: the log is put back into the file during them."""


@dataclass(frozen=True)
class Lives:
    """What a service did and answered, its data folder in `root`, which was there before it."""

    root: str
    data: Path
    record: Record
    left: Path

    def fresh(self) -> Path:
        """An empty folder to put together what is left in."""
        shutil.rmtree(self.left, ignore_errors=True)
        self.left.mkdir()
        return self.left


@pytest.fixture(scope="module")
def lives(tmp_path_factory) -> Iterator[Lives]:
    """Three lives of a service in a new folder: killed, ended as it should be, killed."""
    shop = Shop(tmp_path_factory.mktemp("lives"))
    disk = tmp_path_factory.mktemp("disk")
    shop.data = disk / "headsweep" / "data"
    with closing(Watch(disk)) as watch, TtyGauge(shop.tty) as gauge:
        daemon = Daemon(shop, forker=watch.forker)
        daemon.client = Heard(watch.record)
        live(daemon, gauge)
    with TemporaryDirectory(dir=IN_MEMORY if IN_MEMORY.is_dir() else None) as folder:
        yield Lives(str(disk), shop.data, watch.record, Path(folder, "left"))


def live(daemon: Daemon, gauge: TtyGauge) -> None:
    person = Person(daemon.client, gauge)
    daemon.start()
    person.client.do("open", {"reason": "scheduled"})
    for _ in range(PRESSES):
        person.client.do("readied", READY)
        person.client.do("undo")
    daemon.kill()
    daemon.start()
    person.client.do("readied", READY)
    person.client.do("warmed", {"warm": True})
    person.prepare()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    daemon.stop()
    daemon.start()
    person.prepare()
    daemon.kill()


@dataclass(frozen=True)
class Cut:
    """What a cut left in `folder`, and what had been answered by then."""

    number: int
    folder: Path
    answered: tuple[Answered, ...]


def cuts(lives: Lives, disk: Strict, sector: int, many: int) -> Iterator[Cut]:
    """So many cuts, in the order in which they may come."""
    chance = random.Random(SEED)
    places = sorted(chance.randrange(len(lives.record) + 1) for _ in range(many))
    answered: list[Answered] = []
    done = 0
    for number, place in enumerate(places):
        for step in lives.record[done:place]:
            if isinstance(step, Call):
                disk.take(step)
            else:
                answered.append(step)
        done = place
        folder = lives.fresh()
        for path, data in disk.cut(chance, sector).items():
            if Path(path).parent == lives.data:
                there = folder / Path(path).name
                there.write_bytes(data)
                there.chmod(0o600)
        yield Cut(number, folder, tuple(answered))


MANY = [
    pytest.param(100, id="some"),
    pytest.param(10_000, id="all", marks=[pytest.mark.long, pytest.mark.timeout(3600)]),
]


@pytest.mark.parametrize("sector", [512, 4096])
@pytest.mark.parametrize("disk", [Ordered, Strict])
@pytest.mark.parametrize("many", MANY)
def test_what_was_answered_outlives_a_power_cut(lives, disk, sector, many):
    for cut in cuts(lives, disk(lives.root), sector, many):
        assert kept(cut.folder, cut.answered), cut


def test_the_recording_holds_what_it_is_to_hold(lives):
    """Else the cuts prove nothing: answers, and the log put back into the file time and again."""
    assert sum(isinstance(step, Answered) for step in lives.record) > 2 * PRESSES
    flushed = [Path(s.path).name for s in lives.record if isinstance(s, Call) and s.what == "sync"]
    assert flushed.count("ledger.db") >= 3  # begun, in the first life, as the second ended
    assert flushed.count("ledger.db-wal") > 2 * PRESSES
    assert {"headsweep", "data", lives.data.parents[1].name} <= set(flushed)


DEAF = 250
"""So many cuts: most find no ledger at all, as the list beside it is written meanwhile, too."""


@pytest.mark.parametrize("disk", [Ordered, Strict])
def test_cuts_find_a_disk_that_only_says_it_has_flushed_the_log(lives, disk):
    """The cuts looked at with their own eyes: such a disk does lose what was answered."""
    found: Counter[str] = Counter()
    for cut in cuts(lives, disk(lives.root, deaf="ledger.db-wal"), 512, DEAF):
        try:
            found["kept" if kept(cut.folder, cut.answered) else "lost"] += 1
        except LedgerError as error:
            found[re.sub(r"[0-9a-f-]{36}|[0-9]+", "N", en(error))] += 1
    assert found["lost"] > 5, found
    assert found["kept"] < DEAF / 2, found


@pytest.mark.parametrize("disk", [Ordered, Strict])
def test_the_service_goes_on_where_the_power_failed(lives, disk, tmp_path):
    shop = Shop(tmp_path)
    for cut in cuts(lives, disk(lives.root), 512, STARTS):
        shutil.rmtree(shop.data, ignore_errors=True)
        shutil.copytree(cut.folder, shop.data)
        with closing(Daemon(shop).start()) as daemon:
            rows = [seq for each in cut.answered for seq in each.seqs]
            assert daemon.client.snapshot()["seq"] >= max(rows, default=0)
            assert daemon.client.ask("GET", "/healthz").status == 200
