"""A practice record may become only so large: it is nobody's, and a card is soon full."""

from pathlib import Path

from daq.ledger.lock import LOCK_NAME, FolderLock
from daq.ledger.reads import DB_NAME
from daq.ledger.seal import SEAL_NAME
from daq.words import Said, said

MOST_BYTES = 64 * 1024 * 1024
"""Some hundred practice audits with their samples."""

FILES = (DB_NAME, f"{DB_NAME}-wal", f"{DB_NAME}-shm", SEAL_NAME, LOCK_NAME)


class Cap:
    """The cap on the record in one data folder."""

    def __init__(self, data: Path, most_bytes: int = MOST_BYTES) -> None:
        """Nothing is looked at yet."""
        self._data = data
        self._most = most_bytes

    def refusal(self) -> Said | None:
        """Why nothing more is recorded, where the record is full."""
        return said("practice-full") if self._bytes() > self._most else None

    def begin_anew(self) -> None:
        """Take a full record away. Raises LedgerError if somebody uses the folder."""
        if self._bytes() <= self._most:
            return
        lock = FolderLock(self._data)
        try:
            for name in FILES:
                (self._data / name).unlink(missing_ok=True)
        finally:
            lock.release()

    def _bytes(self) -> int:
        paths = [self._data / name for name in FILES[:2]]
        return sum(path.stat().st_size for path in paths if path.exists())
