"""From an audit's record to what its report says: nothing is decided or measured anew."""

from daq.audit.events import Addendum
from daq.audit.facts import asks_for_past, is_look
from daq.audit.measurand import measurand
from daq.audit.reasons import REASONS
from daq.audit.views.remarks import SET_BACK, opened_for, signed_remarks
from daq.records.lines import Line, lines
from daq.records.record import AuditRecord
from daq.report.conditions import conditions, instruments
from daq.report.data import (
    SCHEMA,
    AddendumPart,
    Issue,
    MachinePart,
    Past,
    ReportData,
    RowPart,
    RuleSaid,
    ShopPart,
    Signature,
    Status,
    WhenDone,
)
from daq.report.figures import Figures
from daq.report.given import Given
from daq.report.number import Number, anchor, number
from daq.report.readings import readings
from daq.report.results import budgets, pairs, say_rule, sweeps
from daq.report.told import Told
from daq.report.when import When, when
from daq.words import Both, Said, said


def gathered(record: AuditRecord, given: Given) -> ReportData:
    """Return everything that a report of this audit says."""
    told = Told(given)
    job, signed = record.job, record.signed
    figures, at = Figures(job, told), when(job.setup.shop.time_zone)
    shown = tuple(_row(line, record, told, at) for line in lines(record))
    return ReportData(
        schema=SCHEMA,
        made_by=f"headsweep {given.version}",
        title=told.words(_title(record)),
        status=_status(record),
        practice=not REASONS[job.reason].kept,
        audit=record.audit,
        short=job.short,
        check="head" if job.check is None else job.check.kind,
        reason=job.reason,
        reason_say=told.words(opened_for(job.check, job.reason, squared=_squared(record))),
        issue=_issue(record, number(record), told, at),
        anchor=anchor(record),
        shop=_shop(record, at),
        machine=_machine(record),
        done=_done(record, at),
        measurand=told.words(measurand(job) if signed is None else signed.measurand),
        conditions=tuple(told.words(each) for each in conditions(record)),
        instruments=instruments(record),
        results=pairs(record, figures),
        unread=told.words(_unread(record)),
        verdict=None if signed is None else signed.verdict,
        verdict_say=told.words(_verdict(record)),
        rule=_rule(record, told),
        moves=job.moves.made,
        shifts_mm=_shifts(record),
        past=_past(record, told),
        signatures=_signatures(record, told, at),
        remarks=tuple(told.words(each) for each in _remarks(record)),
        note="" if signed is None else signed.note,
        sweeps=sweeps(record, figures),
        budgets=budgets(record, told),
        readings=readings(record, figures),
        rows=shown,
        addenda=_addenda(record, told, at),
        scope=tuple(told.words(each) for each in _scope(record)),
        config=job.setup.config,
    )


def _squared(record: AuditRecord) -> bool:
    return record.job.sweeps.loosened


def _status(record: AuditRecord) -> Status:
    if record.signed is not None:
        return "signed"
    return "draft" if record.closed is None else "given-up"


def _title(record: AuditRecord) -> Said:
    """What it is called: never a certificate."""
    check = record.job.check
    if check is None:
        return said("paper-title")
    return said("paper-title-of", check=check.name)


def _issue(record: AuditRecord, found: Number, told: Told, at: When) -> Issue:
    issued = "" if found.issued is None else at.at(found.issued.event.stamp)
    because = told.words(found.because)
    return Issue(found.text, found.replaces, because, issued, len(record.later))


def _shop(record: AuditRecord, at: When) -> ShopPart:
    shop = record.job.setup.shop
    return ShopPart(shop.name, shop.address, shop.method, shop.revision, shop.paper, at.zone)


def _machine(record: AuditRecord) -> MachinePart:
    setup = record.job.setup
    machine = setup.machine
    customer = machine.customer or setup.shop.customer
    return MachinePart(setup.machine_key, machine.name, machine.asset, machine.place, customer)


