"""A sound copy of a ledger that is in use; copying the live files would not give one."""

import os
from pathlib import Path

from daq.ledger.errors import LedgerError, because, of_file
from daq.ledger.folder import flush_folder, make_folder
from daq.ledger.reads import DB_NAME
from daq.ledger.verify import Report, verify
from daq.ledger.view import LedgerView
from daq.words import said


def backup(folder: Path, target: Path) -> Report:
    """Copy the ledger in `folder`, as it is at one moment, into the new folder `target`.

    May run beside the writer. The copy is checked from its first row to its
    last, and `target` appears whole or not at all. Raises LedgerError if
    `target` exists, cannot be written to, or the copy is not sound.
    """
    part = target.with_name(f"{target.name}.part-{os.getpid()}")
    if target.exists():
        raise LedgerError(of_file(target, said("folder-exists")))
    try:
        make_folder(part)
        try:
            report = _fill(folder, part)
            part.rename(target)
        finally:
            _clear(part)
        flush_folder(target.parent)
    except OSError as error:
        why = because(said("folder-not-written"), error.strerror)
        raise LedgerError(of_file(target, why)) from error
    return report


def _fill(folder: Path, part: Path) -> Report:
    path = part / DB_NAME
    with LedgerView.open(folder) as view:
        view.copy_to(path)
    flush_folder(part)
    report = verify(part)
    if not report.ok:
        raise LedgerError(said("copy-not-sound", why=report.say))
    return report


def _clear(part: Path) -> None:
    """Take away what a failed copy left behind."""
    for name in (DB_NAME, f"{DB_NAME}-journal"):
        (part / name).unlink(missing_ok=True)
    if part.exists():
        part.rmdir()
