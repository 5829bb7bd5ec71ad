"""Whether the ledger's files are still the ones that were opened."""

from pathlib import Path
from typing import Final

from daq.ledger.errors import NotRecorded, of_file
from daq.words import said

_FILES: Final = ("", "-wal", "-shm")
"""The database, its log and what its connections share; for as long as a writer has them open
they stay the same files, whatever is checkpointed, copied or looked at."""


class Place:
    """The files under their names, as they were when they had just been opened."""

    def __init__(self, path: Path) -> None:
        """Look at the database file `path`, which is open, and those beside it."""
        self._paths = tuple(path.with_name(path.name + end) for end in _FILES)
        self._known = tuple(map(_identity, self._paths))

    def require(self) -> None:
        """Raise NotRecorded if a file is gone or another bears its name.

        The open files would take rows all the same, and nobody would ever find them again.
        """
        for path, known in zip(self._paths, self._known, strict=True):
            found = _identity(path)
            if found is None or found != known:
                how = "gone" if found is None else "another"
                raise NotRecorded(of_file(path, said("file-out-of-place", how=how)))


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
