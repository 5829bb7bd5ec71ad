"""Read-only views of a ledger, for other threads and other processes than the writer's."""

from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Self

import apsw

from daq.ledger.emptied import refuse_emptied
from daq.ledger.errors import LedgerError, of_file, struck
from daq.ledger.progress import MEGA, SILENT, Progress
from daq.ledger.reads import DB_NAME, Reads
from daq.ledger.schema import own_format, shape_of
from daq.ledger.version import require_sqlite
from daq.words import said

_BUSY_MS = 5000
_ASKS_STEPS = 1000
"""Steps of the database's machine: a fraction of a millisecond."""
_COPIES_STEPS = 100
"""Some twenty rows, or pieces of evidence, as they are copied."""


class LedgerView(Reads):
    """A connection that cannot write; usable while the writer works. One thread each."""

    @classmethod
    def open(cls, folder: Path) -> Self:
        """Open the ledger in `folder` for reading.

        Raises LedgerError if there is none, or the file cannot be read or is something else.
        """
        require_sqlite()
        path = folder / DB_NAME
        if not path.exists():
            raise LedgerError(of_file(path, said("no-ledger-here")))
        refuse_emptied(path)
        try:
            return cls(path, _opened(path, str(path)))
        except (apsw.ReadOnlyError, apsw.CantOpenError) as error:
            # With its log put back into it, and nobody able to write, it cannot change meanwhile.
            if path.with_name(f"{DB_NAME}-wal").exists():
                raise LedgerError(struck(path, error)) from error
        except apsw.Error as error:
            raise LedgerError(struck(path, error)) from error
        try:
            return cls(path, _opened(path, f"{path.absolute().as_uri()}?immutable=1"))
        except apsw.Error as error:
            raise LedgerError(struck(path, error)) from error

    def asks(self, over: Callable[[], bool]) -> None:
        """Ask in the midst of whatever lasts: true gives it up, with a LedgerError."""
        self._connection.set_progress_handler(over, _ASKS_STEPS)

    def copy_to(self, path: Path, progress: Progress = SILENT) -> None:
        """Write the ledger as it is now into the new file `path`, flushed. Raises LedgerError."""
        progress.begin("copied", max(1, self.path.stat().st_size // MEGA), "MB")

        def look() -> bool:
            progress.at(path.stat().st_size // MEGA if path.exists() else 0)
            return False

        self._connection.set_progress_handler(look, _COPIES_STEPS)
        try:
            self._connection.execute("VACUUM INTO ?", (str(path),))
        except apsw.Error as error:
            raise LedgerError(struck(path, error)) from error
        finally:
            self._connection.set_progress_handler(None)

    def close(self) -> None:
        """Close the connection."""
        self._connection.close()

    def __enter__(self) -> Self:
        """Give the view itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close it."""
        self.close()


def _opened(path: Path, name: str) -> apsw.Connection:
    """A connection that cannot write. Raises apsw.Error, LedgerError for what is no ledger."""
    flags = apsw.SQLITE_OPEN_READONLY | apsw.SQLITE_OPEN_URI
    connection = apsw.Connection(name, flags=flags)
    try:
        connection.set_busy_timeout(_BUSY_MS)
        if shape_of(connection).application_id != own_format().application_id:
            raise LedgerError(of_file(path, said("not-a-ledger")))
    except BaseException:
        connection.close()
        raise
    return connection
