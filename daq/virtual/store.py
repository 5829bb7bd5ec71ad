"""What a restarted demo finds again, and safe ways of putting it on disk."""

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any


class StateFileError(Exception):
    """The mill's state file cannot be used; the text says which, why and what to do."""


def replace_link(link: Path, target: str) -> None:
    """Make `link` a symbolic link to `target`, replacing an older link in one step.

    Raises FileExistsError when `link` is something else than a link.
    """
    link.parent.mkdir(parents=True, exist_ok=True)
    if link.exists() and not link.is_symlink():
        raise FileExistsError(f"{link}: found something that is not a link; move it away")
    fresh = link.with_name(f".{link.name}.{os.getpid()}")
    fresh.unlink(missing_ok=True)
    fresh.symlink_to(target)
    fresh.replace(link)


def save(path: Path, state: Mapping[str, Any]) -> None:
    """Write `state` as JSON so that a power cut leaves the old file or the new one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    with fresh.open("w", encoding="utf-8") as file:
        json.dump(state, file, allow_nan=False, indent=1, sort_keys=True)
        file.flush()
        os.fsync(file.fileno())
    fresh.replace(path)
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)


def load(path: Path) -> dict[str, Any] | None:
    """Return what `save` wrote, or None when there is no file yet.

    Raises StateFileError when the file is not the mill's.
    """
    try:
        state = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return None
    except (OSError, ValueError) as error:
        raise StateFileError(
            f"{path}: not a practice mill's state ({error}); move it away"
        ) from error
    if not isinstance(state, dict):
        raise StateFileError(f"{path}: found {type(state).__name__}; allowed: a JSON object")
    return state
