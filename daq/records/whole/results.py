"""What an audit came to, as found beside as left, and what stands with its verdict."""

from dataclasses import replace

from daq.audit.addendum import in_words
from daq.audit.events import Addendum, SweepDone
from daq.audit.facts import unit_of
from daq.audit.history import AddedSince, LaterRow, day_of
from daq.audit.rounds import Measure
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length, rounded_up, same_place, with_unit
from daq.audit.views.remarks import closed_remarks
from daq.audit.views.shapes import Numbers
from daq.records.record import AuditRecord
from daq.records.whole.shapes import CameTo, ResultRow
from daq.screens.axes import axis_view, short
from daq.screens.stands import stands
from daq.words import AXES, Axis, Said, Shown, said


def rows(record: AuditRecord) -> tuple[ResultRow, ...]:
    """Each axis, or each thing another check came to."""
    job = record.job
    if job.check is not None:
        came = () if job.round is None else job.round.results
        return tuple(ResultRow(each.name, None, _measured(job, each)) for each in came)
    found, left = _sweeps(record)
    machine = job.setup.machine
    return tuple(
        ResultRow(machine.axis(axis).say, _axis(job, axis, found), _axis(job, axis, left))
        for axis in AXES
    )


def _sweeps(record: AuditRecord) -> tuple[SweepDone | None, SweepDone | None]:
    """The sweeps that show the head as found and as left: of a signature, those it gives."""
    signed, sweeps = record.signed, record.job.sweeps
    if signed is None:
        return sweeps.as_found, sweeps.as_left if sweeps.loosened else None
    given = (signed.as_found, signed.as_left)
    found, left = (
        next((sweep for _, sweep in record.sweeps if sweep.results == results), None)
        for results in given
    )
    return found, left


def _axis(job: Job, axis: Axis, sweep: SweepDone | None) -> CameTo | None:
    if sweep is None:
        return None
    result, unit = sweep.results[axis], unit_of(job)
    expanded_mm = None if sweep.budgets is None else sweep.budgets[axis].expanded_mm
    view = axis_view(job.setup.machine, unit, axis, result, sweep.whole, expanded_mm)
    limits = (result.low_mm or 0.0, result.high_mm or 0.0)
    digits = same_place(result.error_mm, limits, unit, expanded_mm)
    word = (sweep.whole or result).word
    return CameTo(
        value=with_unit(Shown(result.error_mm, unit, digits, plus=True)),
        low=view.low,
        limit=view.limit,
        expanded=None if expanded_mm is None else rounded_up(expanded_mm, unit, digits),
        word=word,
        say_word=short(word),
    )


def _measured(job: Job, result: Measure) -> CameTo:
    unit, limit_mm = unit_of(job), result.limit_mm
    digits = same_place(result.value_mm, (limit_mm or 0.0,), unit, result.doubt_mm)
    value = with_unit(Shown(result.value_mm, unit, digits))
    if result.over_mm is not None:
        value = said("figure-over", figure=value, over=length(result.over_mm, unit, WIDE))
    return CameTo(
        value=value,
        low=None,
        limit=None if limit_mm is None else Shown(limit_mm, unit, digits),
        expanded=rounded_up(result.doubt_mm, unit, digits),
        word=result.word or "",
        say_word=None if result.word is None else short(result.word),
    )


def says(record: AuditRecord) -> tuple[Said, ...]:
    """What stands with the verdict: of what it is, by which rule, how likely; what was remarked."""
    state, signed = record.states[-1], record.signed
    if signed is None or state.last is None:
        return stands(state)
    alone = replace(state, last=replace(state.last, later=AddedSince()))
    off = () if signed.off_scale is None else (signed.off_scale,)
    return (*stands(alone), *off, *closed_remarks(state.last, signed))


def guards(behind: Numbers | None) -> tuple[Said, ...]:
    """How far inside its limit each thing had to be, what that rests on, the risk it takes."""
    return tuple(
        said(
            "record-guard",
            axis=each.say or "",
            guard=each.guard or "",
            rests=each.guard_say or "none",
            risk=each.risk or "",
        )
        for each in (() if behind is None else behind.axes)
        if each.guard is not None
    )


def addenda(record: AuditRecord) -> tuple[Said, ...]:
    """Every one, the latest first."""
    rows = tuple(
        LaterRow(row.seq, day_of(row.event.stamp), row.event.stamp.utc_trusted, row.data)
        for row in record.rows
        if isinstance(row.data, Addendum)
    )
    return in_words(AddedSince(len(rows), rows))
