"""The proof that a ledger is as it was written: every hash computed again from stored bytes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.attested import Attested
from daq.ledger.body import decode
from daq.ledger.chain import GENESIS_PREV, link
from daq.ledger.errors import LedgerError, because, of_file
from daq.ledger.let_go import LET_GO_TYPE, evidence_fault, list_fault
from daq.ledger.progress import FILE_NEXT, SILENT, Progress
from daq.ledger.reads import Reads
from daq.ledger.view import LedgerView
from daq.words import Event, Said, said

_LOWEST: Final = -(2**63)
_ANCHOR_DIGITS: Final = 8


@dataclass(frozen=True, slots=True)
class Anchor:
    """A row's hash as written down elsewhere, on a report for instance; its first digits do.

    `source`: the file that says so, "" where a person did.
    """

    seq: int
    head: str
    source: str = ""

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
    when the rows are good), `say` the finding.
    """

    ok: bool
    rows: int
    head: str
    first_bad_seq: int | None
    say: Said


class _Bad(Exception):
    """Row `seq` is not as it was written."""

    def __init__(self, seq: int, say: Said) -> None:
        super().__init__(str(say))
        self.seq, self.say = seq, say


Each = Callable[[Event], object]
"""Handed every row that is good."""


def no_more(event: Event) -> None:
    """Nothing else is done with a row that is good."""


def verify(
    folder: Path,
    anchors: Sequence[Anchor] = (),
    each: Each = no_more,
    attested: Attested | None = None,
    progress: Progress = SILENT,
) -> Report:
    """Check the whole ledger in `folder`, row by row, in constant memory.

    May run beside the writer: it looks at the rows there were at the start.
    A chain alone cannot show that its end was cut off or that all of it was
    written anew; `anchors` from outside the file do. `each` is handed every row
    that is good, `attested` checks what a key signed. Raises LedgerError if the
    file cannot be opened at all.
    """
    with LedgerView.open(folder) as view:
        progress.begin("checked", _rows_in(view), then=FILE_NEXT)

        def then(event: Event) -> None:
            progress.at(event.seq)
            each(event)

        report = walk(view, anchors=anchors, each=then, attested=attested or Attested())
        if not report.ok:
            return report
        fault = view.file_fault("integrity_check")
        if fault:
            return Report(False, report.rows, report.head, None, fault)
        return report


def _rows_in(reads: Reads) -> int:
    """How many rows there are to look at; 0 where that cannot be read, as the look will say."""
    try:
        last = reads.last()
    except LedgerError:
        return 0
    return last[0] if last else 0


def walk(
    reads: Reads,
    start: int = 1,
    anchors: Sequence[Anchor] = (),
    each: Each = no_more,
    attested: Attested | None = None,
) -> Report:
    """Check the rows from `start` to the last one there is now, and their evidence.

    With a `start` above 1 the row before it is taken as good, and its hash as the chain so far.
    `each` is handed every row that is good.
    """
    seq, head = start - 1, GENESIS_PREV
    try:
        last, _ = reads.last() or (0, b"")
        uuid = reads.name() if start > 1 else ""
        if start > 1:
            head = next(reads.rows(after=seq - 1))[2]
        for found, body, stored in reads.rows(after=seq if start > 1 else _LOWEST):
            if found > last:
                break
            event = _check_row(reads, seq + 1, (found, body, stored), head, uuid)
            uuid = event.ledger
            _check_anchors(anchors, found, stored)
            fault = attested.look(event, stored.hex()) if attested is not None else None
            if fault is not None:
                raise _Bad(found, fault)
            seq, head = found, stored
            each(event)
        _check_end(anchors, seq)
    except _Bad as bad:
        return Report(False, seq, head.hex(), bad.seq, of_file(reads.path, bad.say))
    except LedgerError as error:
        unread = said("row-is-unreadable", seq=seq + 1, why=error.said)
        return Report(False, seq, head.hex(), seq + 1, unread)
    return Report(True, seq, head.hex(), None, said("none-altered", rows=seq, head=head.hex()))


def _parsed(seq: int, body: bytes) -> Event:
    try:
        return decode(body)
    except ValueError as error:
        raise _Bad(seq, because(said("row-holds-no-event", seq=seq), error)) from error


def _check_row(
    reads: Reads, want: int, row: tuple[int, bytes, bytes], head: bytes, uuid: str
) -> Event:
    seq, body, stored = row
    if seq > want:
        raise _Bad(want, said("row-is-missing", seq=want))
    if seq < want:
        raise _Bad(seq, said("row-was-slipped-in", seq=seq, want=want))
    if link(head, body) != stored:
        raise _Bad(seq, said("row-is-altered", seq=seq))
    found = _parsed(seq, body)
    if found.seq != seq:
        raise _Bad(seq, said("row-out-of-place", seq=seq, was=found.seq))
    if found.ledger != (uuid or found.ledger):
        raise _Bad(seq, said("row-of-another-ledger", seq=seq, ledger=found.ledger))
    faults = (evidence_fault(reads, seq, digest) for digest in found.evidence)
    fault = next(filter(None, faults), None)
    if fault is None and found.type == LET_GO_TYPE:
        fault = list_fault(reads, found)
    if fault is not None:
        raise _Bad(seq, fault)
    return found


def _check_anchors(anchors: Sequence[Anchor], seq: int, stored: bytes) -> None:
    for anchor in anchors:
        if anchor.seq == seq and not stored.hex().startswith(anchor.head):
            noted = said("other-hash-noted", seq=seq, found=stored.hex(), noted=anchor.head)
            raise _Bad(seq, _in_file(anchor, noted))


def _check_end(anchors: Sequence[Anchor], seq: int) -> None:
    if seq == 0:
        raise _Bad(1, said("ledger-has-no-rows"))
    for anchor in anchors:
        if anchor.seq > seq:
            noted = said("later-row-noted", seq=seq, noted=anchor.seq)
            raise _Bad(seq + 1, _in_file(anchor, noted))


def _in_file(anchor: Anchor, noted: Said) -> Said:
    return said("noted-in-file", say=noted, file=anchor.source) if anchor.source else noted
