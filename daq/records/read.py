"""An audit's rows out of a ledger's file, each held against its hash as it is read."""

from pathlib import Path

from daq.audit.codec import UnknownEvent
from daq.ledger.chain import link
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView
from daq.records.record import AuditRecord, StoredRow, record
from daq.words import Event, said


def read(data: Path, audit: str) -> AuditRecord:
    """Return an audit, by its whole UUID, from the ledger in `data`.

    Raises:
        LedgerError: the ledger cannot be read, has no such audit, or holds a row of it that this
            release does not know.
    """
    with LedgerView.open(data) as view:
        return read_from(view, audit)


def read_from(view: LedgerView, audit: str) -> AuditRecord:
    """The same from a view that is open. Raises LedgerError."""
    rows = tuple(
        StoredRow(
            event, stored.hex(), before.hex(), link(before, body) == stored and _whole(view, event)
        )
        for event, body, stored, before in view.rows_of(audit)
    )
    if not rows:
        raise LedgerError(of_file(view.path, said("no-such-audit", audit=audit)))
    try:
        return record(rows)
    except UnknownEvent as error:
        raise LedgerError(of_file(view.path, error.said)) from error


def _whole(view: LedgerView, event: Event) -> bool:
    """Whether all evidence that a row names is there as it was stored."""
    try:
        for digest in event.evidence:
            view.chunk(digest)
    except LedgerError:
        return False
    return True
