"""Reports into a folder: a file is there whole or not at all, and none is written over."""

import contextlib
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from daq.ledger.folder import flush_folder
from daq.service.delivery.courier import NotDelivered
from daq.words import said

PART: Final = ".part"
"""What the name of a file ends in while it is being written."""


def drop(folder: Path, files: Mapping[str, Callable[[], bytes]]) -> None:
    """Have these files in the folder, each made by its function unless it is there already.

    The folder is never made: one that is gone may be a disk that is not plugged in.

    Raises:
        NotDelivered: the folder is not there or does not take them.
    """
    try:
        if not folder.is_dir():
            raise NotDelivered(said("folder-not-there", folder=str(folder)))
        for name, made in files.items():
            if not (folder / name).exists():
                put(folder, name, made())
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise NotDelivered(said("folder-does-not-take", folder=str(folder), why=why)) from error


def put(folder: Path, name: str, content: bytes) -> None:
    """Under another name in the same folder first, flushed, then renamed. Raises OSError.

    Others may write there as well: nothing that stands under that name is written through.
    """
    part = folder / f".{name}{PART}"
    part.unlink(missing_ok=True)
    try:
        with part.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        part.replace(folder / name)
        flush_folder(folder)
    except OSError:
        with contextlib.suppress(OSError):
            part.unlink()
        raise
