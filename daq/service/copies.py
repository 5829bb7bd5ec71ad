"""Copies of the record on a stick: each checked, the oldest ones let go, the last one noted."""

import datetime
import json
import re
import shutil
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.backup import backup, proven
from daq.ledger.errors import LedgerError
from daq.ledger.folder import flush_folder, make_folder
from daq.ledger.progress import SILENT, Progress
from daq.ledger.reads import DB_NAME
from daq.ledger.verify import Report
from daq.ledger.view import LedgerView
from daq.service.delivery.folder import put
from daq.service.rights.store import write
from daq.settings import SettingsError, build, plain
from daq.words import Stamp, said

NAME: Final = "backup.json"
"""In the data folder: what the last copy was."""

FILES: Final = "config"
"""In a copy: the shop's files, as they were then."""

BESIDES: Final = 1_000_000
"""Bytes that a copy takes besides the record itself: the shop's files, and room to end well."""


@dataclass(frozen=True)
class LastCopy:
    """The last copy that came through: when (UTC, ISO 8601), where, and of how many rows."""

    utc: str
    to: str
    rows: int


def copy_into(
    data: Path,
    place: Path,
    keep: int,
    stamp: Stamp,
    config: Path | None = None,
    progress: Progress = SILENT,
) -> LastCopy:
    """Have a checked copy of the ledger in the folder `place`, which keeps `keep` of them at most.

    It is called after the ledger and its last row. One of that row that is there already is
    checked again and stays. Taken away are older copies of this very ledger, the oldest first,
    also where the new one has no room otherwise: nothing else, and never the last.

    Raises:
        LedgerError: `place` is not there (it is never made: a stick may not be in), or takes none.
        NotSound: the ledger is altered or damaged; nothing was taken away.
        OSError: what is there cannot be read, or the note of it not be written.
    """
    if not place.is_dir():
        raise LedgerError(said("folder-not-there", folder=str(place)))
    with LedgerView.open(data) as view:
        ours, row = f"headsweep-{view.name()[:8]}", view.ends()[0]
    target = place / f"{ours}-{row:09}"
    report = _still_sound(target, progress)
    if report is None:
        needed = sum(each.stat().st_size for each in data.glob(f"{DB_NAME}*")) + BESIDES
        older = _copies(place, ours)
        while len(older) > 1 and shutil.disk_usage(place).free < needed:
            _take_away(older.pop(0))
        report = backup(data, target, progress)
    if config is not None:
        _bring_along(config, target / FILES)
    for copy in _copies(place, ours)[:-keep]:
        _take_away(copy)
    flush_folder(place)
    moment = datetime.datetime.fromtimestamp(stamp.utc_us // 1_000_000, datetime.UTC)
    last = LastCopy(moment.strftime("%Y-%m-%dT%H:%M:%SZ"), str(target), report.rows)
    write(data / NAME, f"{json.dumps(plain(last))}\n")
    return last


def last_copy(data: Path) -> LastCopy | None:
    """What the last copy was; None where none is known of."""
    try:
        return build(LastCopy, json.loads((data / NAME).read_bytes()), NAME)
    except (OSError, ValueError, RecursionError, SettingsError):
        return None


def _copies(place: Path, ours: str) -> list[Path]:
    """The copies of one ledger, by their rows."""
    name = re.compile(rf"{ours}-\d{{9,}}")
    found = [each for each in place.iterdir() if name.fullmatch(each.name)]
    return sorted(
        (each for each in found if (each / DB_NAME).is_file()), key=lambda each: each.name
    )


def _still_sound(target: Path, progress: Progress) -> Report | None:
    """The check of a copy that is there already; one that fails it is worth nothing and goes."""
    if not (target / DB_NAME).is_file():
        return None
    with suppress(LedgerError):
        return proven(target, progress=progress)
    _take_away(target)
    return None


def _bring_along(config: Path, to: Path) -> None:
    for file in sorted(config.rglob("*.toml")):
        folder = to / file.relative_to(config).parent
        make_folder(folder)
        put(folder, file.name, file.read_bytes())


def _take_away(copy: Path) -> None:
    """Take away what was put there; with something else in it the folder stays."""
    shutil.rmtree(copy / FILES, ignore_errors=True)
    for file in copy.glob(f"{DB_NAME}*"):
        file.unlink()
    with suppress(OSError):
        copy.rmdir()
