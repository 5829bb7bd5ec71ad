"""The power fails while the set-up page saves: each file is the one answered for, or the next.

Every call of a process that saves is written down with its answers, and the disk put together as a
cut at any of these places may leave it.
"""

import random
import subprocess
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest

from daq.service.files import load, shipped
from tests.faults.calls import Call, Calls
from tests.faults.power import Ordered, Strict
from tests.patience import PATIENCE_S

SAVING = """
import sys
from pathlib import Path
from daq.service.set_up.folder import ConfigFolder

shop, shipped = ConfigFolder(Path(sys.argv[1])), Path(sys.argv[2])
seen, answered = shop.as_of(), shop.path.parent / "answered"
for n in range(5):
    for name in ("shop.toml", "gauges/practice.toml", "machines/practice-mill.toml"):
        text = (shipped / name).read_text(encoding="utf-8")
        seen = shop.put(name, f"{text}# {n}\\n", seen)
        answered.write_bytes(b"")
"""
NAMES = ("shop.toml", "gauges/practice.toml", "machines/practice-mill.toml")
ROUNDS = 5
MANY = [pytest.param(3, id="some"), pytest.param(200, id="all", marks=pytest.mark.long)]


@dataclass(frozen=True)
class Saves:
    """What the process did, its answers among it, on the folder `root`."""

    root: Path
    record: tuple[Call, ...]


@pytest.fixture(scope="module")
def saves(tmp_path_factory) -> Iterator[Saves]:
    root, record = tmp_path_factory.mktemp("disk"), []
    script = tmp_path_factory.mktemp("script") / "saving.py"
    script.write_text(SAVING, encoding="utf-8")

    def heed(call: Call) -> int:
        if call.path.startswith(str(root)):
            record.append(call)
        return 0

    with closing(Calls(heed)) as calls:
        command = [*calls.python(), str(script), str(root / "etc"), str(shipped())]
        fd = calls.theirs.fileno()
        running = subprocess.Popen(command, pass_fds=[fd])
        calls.begin()
        assert running.wait(PATIENCE_S) == 0
    yield Saves(root, tuple(record))


def answered(call: Call) -> bool:
    """Whether that is the sign that another save was answered."""
    return call.what == "open" and call.path.endswith("/answered")


def saved(answers: int) -> dict[str, bytes]:
    """The files after so many answers."""
    there = {}
    for n in range(answers):
        name = NAMES[n % len(NAMES)]
        text = (shipped() / name).read_text(encoding="utf-8")
        there[name] = f"{text}# {n // len(NAMES)}\n".encode()
    return there


def left(saves: Saves, disk: Strict, chance: random.Random) -> dict[str, bytes]:
    """The shop's files that a cut leaves which comes now."""
    under = f"{saves.root / 'etc'}/"
    found = disk.cut(chance, 512).items()
    return {p.removeprefix(under): data for p, data in found if p.endswith(".toml")}


@pytest.mark.parametrize("kind", [Ordered, Strict])
@pytest.mark.parametrize("many", MANY)
def test_a_cut_anywhere_leaves_what_was_answered_or_the_next(saves, kind, many):
    chance, answers, disk = random.Random(3), 0, kind(str(saves.root))
    for place, call in enumerate(saves.record):
        answers += answered(call)
        disk.take(call)
        allowed = (saved(answers), saved(answers + 1))
        for _ in range(many):
            assert left(saves, disk, chance) in allowed, (place, call.what)
    assert answers == ROUNDS * len(NAMES)


@pytest.mark.parametrize("deaf", [".toml.part-", "gauges"])
def test_the_cuts_find_what_is_not_flushed(saves, deaf):
    """Looked at with their own eyes: with a flush of file or folder left out, something is lost."""
    chance, answers, wrong = random.Random(3), 0, 0
    disk = Strict(str(saves.root))
    for call in saves.record:
        answers += answered(call)
        if not (call.what == "sync" and deaf in call.path):
            disk.take(call)
        allowed = (saved(answers), saved(answers + 1))
        wrong += left(saves, disk, chance) not in allowed
    assert wrong > 0


def test_what_is_there_in_the_end_is_a_shop(saves):
    assert list(load(saves.root / "etc").machines) == ["practice-mill"]
