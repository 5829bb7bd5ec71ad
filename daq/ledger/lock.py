"""One headsweep at a time on a data folder, held by flock on a file of its own.

The lock file also names the ledger that was begun in the folder, so that an
emptied or vanished database is noticed instead of being quietly begun anew.
"""

import errno
import fcntl
import os
from pathlib import Path
from typing import Final

from daq.ledger.errors import FolderInUse, LedgerError, because, of_file
from daq.ledger.folder import flush_above, make_folder
from daq.words import said

LOCK_NAME: Final = "ledger.lock"
_UUID_LENGTH: Final = 36
_CLOSED: Final = {errno.ENOSPC: said("disk-is-full"), errno.EROFS: said("disk-is-read-only")}


def refuse_in_use(folder: Path) -> None:
    """Raise FolderInUse if a headsweep has `folder` open. Nothing is made or altered."""
    path = folder / LOCK_NAME
    try:
        fd = os.open(path, os.O_RDONLY)
    except OSError:  # no lock, or none of ours
        return
    try:
        fcntl.flock(fd, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except OSError as error:
        raise FolderInUse(of_file(path, said("folder-in-use"))) from error
    finally:
        os.close(fd)


class FolderLock:
    """The lock on one data folder; gone when released or when the process ends."""

    def __init__(self, folder: Path) -> None:
        """Make the folder if need be and lock it.

        Raises LedgerError if another process has it or it cannot be written to.
        """
        self.path = folder / LOCK_NAME
        try:
            make_folder(folder)
            self._fd = os.open(self.path, os.O_RDWR | os.O_CREAT, 0o644)
        except OSError as error:
            closed = _CLOSED.get(error.errno or 0, said("not-open-for-writing"))
            raise LedgerError(of_file(self.path, because(closed, error.strerror))) from error
        try:
            fcntl.flock(self._fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            os.close(self._fd)
            raise FolderInUse(of_file(self.path, said("folder-in-use"))) from error
        if not self.ledger:  # whatever is begun here now is to be found again
            flush_above(folder)

    @property
    def ledger(self) -> str:
        """The UUID of the ledger begun in this folder, or "" if none is known to be."""
        text = os.pread(self._fd, _UUID_LENGTH, 0).decode("ascii", "replace")
        # A cut in the middle of writing leaves less, or zero bytes: then nothing is known.
        return text if len(text) == _UUID_LENGTH and text.isprintable() else ""

    def name_ledger(self, uuid: str) -> None:
        """Write down which ledger lives here. Raises OSError."""
        if self.ledger != uuid:
            os.pwrite(self._fd, uuid.encode("ascii"), 0)
            os.fsync(self._fd)

    def release(self) -> None:
        """Let the folder go."""
        os.close(self._fd)
