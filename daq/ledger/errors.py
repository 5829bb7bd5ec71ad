"""What can go wrong with a ledger, in words a person at the machine can act on."""

from pathlib import Path
from typing import Final

import apsw

from daq.words import Trouble


class LedgerError(Trouble):
    """The ledger cannot be opened or read; the text names the file and the reason."""


class NotRecorded(LedgerError):
    """An append left no trace in the ledger; trying again later is safe."""


_WORDS: Final[tuple[tuple[type[apsw.Error], str], ...]] = (
    (apsw.FullError, "the disk is full"),
    (apsw.ReadOnlyError, "the file or its disk is read-only"),
    (apsw.BusyError, "another program is writing to the file"),
    (apsw.CorruptError, "the file is damaged"),
    (apsw.NotADBError, "the file is damaged or is no ledger"),
    (apsw.CantOpenError, "the file cannot be opened"),
    (apsw.IOError, "the disk reported an error"),
    (apsw.ConnectionClosedError, "the ledger is closed"),
)


def in_words(path: Path, error: apsw.Error) -> str:
    """Say which file `error` struck and what it means, with the database's own text behind."""
    for kind, words in _WORDS:
        if isinstance(error, kind):
            return f"{path}: {words} ({error})"
    return f"{path}: the database refused ({error})"
