"""A sound copy of a ledger that is in use; copying the live files would not give one."""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from daq.ledger.errors import LedgerError, NotSound, because, of_file
from daq.ledger.folder import flush_folder, make_folder
from daq.ledger.progress import SILENT, Progress
from daq.ledger.reads import DB_NAME
from daq.ledger.verify import Anchor, Each, Report, no_more, verify
from daq.ledger.view import LedgerView
from daq.words import said


def backup(folder: Path, target: Path, progress: Progress = SILENT) -> Report:
    """Copy the ledger in `folder`, as it is at one moment, into the new folder `target`.

    May run beside the writer. The copy is checked from its first row to its
    last, and `target` appears whole or not at all. Raises LedgerError if
    `target` exists or cannot be written to, NotSound if the copy is not sound.
    """
    if target.exists():
        raise LedgerError(of_file(target, said("folder-exists")))
    with appearing(target) as part:
        with LedgerView.open(folder) as view:
            view.copy_to(part / DB_NAME, progress)
        return proven(part, progress=progress)


@contextmanager
def appearing(target: Path) -> Iterator[Path]:
    """Give a folder to fill with a ledger: it becomes `target`, flushed, or nothing is left of it.

    Raises LedgerError if it cannot be written.
    """
    target = target.absolute()
    part = target.with_name(f"{target.name}.part-{os.getpid()}")
    try:
        make_folder(part)
        try:
            yield part
            flush_folder(part)
            part.rename(target)
        finally:
            _clear(part)
        flush_folder(target.parent)
    except OSError as error:
        why = because(said("folder-not-written"), error.strerror)
        raise LedgerError(of_file(target, why)) from error


def proven(
    part: Path,
    anchors: Sequence[Anchor] = (),
    each: Each = no_more,
    progress: Progress = SILENT,
) -> Report:
    """Check a copy from its first row to its last. Raises NotSound."""
    report = verify(part, anchors, each, progress=progress)
    if not report.ok:
        raise NotSound(said("copy-not-sound", why=report.say))
    return report


def _clear(part: Path) -> None:
    """Take away what a failed copy left behind."""
    for name in (DB_NAME, f"{DB_NAME}-journal"):
        (part / name).unlink(missing_ok=True)
    if part.exists():
        part.rmdir()
