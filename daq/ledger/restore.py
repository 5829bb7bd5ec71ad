"""A ledger out of a copy of it, or out of an export with its evidence, into a folder of its own."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from daq.ledger.backup import appearing, proven
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.imports import read_export
from daq.ledger.lock import LOCK_NAME, refuse_in_use
from daq.ledger.progress import SILENT, Progress
from daq.ledger.reads import DB_NAME
from daq.ledger.verify import Anchor, Each, Report, no_more
from daq.ledger.view import LedgerView
from daq.words import Stamp, said

_OF_A_LEDGER = (DB_NAME, f"{DB_NAME}-wal", LOCK_NAME)


@dataclass(frozen=True, slots=True)
class Restored:
    """What was found: the check of it, the ledger's UUID, its last row's stamp.

    `chunks`: how many pieces of evidence its rows name, all there but those `let_go` on purpose.
    """

    report: Report
    ledger: str
    last: Stamp
    chunks: int
    let_go: int


def restore(
    source: Path,
    folder: Path,
    anchors: Sequence[Anchor] = (),
    each: Each = no_more,
    progress: Progress = SILENT,
) -> Restored:
    """Put the ledger that `source` holds, a copy's folder or an export's file, into `folder`.

    That is to be new, or empty. It is checked from its first row to its last, with all evidence
    and against `anchors`; `folder` appears whole or not at all. `each` is handed every row.

    Raises:
        LedgerError: there is no ledger in `source`, or `folder` cannot take one.
        NotSound: what `source` holds is altered, damaged or not all there.
    """
    _refuse(source, folder)
    with appearing(folder) as part:
        if source.is_dir():
            with LedgerView.open(source) as view:
                view.copy_to(part / DB_NAME, progress)
        else:
            read_export(source, part / DB_NAME, progress)
        report = proven(part, anchors, each, progress)
        with LedgerView.open(part) as view:
            last = view.event(report.rows)
            assert last is not None
            chunks, let_go = view.evidence()
            return Restored(report, view.name(), last.stamp, chunks, let_go)


def _refuse(source: Path, folder: Path) -> None:
    """Raise LedgerError for a folder in use, or one that is not empty."""
    for each in (source, folder):
        refuse_in_use(each)
    if not source.exists():
        raise LedgerError(of_file(source, said("nothing-is-here")))
    if any((folder / name).exists() for name in _OF_A_LEDGER):
        raise LedgerError(of_file(folder, said("ledger-is-here")))
    if folder.exists() and not (folder.is_dir() and not any(folder.iterdir())):
        raise LedgerError(of_file(folder, said("folder-not-empty")))
