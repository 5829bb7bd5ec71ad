"""An audit's rows out of a ledger's file, each held against its hash as it is read."""

from pathlib import Path

from daq.audit.codec import UnknownEvent
from daq.ledger.chain import link
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.let_go import evidence_fault, list_fault
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
    rows = tuple(_stored(view, *row) for row in view.rows_of(audit))
    if not rows:
        raise LedgerError(of_file(view.path, said("no-such-audit", audit=audit)))
    try:
        return record(rows)
    except UnknownEvent as error:
        raise LedgerError(of_file(view.path, error.said)) from error


def _stored(view: LedgerView, event: Event, body: bytes, stored: bytes, before: bytes) -> StoredRow:
    whole, let_go = _evidence(view, event)
    sound = link(before, body) == stored and whole
    return StoredRow(event, stored.hex(), before.hex(), sound, let_go)


def _evidence(view: LedgerView, event: Event) -> tuple[bool, int | None]:
    """Whether all evidence that a row names is there as it was stored, or rightly let go.

    With it the row that let it go, None where all is there.
    """
    if any(evidence_fault(view, event.seq, digest) for digest in event.evidence):
        return False, None
    by = next(filter(None, map(view.gone_by, event.evidence)), None)
    row = None if by is None else view.event(by)
    return row is None or list_fault(view, row) is None, by
