"""The one file that keeps the paired screens and the people with a PIN: hashes, no secret."""

import fcntl
import json
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from daq.settings import SettingsError, build, plain
from daq.words import SaidTrouble, said

NAME = "access.json"

Role = Literal["sign", "set-up"]
"""What a PIN is good for: signing; or that and setting up."""


@dataclass(frozen=True)
class Screen:
    """A paired screen. `token`: SHA-256 of what it keeps. `since`, `seen`: days, UTC.

    `seen` is "" until it was used by a clock that somebody set.
    """

    id: str
    name: str
    token: str
    since: str
    seen: str

    @property
    def last(self) -> str:
        """The day of its last use that is known of."""
        return self.seen or self.since


@dataclass(frozen=True)
class KnownPerson:
    """Somebody with a PIN; `id` as in the ledger's table of people, `pin` as argon2 keeps it."""

    id: str
    name: str
    role: Role
    pin: str


@dataclass(frozen=True)
class Kept:
    """All of it.

    `locked`: who is locked out by so many wrong PINs; a person's id, or that and a screen's.
    """

    screens: tuple[Screen, ...] = ()
    people: tuple[KnownPerson, ...] = ()
    locked: Mapping[str, int] = field(default_factory=dict)


class StoreDamaged(SaidTrouble):
    """The file is not what headsweep wrote, or cannot be read."""


class Store:
    """Reads the file again whenever it was changed; changes are made one after the other."""

    def __init__(self, data: Path) -> None:
        """The file is that of the data folder `data`; it need not be there."""
        self._path = data / NAME
        self._read: tuple[tuple[int, int, int], Kept] | None = None

    def kept(self) -> Kept:
        """What is kept now.

        Raises:
            StoreDamaged: the file is not what headsweep wrote.
        """
        try:
            found = self._path.stat()
        except FileNotFoundError:
            return Kept()
        as_of = found.st_ino, found.st_mtime_ns, found.st_size
        before = self._read
        if before is None or before[0] != as_of:
            self._read = before = as_of, self._parsed()
        return before[1]

    def change(self, how: Callable[[Kept], Kept]) -> None:
        """Change it, on the disk before this returns. Errors as for `kept`, and OSError."""
        with _alone(self._path.with_suffix(".lock")):
            after = how(self.kept())
            write(self._path, json.dumps(plain(after), indent=1, ensure_ascii=False) + "\n")

    def _parsed(self) -> Kept:
        try:
            table = json.loads(self._path.read_bytes())
            return build(Kept, table, self._path.name)
        except (OSError, ValueError, RecursionError, SettingsError) as error:
            # What stands there is told to nobody: it may hold hashes.
            why = type(error).__name__
            raise StoreDamaged(said("access-damaged", file=str(self._path), why=why)) from None


@contextmanager
def _alone(path: Path) -> Iterator[None]:
    """Hold a lock file; the service and a command may both change the store."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o600)
    try:
        _give(handle, path.parent)
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _give(handle: int, folder: Path) -> None:
    """A file that root makes is the folder's owner's: the service could not read it otherwise."""
    if os.geteuid() == 0:
        owner = folder.stat()
        os.fchown(handle, owner.st_uid, owner.st_gid)


def write(path: Path, text: str, mode: int = 0o600) -> None:
    """Put a file there whole, for its owner alone, so that it outlives a power cut.

    `mode`: who else may read one that holds no secret.
    """
    part = path.with_name(f"{path.name}.part-{os.getpid()}")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    try:
        _give(handle, path.parent)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    except BaseException:
        with suppress(OSError):
            part.unlink()
        raise
    folder = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
