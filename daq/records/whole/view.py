"""An audit on record as its page and its API show it."""

from typing import Final
from zoneinfo import ZoneInfo

from daq.records.lines import Line, lines
from daq.records.record import AuditRecord, AuditRow
from daq.records.whole import results
from daq.records.whole.facts import facts, local, utc, when, zone_of
from daq.records.whole.shapes import DoneView, RecordView, RowView, Stands
from daq.records.whole.swept import swept
from daq.screens.numbers import numbers
from daq.words import Said, said

_MOVES: Final = frozenset(
    {"Parked", "Loosened", "Moved", "BoltPulled", "Tightened", "OffScale", "BroughtCloser"}
    | {"SetBack", "BoltMoved", "JointOpened", "Shimmed", "Tapped"}
)
_ASKED: Final = frozenset(
    {"Answered", "StopDoubted", "DriftAsked", "DriftJudged", "RamAsked", "RamAnswered", "Differed"}
)


def shown(record: AuditRecord) -> RecordView:
    """Everything of it, with what was checked as it was read."""
    told = lines(record)
    by_row = {line.seq: line for line in told}
    opened, zone, signed = record.opened, zone_of(record), record.signed
    stands, behind = _stands(record), numbers(record.job)
    rows = zip(record.rows, told, strict=True)
    return RecordView(
        audit=record.audit,
        short=opened.short,
        machine=record.machine,
        machine_say=opened.setup.machine.name,
        of=said("record-head") if record.job.check is None else record.job.check.name,
        practice=opened.reason == "practice",
        stands=stands,
        state=said("record-state", stands=stands),
        verdict=None if signed is None else signed.verdict,
        results=results.rows(record),
        says=(*results.says(record), *results.guards(behind)),
        addenda=results.addenda(record),
        facts=facts(record),
        sound=record.sound,
        checked=_checked(record),
        swept=swept(record, by_row),
        moves=_done(told, _MOVES),
        asked=_done(told, _ASKED),
        numbers=behind,
        zone="" if zone is None else zone.key,
        rows=tuple(_row(row, line, zone) for row, line in rows),
        last_row=record.last.event.seq,
        last_hash=record.last.hash,
    )


def _stands(record: AuditRecord) -> Stands:
    if record.closed is None:
        return "open"
    return "given-up" if record.signed is None else "signed"


def _checked(record: AuditRecord) -> Said:
    """How it was seen that all is as it was written, or which rows are not."""
    bad = tuple(said("row-number-of", n=row.seq) for row in record.rows if not row.kept.sound)
    if bad:
        return said("record-broken", rows=bad, many=len(bad))
    named = {digest for row in record.rows for digest in row.event.evidence}
    gone = {d for row in record.rows if row.kept.let_go for d in row.event.evidence}
    return said(
        "record-unbroken",
        rows=len(record.rows),
        evidence=len(named - gone),
        gone=len(gone),
    )


def _done(told: tuple[Line, ...], kinds: frozenset[str]) -> tuple[DoneView, ...]:
    return tuple(
        DoneView(line.seq, line.what, line.detail, line.struck_by)
        for line in told
        if line.type in kinds
    )


def _row(row: AuditRow, line: Line, zone: ZoneInfo | None) -> RowView:
    return RowView(
        seq=line.seq,
        type=line.type,
        utc=utc(line.stamp),
        local=local(line.stamp, zone),
        sure=line.stamp.utc_trusted,
        when=when(line.stamp, zone),
        what=line.what,
        detail=line.detail,
        by=line.by,
        struck_by=line.struck_by,
        hash=line.hash,
        evidence=line.evidence,
        let_go=line.let_go,
        sound=row.kept.sound,
    )
