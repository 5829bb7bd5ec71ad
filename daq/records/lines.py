"""Every row of an audit told for a reader: what happened, with its numbers, by whom."""

from dataclasses import dataclass

from daq.audit.parts import Next
from daq.audit.state import Job
from daq.records.record import AuditRecord, AuditRow
from daq.records.telling import DETAILS
from daq.screens.told import told
from daq.words import Person, Said, Stamp, Text, said


@dataclass(frozen=True)
class Line:
    """A row of the ledger as it is told.

    `type`: its event's. `what` happened, `detail`: with its numbers in the gauge's own unit;
    `by` whom. `struck_by`: the row that took it back, None for one that stands. `evidence`: the
    SHA-256 of the samples it names, hex; `let_go`: the row by which they were let go on purpose.
    """

    seq: int
    hash: str
    stamp: Stamp
    type: str
    what: Said
    detail: tuple[Said, ...]
    by: Text
    struck_by: int | None
    evidence: tuple[str, ...]
    let_go: int | None = None


def lines(record: AuditRecord) -> tuple[Line, ...]:
    """Every row of an audit, those taken back and those added later among them, in order."""
    return tuple(_line(row, record.found_by(at)) for at, row in enumerate(record.rows))


def _line(row: AuditRow, job: Job) -> Line:
    event = row.event
    return Line(
        seq=row.seq,
        hash=row.kept.hash,
        stamp=event.stamp,
        type=event.type,
        what=told(event),
        detail=(*DETAILS[type(row.data)](job, row.data), *_left_out(row.data)),
        by=_by(row),
        struck_by=row.voided_by,
        evidence=event.evidence,
        let_go=row.kept.let_go,
    )


def _left_out(data: object) -> tuple[Said, ...]:
    """What was not done on the way to the next step, and why."""
    follows = getattr(data, "next", None)
    why = follows.left_out if isinstance(follows, Next) else None
    return () if why is None else (why,)


def _by(row: AuditRow) -> Said:
    """Who did it, where that is on record; else from where it was pressed, and by which right."""
    event = row.event
    doer = getattr(row.data, "done_by", "") or getattr(row.data, "left_by", "")
    if doer:
        return said("row-by", by=Person(doer))
    if event.actor in ("service", "ledger"):
        return said("row-by-service")
    asker = event.cause.get("asker") or {}
    screen, role = asker.get("screen", ""), asker.get("role", "")
    return said("row-pressed", at=event.actor, right=role or "none", screen=screen or "none")
