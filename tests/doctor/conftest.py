"""A made-up computer: files below a folder of its own, a clock, and what commands print."""

import os
import shutil
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from daq.doctor.diagnosis import Diagnosis
from daq.doctor.looks import looks
from daq.doctor.patient import Patient
from daq.ledger import Ledger
from daq.ledger.lock import LOCK_NAME
from daq.says import words
from daq.service.files import shipped
from daq.words import Stamp
from tests.ledger.conftest import make_draft

NOW_US = 1_790_000_000_000_000


class Hands:
    """A clock that stands where the test puts it."""

    def __init__(self) -> None:
        self.utc_us, self.trusted = NOW_US, True

    def mono_ns(self) -> int:
        return 5_000_000_000

    def stamp(self) -> Stamp:
        return Stamp(self.mono_ns(), self.utc_us, "boot", self.trusted)


class Made:
    """What a look is to find; nothing of it is there unless the test puts it."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / "root"
        self.config = folder / "config"
        self.data = folder / "data"
        self.clock = Hands()
        self.prints: dict[str, str] = {}
        self.root.mkdir()
        self.data.mkdir()

    def put(self, path: str, text: str | int = "") -> Path:
        """A file of the system."""
        file = self.root / path.lstrip("/")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(f"{text}\n", encoding="utf-8")
        return file

    def link(self, path: str, to: str | Path) -> Path:
        """A link of the system."""
        link = self.put(path)
        link.unlink()
        link.symlink_to(to)
        return link

    def shop(self) -> None:
        """The configuration that comes with headsweep."""
        shutil.copytree(shipped(), self.config)

    def write(self, file: str, old: str, new: str) -> None:
        """Change a line of the shop's files."""
        path = self.config / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    def record(self, rows: int) -> None:
        """A ledger of so many rows, all written now."""
        stamp = self.clock.stamp()
        with Ledger.open(self.data, stamp=stamp) as ledger:
            ledger.append([make_draft(n, stamp=stamp) for n in range(1, rows)], [])

    def process(
        self, pid: int | str, name: str, user: int = 1000, groups: str = "", **fd: str | Path
    ) -> None:
        """A process, and what it has open by its descriptors (`f3="/dev/null"`)."""
        ids = f"{user}\t{user}\t{user}\t{user}"
        status = f"Name:\t{name}\nPid:\t{str(pid).replace('self', '1')}\nUid:\t{ids}\n"
        self.put(f"/proc/{pid}/status", f"{status}Gid:\t{ids}\nGroups:\t{groups} ")
        for number, device in fd.items():
            self.link(f"/proc/{pid}/fd/{number[1:]}", device)

    def holds_record(self, pid: int) -> None:
        """That process has the record open for writing, as the kernel lists locks."""
        lock = self.data / LOCK_NAME
        lock.touch()
        found = lock.stat()
        device = f"{os.major(found.st_dev):02x}:{os.minor(found.st_dev):02x}"
        self.put("/proc/locks", f"4: FLOCK  ADVISORY  WRITE {pid} {device}:{found.st_ino} 0 EOF")

    def patient(self, **given: Any) -> Patient:
        patient = Patient(self.config, self.data, root=self.root, ask=self._ask, clock=self.clock)
        return replace(patient, **given)

    def _ask(self, command: Sequence[str]) -> str | None:
        return self.prints.get(" ".join(command))


@pytest.fixture
def made(tmp_path: Path) -> Made:
    return Made(tmp_path)


@pytest.fixture
def look(made: Made) -> Callable[..., list[Diagnosis]]:
    """What one look finds on the made-up computer; every sentence of it can be said."""

    def look(name: str, **given: Any) -> list[Diagnosis]:
        found = list(looks()[name](made.patient(**given)))
        for each in found:
            assert each.about == name
            assert each.fine == (each.todo is None)
            assert words(each.found)
            assert each.todo is None or words(each.todo)
        return found

    return look


def told(found: list[Diagnosis]) -> list[tuple[bool, str]]:
    """Which are fine, and what they say, by its code."""
    return [(each.fine, each.found.code) for each in found]
