"""The proof that a ledger is as it was written: every hash computed again from stored bytes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.body import decode
from daq.ledger.chain import GENESIS_PREV, link
from daq.ledger.errors import LedgerError
from daq.ledger.reads import Reads
from daq.ledger.view import LedgerView
from daq.words import Event

_LOWEST: Final = -(2**63)
_ANCHOR_DIGITS: Final = 8


@dataclass(frozen=True, slots=True)
class Anchor:
    """A row's hash as written down elsewhere, on a report for instance; its first digits do."""

    seq: int
    head: str

    def __post_init__(self) -> None:
        """Raise ValueError for an anchor that could never be missed."""
        digits = len(self.head)
        known = set(self.head) <= set("0123456789abcdef")
        if self.seq < 1 or not known or not _ANCHOR_DIGITS <= digits <= 64:
            raise ValueError(
                f"found row {self.seq} with hash {self.head!r}; allowed: a row from 1 and"
                f" the first {_ANCHOR_DIGITS} to 64 digits (0-9, a-f) of its hash"
            )


@dataclass(frozen=True, slots=True)
class Report:
    """What a check found.

    `rows` counts the good rows from the start, `head` is the hash (hex) of the
    last of them, `first_bad_seq` the first row that is missing or altered (None
    when the rows are good), `say` the finding in plain words.
    """

    ok: bool
    rows: int
    head: str
    first_bad_seq: int | None
    say: str


class _Bad(Exception):
    """Row `seq` is not as it was written."""

    def __init__(self, seq: int, say: str) -> None:
        super().__init__(say)
        self.seq = seq


def verify(folder: Path, anchors: Sequence[Anchor] = ()) -> Report:
    """Check the whole ledger in `folder`, row by row, in constant memory.

    May run beside the writer: it looks at the rows there were at the start.
    A chain alone cannot show that its end was cut off or that all of it was
    written anew; `anchors` from outside the file do. Raises LedgerError if the
    file cannot be opened at all.
    """
    with LedgerView.open(folder) as view:
        report = walk(view, anchors=anchors)
        if not report.ok:
            return report
        fault = view.file_fault("integrity_check")
        if fault:
            return Report(False, report.rows, report.head, None, fault)
        return report


def walk(
    reads: Reads,
    start: int = 1,
    anchors: Sequence[Anchor] = (),
    each: Callable[[Event], object] = lambda event: None,
) -> Report:
    """Check the rows from `start` to the last one there is now, and their evidence.

    With a `start` above 1 the row before it is taken as good, and its hash as the chain so far.
    `each` is handed every row that is good.
    """
    seq, head = start - 1, GENESIS_PREV
    try:
        last, _ = reads.last() or (0, b"")
        uuid = _uuid(reads) if last else ""
        if start > 1:
            head = next(reads.rows(after=seq - 1))[2]
        for found, body, stored in reads.rows(after=seq if start > 1 else _LOWEST):
            if found > last:
                break
            event = _check_row(reads, seq + 1, (found, body, stored), head, uuid)
            _check_anchors(anchors, found, stored)
            seq, head = found, stored
            each(event)
        _check_end(anchors, seq)
    except _Bad as bad:
        return Report(False, seq, head.hex(), bad.seq, f"{reads.path}: {bad}")
    except LedgerError as error:
        return Report(False, seq, head.hex(), seq + 1, f"row {seq + 1} cannot be read: {error}")
    return Report(True, seq, head.hex(), None, f"{seq} rows, none altered; head {head.hex()}")


def _uuid(reads: Reads) -> str:
    """Give the UUID the first row says this ledger has."""
    seq, body, _ = next(reads.rows(after=_LOWEST))
    return _parsed(seq, body).ledger


def _parsed(seq: int, body: bytes) -> Event:
    try:
        return decode(body)
    except ValueError as error:
        raise _Bad(seq, f"row {seq} is altered: it holds no event ({error})") from error


def _check_row(
    reads: Reads, want: int, row: tuple[int, bytes, bytes], head: bytes, uuid: str
) -> Event:
    seq, body, stored = row
    if seq > want:
        raise _Bad(want, f"row {want} is missing")
    if seq < want:
        raise _Bad(seq, f"row {seq} was slipped in before the first row")
    if link(head, body) != stored:
        raise _Bad(seq, f"row {seq} is altered: its hash does not follow from what is stored")
    found = _parsed(seq, body)
    if found.seq != seq:
        raise _Bad(seq, f"row {seq} is out of place: it was written as row {found.seq}")
    if found.ledger != uuid:
        raise _Bad(seq, f"row {seq} belongs to another ledger, {found.ledger}")
    for digest in found.evidence:
        _check_evidence(reads, seq, digest)
    return found


def _check_evidence(reads: Reads, seq: int, digest: str) -> None:
    try:
        reads.chunk(digest)
    except (LedgerError, ValueError, TypeError) as error:
        raise _Bad(seq, f"row {seq}: {error}") from error


def _check_anchors(anchors: Sequence[Anchor], seq: int, stored: bytes) -> None:
    for anchor in anchors:
        if anchor.seq == seq and not stored.hex().startswith(anchor.head):
            raise _Bad(seq, f"row {seq} has hash {stored.hex()}, but {anchor.head} was noted down")


def _check_end(anchors: Sequence[Anchor], seq: int) -> None:
    if seq == 0:
        raise _Bad(1, "the ledger has no rows, not even its first")
    for anchor in anchors:
        if anchor.seq > seq:
            raise _Bad(
                seq + 1, f"the ledger ends at row {seq}, but row {anchor.seq} was noted down"
            )
