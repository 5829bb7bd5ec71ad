"""Which process has the record, which have a port open, and what they may do, as proc(5) tells."""

import contextlib
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from daq.doctor.patient import Patient
from daq.ledger.lock import LOCK_NAME

_LOCK = re.compile(r"\bFLOCK +ADVISORY +WRITE +(\d+) +([0-9a-f]+):([0-9a-f]+):(\d+) ")


@dataclass(frozen=True, slots=True)
class Process:
    """A process: its number, name, user and groups."""

    pid: int
    name: str
    user: int
    groups: frozenset[int]


def process(patient: Patient, pid: int | str) -> Process | None:
    """The process of that number, or "self"; None where there is none any more."""
    told = dict(
        line.split(":", 1)
        for line in (patient.read(f"/proc/{pid}/status") or "").splitlines()
        if ":" in line
    )
    try:
        groups = frozenset(map(int, [*told["Groups"].split(), told["Gid"].split()[1]]))
        user = int(told["Uid"].split()[1])
        return Process(int(told["Pid"]), told["Name"].strip(), user, groups)
    except (KeyError, ValueError, IndexError):
        return None


def recorder(patient: Patient) -> Process | None:
    """The process that has the record open for writing; nothing is locked to find that out.

    Raises PermissionError where this user may not look into the data folder.
    """
    try:
        lock = (patient.data / LOCK_NAME).stat()
    except FileNotFoundError:
        return None
    wanted = (os.major(lock.st_dev), os.minor(lock.st_dev), lock.st_ino)
    for pid, major, minor, inode in _LOCK.findall(f"{patient.read('/proc/locks') or ''}\n"):
        if (int(major, 16), int(minor, 16), int(inode)) == wanted:
            return process(patient, pid)
    return None


def openers(patient: Patient) -> Iterator[tuple[tuple[int, int], Process]]:
    """What every process has open below a /dev, by its `node`; of another user's processes
    nothing is to be seen, but by root."""
    for folder in sorted(patient.at("/proc").glob("[0-9]*")):
        one = process(patient, folder.name)
        for fd, link in opened(patient, folder.name) if one else ():
            found = node(fd) if "/dev/" in link else None
            if one is not None and found is not None:
                yield found, one


def node(path: Path) -> tuple[int, int] | None:
    """Which file a path leads to: two containers have a /dev/pts/0 each, under one name."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def opened(patient: Patient, pid: int | str) -> Iterator[tuple[Path, str]]:
    """The descriptors of a process, each with what it leads to as the kernel writes it."""
    with contextlib.suppress(OSError):
        for fd in patient.at(f"/proc/{pid}/fd").iterdir():
            with contextlib.suppress(OSError):  # closed meanwhile
                yield fd, str(fd.readlink())
