"""A folder that is there after a power cut: its name is flushed, and that of every one above."""

import contextlib
import os
from pathlib import Path


def make_folder(folder: Path) -> None:
    """Make `folder` and what is missing above it, each flushed into the one it stands in.

    Raises OSError.
    """
    if folder.is_dir():
        return
    make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    flush_folder(folder.parent)


def flush_above(folder: Path) -> None:
    """Flush the names of `folder` and of all above it, as far as they may be opened.

    Whoever made them may have been stopped before doing so.
    """
    for above in folder.absolute().parents:
        with contextlib.suppress(OSError):
            flush_folder(above)


def flush_folder(folder: Path) -> None:
    """Make the names in `folder` outlive a power cut. Raises OSError."""
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
