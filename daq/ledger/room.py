"""Whether the disk under the ledger still has room."""

import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.errors import because, of_file
from daq.words import Figure, Said, said

WANTED_BYTES: Final = 16 * 1024 * 1024
"""Two audits with their evidence (3 MB each), the write-ahead log and some air."""


@dataclass(frozen=True, slots=True)
class Room:
    """How much the disk can still take. `say` is None when there is room."""

    say: Said | None
    free_bytes: int

    def __bool__(self) -> bool:
        """True when there is room."""
        return self.say is None


def room(folder: Path, wanted_bytes: int = WANTED_BYTES) -> Room:
    """Ask the file system under `folder` for the space an ordinary user may still fill."""
    try:
        found = os.statvfs(folder)
    except OSError as error:
        why = because(said("disk-does-not-answer"), error.strerror)
        return Room(of_file(folder, why), 0)
    free = found.f_bavail * found.f_frsize
    if found.f_flag & os.ST_RDONLY:
        return Room(of_file(folder, said("disk-is-read-only")), free)
    if free < wanted_bytes:
        little = said("room-left", left=_megabytes(free), wanted=_megabytes(wanted_bytes))
        return Room(of_file(folder, little), free)
    return Room(None, free)


def _megabytes(count: int) -> Figure:
    return Figure(count / 1e6, 1)
