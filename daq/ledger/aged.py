"""Which evidence is old enough to be let go: that of closed audits, a few pieces at a time."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from daq.ledger.errors import LetGo
from daq.ledger.let_go import LET_GO_TYPE, up_to
from daq.ledger.reads import Reads
from daq.ledger.verify import Each, no_more
from daq.words import Event

MOST: Final = 64
MOST_BYTES: Final = 4_000_000
"""So much is let go by one row: a commit that holds up no press."""


@dataclass(frozen=True, slots=True)
class Rules:
    """Rows of `before_us` (UTC) or earlier are old; an audit is, once the row that closed it is.

    `closing`: the types of such rows. `any_clock`: dates of a clock that no time server had set
    count, too. `last`: nothing that came after this row is let go, None where all may be.
    """

    before_us: int
    closing: frozenset[str]
    any_clock: bool = False
    last: int | None = None


@dataclass(frozen=True, slots=True)
class Batch:
    """What one row is to let go; no row after `up_to` names any of it."""

    digests: tuple[str, ...]
    up_to: int


def batches(reads: Reads, rules: Rules, each: Each = no_more) -> Iterator[Batch]:
    """Give what may be let go, from where the last such row ended, oldest first.

    A batch is to be let go, by a row of its own, before the next is asked for.

    Each piece is read once more: what is damaged is not let go, but raised as LedgerError. Rows
    lie in the order of time: one without a sure date is as old as the next that has one. `each` is
    handed every row that is looked at.
    """
    waiting: list[Event] = []
    before = reads.last_of(LET_GO_TYPE)
    for event in reads.events(after=0 if before is None else up_to(before)):
        each(event)
        if rules.last is not None and event.seq > rules.last:
            return
        if event.type in rules.closing or (event.evidence and not event.audit):
            waiting.append(event)
        if not (event.stamp.utc_trusted or rules.any_clock):
            continue
        if event.stamp.utc_us > rules.before_us:
            return
        for old in waiting:
            yield from _of(reads, old)
        waiting.clear()


def _of(reads: Reads, last: Event) -> Iterator[Batch]:
    """What an audit's rows name, up to the one that closed it; or what a row of no audit does.

    What was added to an audit later, such as the bytes of a report that was replaced, stays.
    """
    batch: list[str] = []
    size, seq = 0, 0
    for row in reads.events(audit=last.audit) if last.audit else (last,):
        if row.seq > last.seq:
            break
        for digest in row.evidence:
            found = None if digest in batch else _there(reads, digest)
            if found is None:
                continue
            if batch and row.seq > seq and (len(batch) >= MOST or size + found > MOST_BYTES):
                yield Batch(tuple(batch), seq)
                batch, size = [], 0
            batch.append(digest)
            size += found
        seq = row.seq
    if batch:
        yield Batch(tuple(batch), last.seq)


def _there(reads: Reads, digest: str) -> int | None:
    """How many bytes a piece of evidence has; None for what was let go before."""
    try:
        return len(reads.chunk(digest))
    except LetGo:
        return None
