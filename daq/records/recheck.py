"""Every decision of a ledger made again from what it recorded."""

from collections.abc import Iterator
from pathlib import Path

from daq.audit.codec import UnknownEvent
from daq.audit.recompute import Difference, NotAgain, rechecked
from daq.ledger.errors import LedgerError, LetGo, of_file
from daq.ledger.progress import SILENT, Progress
from daq.ledger.view import LedgerView
from daq.words import Event


def recheck(data: Path, progress: Progress = SILENT) -> Iterator[Difference | NotAgain | None]:
    """Make every decision again from its recorded input; give what comes of each.

    Raises:
        LedgerError: the ledger cannot be read, or not by this release.
    """
    with LedgerView.open(data) as view:

        def chunk(digest: str) -> bytes | None:
            try:
                return view.chunk(digest)
            except LetGo:
                return None

        def events() -> Iterator[Event]:
            for event in view.events():
                progress.at(event.seq)
                yield event

        progress.begin("decided again", view.ends()[0])
        try:
            yield from rechecked(events(), chunk)
        except UnknownEvent as error:
            raise LedgerError(of_file(view.path, error.said)) from error
