"""What can go wrong with a ledger, as codes a person at the machine can be told."""

from pathlib import Path
from typing import Final

import apsw

from daq.words import Said, SaidTrouble, said


class LedgerError(SaidTrouble):
    """The ledger cannot be opened or read; `said` names the file and the reason."""


class NotRecorded(LedgerError):
    """An append left no trace in the ledger, after a power cut either; trying again is safe."""


class NotKnown(NotRecorded):
    """A commit failed, and nothing could be written over it: the next start may find its rows.

    Trying again is safe all the same: whatever is committed next takes the place of it.
    """


class FolderInUse(LedgerError):
    """Another headsweep has the data folder."""


class NotSound(LedgerError):
    """A ledger is altered or damaged; `said` says where."""


class LetGo(LedgerError):
    """Evidence was let go on purpose; `row` is the one that says so."""

    def __init__(self, say: Said, row: int) -> None:
        """`say` names the evidence."""
        super().__init__(say)
        self.row = row


_SAID: Final[tuple[tuple[type[apsw.Error], Said], ...]] = (
    (apsw.FullError, said("disk-is-full")),
    (apsw.ReadOnlyError, said("file-is-read-only")),
    (apsw.BusyError, said("file-is-busy")),
    (apsw.CorruptError, said("file-is-damaged")),
    (apsw.NotADBError, said("file-is-no-ledger")),
    (apsw.CantOpenError, said("file-cannot-be-opened")),
    (apsw.IOError, said("disk-reported-an-error")),
    (apsw.ConnectionClosedError, said("ledger-is-closed")),
)


def of_file(path: Path, say: Said | str) -> Said:
    """What there is to say of a file or folder, with its name."""
    return said("of-file", path=str(path), say=say)


def because(say: Said, why: object) -> Said:
    """The same with what the system or the database says of it, in its own words."""
    return said("with-why", say=say, why=str(why))


def struck(path: Path, error: apsw.Error) -> Said:
    """Which file `error` struck and what it means, with the database's own text behind."""
    known = (say for kind, say in _SAID if isinstance(error, kind))
    return of_file(path, because(next(known, said("database-refused")), error))
