"""Which report of an audit this is: its number, what it replaces, the row and hash it is of."""

from dataclasses import dataclass, replace
from typing import Final

from daq.audit.events import Addendum, ReportAmended
from daq.ledger.anchors import token
from daq.records.record import AuditRecord, AuditRow
from daq.words import Said, said

_LETTERS: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""Those a person can say aloud, without look-alikes."""
_PART: Final = 4


@dataclass(frozen=True)
class ReportAnchor:
    """The audit's last row as it was read: what a ledger must have, or its end was cut off.

    `token` is what is looked for in the bytes of any report; `check` are eight letters made of
    the hash, short enough to be read out.
    """

    ledger: str
    row: int
    hash: str
    token: str
    check: str
    sound: bool


def anchor(record: AuditRecord) -> ReportAnchor:
    """Return where in the ledger an audit ends."""
    last = record.last
    seq = last.event.seq
    mark, check = token(last.event.ledger, seq, last.hash), check_word(last.hash)
    return ReportAnchor(last.event.ledger, seq, last.hash, mark, check, record.sound)


def check_word(digest: str) -> str:
    """Eight letters of a hash (hex), four and four: its first 40 bits."""
    bits = int(digest[:10], 16)
    letters = "".join(_LETTERS[bits >> shift & 31] for shift in range(35, -1, -5))
    return f"{letters[:_PART]}-{letters[_PART:]}"


@dataclass(frozen=True)
class Number:
    """A report's number, such as A-7PBQ-1: the audit's short form and which report of it.

    `replaces`: the number of the one before, `because` of what; both empty for the first.
    `issued`: the row it was issued with: the signature's, an addendum's or an amendment's; None of
    a draft.
    """

    text: str
    replaces: str
    because: Said | str
    issued: AuditRow | None


def number(record: AuditRecord) -> Number:
    """Return the number of an audit's latest report.

    Its first is issued with its signature; whatever is added afterwards issues the next, as an
    amendment does. So no two reports of one number say something else.
    """
    issued = _issued(record)
    if not issued:
        return Number(f"{record.opened.short}-draft", "", "", None)
    nth = len(issued)
    last = issued[-1]
    before = _text(record, nth - 1) if nth > 1 else ""
    return Number(_text(record, nth), before, _because(last), last)


def replaced(record: AuditRecord) -> tuple[str, ...]:
    """Return the numbers of the reports that were replaced, the oldest first."""
    return tuple(_text(record, nth) for nth in range(1, len(_issued(record))))


def earlier(record: AuditRecord, nth: int) -> AuditRecord:
    """Return an audit as its report of that number, counted from one, was made from it."""
    until = _issued(record)[nth].seq
    return replace(record, rows=tuple(row for row in record.rows if row.seq < until))


def kept(record: AuditRecord, nth: int) -> str | None:
    """Return the SHA-256 under which the PDF of a replaced report is kept; None if none is."""
    data = _issued(record)[nth].data
    return data.kept if isinstance(data, ReportAmended) else None


def _issued(record: AuditRecord) -> tuple[AuditRow, ...]:
    """The rows that issued a report each, in order."""
    if record.signed is None or record.closed is None:
        return ()
    after = (row for row in record.rows if isinstance(row.data, Addendum | ReportAmended))
    return (record.closed, *after)


def _text(record: AuditRecord, nth: int) -> str:
    return f"{record.opened.short}-{nth}"


def _because(row: AuditRow) -> Said | str:
    if isinstance(row.data, ReportAmended):
        return row.data.because
    return said("paper-because-added", row=row.seq) if isinstance(row.data, Addendum) else ""
