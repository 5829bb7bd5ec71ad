"""Whether the disk under the ledger still has room."""

import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

WANTED_BYTES: Final = 16 * 1024 * 1024
"""Two audits with their evidence (3 MB each), the write-ahead log and some air."""


@dataclass(frozen=True, slots=True)
class Room:
    """How much the disk can still take. `say` is "" when `ok`."""

    ok: bool
    say: str
    free_bytes: int

    def __bool__(self) -> bool:
        """True when there is room."""
        return self.ok


def room(folder: Path, wanted_bytes: int = WANTED_BYTES) -> Room:
    """Ask the file system under `folder` for the space an ordinary user may still fill."""
    try:
        found = os.statvfs(folder)
    except OSError as error:
        return Room(False, f"{folder}: the disk does not answer ({error.strerror})", 0)
    free = found.f_bavail * found.f_frsize
    if found.f_flag & os.ST_RDONLY:
        return Room(False, f"{folder}: the disk is read-only", free)
    if free < wanted_bytes:
        return Room(
            False,
            f"{folder}: {free / 1e6:.1f} MB left on the disk; wanted: {wanted_bytes / 1e6:.1f} MB",
            free,
        )
    return Room(True, "", free)
