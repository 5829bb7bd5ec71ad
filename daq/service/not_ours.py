"""A data folder that belongs to somebody else."""

import os
from pathlib import Path


def not_ours(error: BaseException, data: Path | None) -> str:
    """What to do about a data folder that this user may not make or write in; "" for all else."""
    found = error if isinstance(error, PermissionError) else error.__cause__
    if data is None or not isinstance(found, PermissionError) or found.filename is None:
        return ""
    folder, path = data.expanduser(), Path(os.fsdecode(found.filename))
    if not (path.is_relative_to(folder) or folder.is_relative_to(path)):
        return ""
    return (
        f"{folder}: this user may not write there; choose a folder of this user's own, "
        f"or have this one made over to it: sudo install -d -o $USER {folder}"
    )
