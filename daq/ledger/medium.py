"""Whether what is written in a folder outlives a power cut: no file system in memory does."""

import os
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.errors import LedgerError, of_file
from daq.words import said

MOUNTS: Final = Path("/proc/self/mountinfo")
"""As proc(5) describes it."""

_IN_MEMORY: Final = frozenset({"tmpfs", "ramfs", "devtmpfs"})
_DEEP: Final = 8
"""So many overlays may lie on each other before they are taken for one."""


@dataclass(frozen=True, slots=True)
class Mount:
    """Where a file system hangs, of which kind it is, and the options it was mounted with."""

    at: Path
    kind: str
    options: str


def require_lasting(folder: Path, mounts: Path = MOUNTS) -> None:
    """Raise LedgerError for a folder, made or not, that lies in memory.

    An overlay lies where its upper folder does; where that is out of sight, as in a container,
    nothing is known and nothing is refused.
    """
    found = _mounts(mounts)
    path = folder
    for _ in range(_DEEP):
        mount = _mount_of(path, found)
        if mount is None:
            return
        if mount.kind in _IN_MEMORY:
            raise LedgerError(of_file(folder, said("data-in-memory", kind=mount.kind)))
        upper = re.search(r"(?:^|,)upperdir=([^,]+)", mount.options)
        if mount.kind != "overlay" or upper is None:
            return
        path = Path(_plain(upper[1]))
        if not path.exists():
            return


def _mount_of(path: Path, mounts: list[Mount]) -> Mount | None:
    """The mount a path lies on: the last one of those that hang at or deepest above it."""
    real = Path(os.path.realpath(path))
    above = [mount for mount in mounts if real == mount.at or mount.at in real.parents]
    deepest = max((len(mount.at.parts) for mount in above), default=0)
    return next((m for m in reversed(above) if len(m.at.parts) == deepest), None)


def _mounts(file: Path) -> list[Mount]:
    """All mounts, in the order they were made; none where the kernel does not tell."""
    try:
        lines = file.read_text(encoding="utf-8", errors="surrogateescape").splitlines()
    except OSError:
        return []
    found = []
    for line in lines:
        left, dash, right = line.partition(" - ")
        before, after = left.split(" "), right.split(" ")
        if dash and len(before) > 4 and len(after) > 2:
            found.append(Mount(Path(_plain(before[4])), after[0], after[2]))
    return found


def _plain(text: str) -> str:
    """A path with its blanks and commas, which stand as octal numbers."""
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), text)
