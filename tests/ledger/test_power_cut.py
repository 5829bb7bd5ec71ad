"""The power fails: of what was not flushed, any part may be missing, in any order.

Killing a process does not show this, because the system's cache outlives it.
So every write is recorded, and the disk is put together as a cut at any moment
may leave it: what was flushed is there, and each later write is whole, partly
there by sectors of 512 bytes, or gone.
"""

import random
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import apsw
import pytest

from daq.ledger import Ledger, LedgerView, digest_of
from daq.ledger.lock import LOCK_NAME
from daq.ledger.verify import verify

SECTOR = 512
CUTS = 400

Step = tuple[Any, ...]


class RecordedDisk(apsw.VFS):
    """The ordinary disk, every change to it written down."""

    def __init__(self, steps: list[Step]) -> None:
        self.steps = steps
        super().__init__("recorded", "unix", makedefault=True)

    def xOpen(self, name, flags):
        text = name.filename() if isinstance(name, apsw.URIFilename) else name
        return RecordedFile(self.steps, Path(text or "temporary").name, name, flags)

    def xDelete(self, filename, syncdir):
        super().xDelete(filename, syncdir)
        self.steps.append(("delete", Path(filename).name, syncdir))


class RecordedFile(apsw.VFSFile):
    def __init__(self, steps: list[Step], plain: str, name, flags) -> None:
        self.steps, self.plain = steps, plain
        super().__init__("unix", name, flags)

    def xWrite(self, data, offset):
        super().xWrite(data, offset)
        self.steps.append(("write", self.plain, bytes(data), offset))

    def xTruncate(self, newsize):
        super().xTruncate(newsize)
        self.steps.append(("truncate", self.plain, newsize))

    def xSync(self, flags):
        super().xSync(flags)
        self.steps.append(("sync", self.plain))


@dataclass
class File:
    """One file on the disk: what is sure to be there, and what was done since."""

    sure: bytes | None = None
    since: list[Step] = field(default_factory=list)

    def take(self, step: Step) -> None:
        if step[0] == "sync":
            self.sure, self.since = self.after(self.since), []
        elif step[0] == "delete" and step[2]:
            self.sure, self.since = None, []
        else:
            self.since.append(step)

    def after(self, steps: list[Step]) -> bytes | None:
        image = None if self.sure is None else bytearray(self.sure)
        for what, _, *rest in steps:
            if what == "delete":
                image = None
                continue
            image = bytearray() if image is None else image
            if what == "truncate":
                del image[rest[0] :]
            else:
                data, at = rest
                image.extend(bytes(max(0, at + len(data) - len(image))))
                image[at : at + len(data)] = data
        return None if image is None else bytes(image)

    def cut(self, chance: random.Random) -> bytes | None:
        """What a cut leaves: of the unflushed steps any part, in any order."""
        left = [part for step in self.since for part in torn(step, chance)]
        if chance.random() < 0.5:
            chance.shuffle(left)
        return self.after(left)

    def folder_flushed(self) -> None:
        """What was deleted can no longer come back."""
        gone = [at for at, step in enumerate(self.since) if step[0] == "delete"]
        if gone:
            self.sure, self.since = None, self.since[gone[-1] + 1 :]


def take(files: dict[str, File], step: Step) -> None:
    """Do one recorded step.

    The database flushes the folder with the first flush of a new log or journal
    (SQLite's os_unix.c, UNIXFILE_DIRSYNC, from memory).
    """
    file = files.setdefault(step[1], File())
    if step[0] == "sync" and file.sure is None and step[1] != "ledger.db":
        for other in files.values():
            other.folder_flushed()
    file.take(step)


def torn(step: Step, chance: random.Random) -> list[Step]:
    fate = chance.choice(("whole", "gone", "torn"))
    if fate == "gone":
        return []
    if fate == "whole" or step[0] != "write":
        return [step]
    what, name, data, at = step
    pieces = [(what, name, data[k : k + SECTOR], at + k) for k in range(0, len(data), SECTOR)]
    return [piece for piece in pieces if chance.random() < 0.5]


@pytest.fixture
def recorded(folder, draft) -> list[Step]:
    """Two lives of a ledger with checkpoints in between; answers stand among the steps."""
    steps: list[Step] = []
    disk = RecordedDisk(steps)
    for life in range(2):
        with Ledger.open(folder) as ledger:
            steps.append(("answer", ledger.head, ledger.uuid))
            ledger._connection.pragma("wal_autocheckpoint", 20)
            for n in range(12):
                chunk = bytes([life, n]) * 1500
                ledger.append([draft(n, evidence=(digest_of(chunk),)), draft(n)], [chunk])
                steps.append(("answer", ledger.head, ledger.uuid))
    disk.unregister()
    return steps


def test_what_was_answered_outlives_a_power_cut(recorded, tmp_path):
    chance = random.Random(20)
    assert [step[:2] for step in recorded].count(("sync", "ledger.db")) >= 6  # checkpoints ran
    for number in range(CUTS):
        files: dict[str, File] = {}
        answered: list[str] = []
        uuid = ""
        for step in recorded[: chance.randrange(len(recorded) + 1)]:
            if step[0] == "answer":
                answered.append(step[1])
                uuid = step[2]
            else:
                take(files, step)
        folder = tmp_path / f"cut-{number}"
        folder.mkdir()
        (folder / LOCK_NAME).write_text(uuid)
        for name, file in files.items():
            left = file.cut(chance)
            if left is not None:
                (folder / name).write_bytes(left)
        Ledger.open(folder).close()
        assert verify(folder).ok
        with LedgerView.open(folder) as view:
            assert set(answered) <= {stored.hex() for _, _, stored in view.rows()}, number
