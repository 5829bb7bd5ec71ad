"""An emptied database file: whoever opens it, for reading too, has its log deleted."""

from pathlib import Path
from typing import Final

from daq.ledger.errors import LedgerError, of_file
from daq.words import said

_AS_GOOD_AS_EMPTY: Final = 1
"""Bytes: SQLite takes a file of one for an empty one (os_unix.c, unixFileSize)."""


def refuse_emptied(path: Path, known: str = "") -> None:
    """Refuse the empty file `path` beside a log with rows in it. Raises LedgerError.

    And where a ledger, `known`, was begun before: not even an empty file is to lie in its place.
    """
    log = path.with_name(path.name + "-wal")
    if _size(path) <= _AS_GOOD_AS_EMPTY and _size(log) > 0:
        raise LedgerError(of_file(path, said("log-holds-rows", log=log.name)))
    if _size(path) == 0 and known:
        raise LedgerError(of_file(path, said("begun-ledger-gone", known=known)))


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0
