"""A new ledger in the place of one that cannot be gone on with: it carries the old one's head."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.errors import LedgerError, because, of_file
from daq.ledger.folder import flush_folder, make_folder
from daq.ledger.lock import FolderLock
from daq.ledger.reads import DB_NAME
from daq.ledger.seal import SEAL_NAME
from daq.ledger.store import Ledger
from daq.ledger.verify import walk
from daq.ledger.view import LedgerView
from daq.words import Said, said

ASIDE: Final = "set-aside-{}"
_FILES: Final = (DB_NAME, f"{DB_NAME}-wal", f"{DB_NAME}-shm", SEAL_NAME)
"""The database first: a log alone is refused, a database without its log may look whole."""


@dataclass(frozen=True, slots=True)
class Old:
    """The ledger that cannot be gone on with: `why`, and what of it is good from the first row on.

    `ledger` is its UUID, or "" where nobody knows it; `head` is the hash of row `rows`.
    """

    why: Said
    ledger: str
    rows: int
    head: str

    @property
    def link(self) -> str:
        """What the new ledger's first row says of it: UUID ROW:HASH."""
        return f"{self.ledger or 'unknown'} {self.rows}:{self.head}"


def looked_at(folder: Path) -> Old:
    """What is wrong with the ledger in `folder`. Nothing is altered.

    Raises LedgerError: another process has the folder, or there is nothing to carry on from: the
    ledger is sound, or none was ever begun.
    """
    lock = FolderLock(folder)
    try:
        return _look(folder, lock.ledger)
    finally:
        lock.release()


def _look(folder: Path, known: str) -> Old:
    path = folder / DB_NAME
    if not known and not any((folder / name).exists() for name in _FILES):
        raise LedgerError(of_file(path, said("no-ledger-here")))
    try:
        with LedgerView.open(folder) as view:
            report = walk(view)
            fault = view.file_fault("integrity_check") if report.ok else report.say
            ledger = view.name() if report.rows else known
    except LedgerError as error:
        return Old(error.said, known, 0, "")
    if fault is None and known in ("", ledger):
        raise LedgerError(of_file(path, said("ledger-is-sound")))
    if fault is None:
        fault = of_file(path, said("other-ledger-begun", found=ledger, known=known))
    return Old(fault, ledger, report.rows, report.head if report.rows else "")


def carry_on(folder: Path, old: Old) -> Path:
    """Put the old files aside, byte for byte, and begin a ledger that carries on from them.

    Gives the folder they are in. Raises LedgerError; they are in one of both folders then.
    """
    aside = next(at for n in range(1, 10_000) if not (at := folder / ASIDE.format(n)).exists())
    lock = FolderLock(folder)
    try:
        make_folder(aside)
        for name in _FILES:
            if (folder / name).exists():
                (folder / name).rename(aside / name)
        flush_folder(aside)
        flush_folder(folder)
    except OSError as error:
        why = because(said("folder-not-written"), error.strerror)
        raise LedgerError(of_file(aside, why)) from error
    finally:
        lock.release()
    Ledger.open(folder, previous=old.link).close()
    return aside
