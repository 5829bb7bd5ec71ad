"""Which report of an audit this is: its number, what it replaces, the row and hash it is of."""

from dataclasses import dataclass
from typing import Final

from daq.audit.events import ReportAmended
from daq.ledger.anchors import token
from daq.records.record import AuditRecord, AuditRow

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

    `replaces`: the number of the one before, `because` of what; both "" for the first.
    `issued`: the row it was issued with, the signature's or an amendment's; None of a draft.
    """

    text: str
    nth: int
    replaces: str
    because: str
    issued: AuditRow | None


def number(record: AuditRecord) -> Number:
    """Return the number of an audit's latest report."""
    short = record.opened.short
    later = [(row, row.data) for row in record.rows if isinstance(row.data, ReportAmended)]
    if record.signed is None:
        return Number(f"{short}-draft", 0, "", "", None)
    if not later:
        return Number(f"{short}-1", 1, "", "", record.closed)
    row, data = later[-1]
    return Number(f"{short}-{data.nth}", data.nth, f"{short}-{data.nth - 1}", data.because, row)


def replaced(record: AuditRecord) -> tuple[str, ...]:
    """Return the numbers of the reports that were replaced, the oldest first."""
    return tuple(f"{record.opened.short}-{nth}" for nth in range(1, number(record).nth))


def kept(record: AuditRecord, asked: str) -> str | None:
    """Return the SHA-256 under which the PDF of a replaced report is kept; None if none is."""
    short = record.opened.short
    replaced = {
        f"{short}-{row.data.nth - 1}": row.data.kept
        for row in record.rows
        if isinstance(row.data, ReportAmended)
    }
    return replaced.get(asked.strip().upper())
