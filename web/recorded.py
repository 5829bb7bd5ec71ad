"""Audits on record, as pages and API ask for them: by id, how that begins, or short form."""

from werkzeug.exceptions import NotFound, ServiceUnavailable

from daq.ledger.errors import LedgerError
from daq.records.record import AuditRecord
from daq.words import Said
from web.rooms import on_record_or_404, rooms

_NONE = ("no-such-audit", "several-audits")


def record_or_404(text: str) -> AuditRecord:
    """Return the audit that is meant, read now; 404 for none, 503 where it is unreadable."""
    there = on_record_or_404()
    try:
        return there.read(there.find(text))
    except LedgerError as error:
        raise unread(error) from error


def kept_or_404(text: str) -> AuditRecord:
    """The same as it was read last: for whoever asks for one again and again."""
    there = on_record_or_404()
    try:
        return there.kept(text)
    except LedgerError as error:
        raise unread(error) from error


def unread(error: LedgerError) -> NotFound | ServiceUnavailable:
    """What is answered where an audit is not there, or cannot be read."""
    why = error.said.of.get("say")
    says = rooms().says
    if isinstance(why, Said) and why.code in _NONE:
        return NotFound(says.words(why))
    return ServiceUnavailable(says.words(error.said))