def _done(record: AuditRecord, at: When) -> WhenDone:
    first, closed = record.rows[0].event.stamp, record.closed
    stamps = [first] if closed is None else [first, closed.event.stamp]
    sure = all(stamp.utc_trusted for stamp in stamps)
    return WhenDone(at.at(first), "" if closed is None else at.at(stamps[-1]), sure)


def _verdict(record: AuditRecord) -> Said:
    """The verdict as paper says it, or that there is none."""
    signed = record.signed
    if signed is not None:
        of = "head" if record.job.check is None else "check"
        return said("paper-verdict", verdict=signed.verdict, of=of)
    return said("paper-unsigned", status=_status(record))


def _unread(record: AuditRecord) -> Said | None:
    """Why there is nothing to be said of the head as found."""
    sweeps, signed = record.job.sweeps, record.signed
    if sweeps.set_back:
        return SET_BACK
    off = signed.off_scale if signed is not None else None
    return sweeps.off_scale[0].said if off is None and sweeps.off_scale else off


def _rule(record: AuditRecord, told: Told) -> RuleSaid | None:
    signed, job = record.signed, record.job
    rule = job.setup.machine.verdict if signed is None else signed.rule
    if rule is None or is_look(job):
        return None
    say = told.words(say_rule(rule, rule.together if job.check is None else "figures"))
    return RuleSaid(rule.name, rule.coverage, rule.together, rule.share, say)


def _shifts(record: AuditRecord) -> Both[float | None]:
    shifts = record.job.tightening.shifts
    last = {each.axis: each.shift_mm for each in shifts}
    return Both.of(last.get)


def _past(record: AuditRecord, told: Told) -> Past:
    signed = record.signed
    asked = asks_for_past(record.job)
    if signed is None:
        return Past(asked, "", "", "")
    by = told.person(signed.done_by) if signed.disposition else ""
    return Past(asked, signed.last_good, signed.disposition, by)


def _signatures(record: AuditRecord, told: Told, at: When) -> tuple[Signature, ...]:
    """Who did it and who reviewed it; each proved by a PIN wherever screens have to be paired."""
    row, signed = record.closed, record.signed
    if row is None or signed is None:
        return ()
    proved = bool((row.event.cause.get("asker") or {}).get("person"))
    moment = at.at(row.event.stamp)
    done = Signature("done", told.person(signed.done_by), proved, row.seq, moment)
    if not signed.reviewed_by:
        return (done,)
    name = told.person(signed.reviewed_by)
    return (done, Signature("reviewed", name, proved, row.seq, moment))


def _remarks(record: AuditRecord) -> tuple[Said, ...]:
    """What was said with the signature beside its verdict."""
    signed = record.signed
    if signed is None:
        return ()
    whys = (signed.as_found_why, signed.as_left_why)
    chosen = tuple(said("paper-chosen", why=why) for why in dict.fromkeys(whys) if why)
    return (*chosen, *signed.noted, *signed_remarks(record.job.setup.machine, signed))


def _addenda(record: AuditRecord, told: Told, at: When) -> tuple[AddendumPart, ...]:
    return tuple(
        AddendumPart(
            row.seq,
            at.at(row.event.stamp),
            told.words(said("addendum-kind", kind=row.data.kind)),
            row.data.text,
            told.person(row.data.done_by),
        )
        for row in record.later
        if isinstance(row.data, Addendum)
    )


def _row(line: Line, record: AuditRecord, told: Told, at: When) -> RowPart:
    kept = next(row.kept for row in record.rows if row.seq == line.seq)
    return RowPart(
        row=line.seq,
        hash=line.hash,
        at=at.at(line.stamp),
        type=line.type,
        what=told.words(line.what),
        detail=tuple(told.words(each) for each in line.detail),
        by=told.words(line.by),
        taken_back_by=line.struck_by,
        sound=kept.sound,
        let_go_by=kept.let_go,
    )


def _scope(record: AuditRecord) -> tuple[Said, ...]:
    """What the report is of, and of what it says nothing."""
    check = record.job.check
    limits = said("paper-scope", of="head" if check is None else "check")
    return (said("paper-no-certificate"), limits)
