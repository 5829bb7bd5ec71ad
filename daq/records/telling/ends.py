"""How an audit began, rested and ended, in words, and what was said of it by hand."""

from collections.abc import Callable, Mapping
from typing import Any

from daq.audit import events as e
from daq.audit.answers import Callout
from daq.audit.facts import unit_of
from daq.audit.parts import AxisShift, LeftAlone, Listed, Unsafe
from daq.audit.state import Job
from daq.audit.stated import BorneOut
from daq.audit.views.afterwards import because, known, measures
from daq.audit.views.figures import length
from daq.audit.views.not_safe import not_safe
from daq.audit.views.remarks import opened_for, said_with
from daq.checks.sweep.callouts import Bore, Face
from daq.records.telling.figures import axes
from daq.screens.enough import enough_view
from daq.screens.numbers import say_rule
from daq.words import Figure, Person, Said, Unit, said


def _opened(job: Job, data: e.AuditOpened) -> tuple[Said, ...]:
    gauges = tuple(
        said("gauge-known", name=each.name, number=each.serial_number) for each in data.setup.gauges
    )
    return (
        said("audit-short", short=data.short),
        opened_for(data.check, data.reason, squared=False),
        said("row-gauge", gauge=gauges),
    )


def _signed(job: Job, data: e.Signed) -> tuple[Said, ...]:
    return known(
        said("row-verdict", verdict=data.verdict),
        *_results(job, data),
        None if data.rule is None else say_rule(data.rule, data.rule.together),
        data.measurand,
        said("row-moves", moves=data.moves),
        *(_shift(job, each) for each in data.shifts),
        data.off_scale,
        said("was-set-back") if data.set_back else None,
        *(_alone(job, each) for each in data.left_alone),
        *(_listed(each) for each in data.sweeps),
        *_written(data),
        *said_with(data),
        *data.noted,
        None if data.borne_out is None else _borne_out(data.borne_out),
    )


def _results(job: Job, data: e.Signed) -> tuple[Said, ...]:
    """As found beside as left, and what another check than the sweep came to."""
    found = () if data.as_found is None else axes(job, data.as_found)
    left = () if data.as_left is None else axes(job, data.as_left, data.whole)
    return (
        *((said("row-found"), *found) if found else ()),
        *((said("row-left"), *left) if left else ()),
        *(() if data.round is None else measures(job, data.round)),
    )


def _written(data: e.Signed) -> tuple[Said, ...]:
    """What hands wrote under it."""
    return known(
        said("row-reviewed", by=Person(data.reviewed_by)) if data.reviewed_by else None,
        said("row-last-good", day=data.last_good) if data.last_good else None,
        said("row-disposition", what=data.disposition) if data.disposition else None,
        said("row-note", note=data.note) if data.note else None,
        said("row-found-why", why=data.as_found_why) if data.as_found_why else None,
        said("row-left-why", why=data.as_left_why) if data.as_left_why else None,
    )


def _shift(job: Job, done: AxisShift) -> Said:
    by = length(done.shift_mm, unit_of(job), 1, plus=True)
    return said("row-tightened", axis=job.setup.machine.axis(done.axis).say, by=by)


def _alone(job: Job, left: LeftAlone) -> Said:
    return said("was-left-alone", axis=job.setup.machine.axis(left.axis).say, why=left.why)


def _listed(sweep: Listed) -> Said:
    stands = "left" if sweep.as_left else "found" if sweep.as_found else "none"
    return said("row-listed", n=sweep.number, stands=stands, usable=str(sweep.usable).lower())


def _borne_out(found: BorneOut) -> Said:
    agreed = "not-counted" if found.why else "yes" if found.agreed else "no"
    sure = Figure(100.0 * found.probability, 1)
    return said("row-borne-out", sure=sure, agreed=agreed)


def _unsafe(unsafe: Unsafe | None) -> Said | None:
    return None if unsafe is None else not_safe(unsafe).title


def _abandoned(job: Job, data: e.Abandoned) -> tuple[Said, ...]:
    right = data.put_right
    done = None if right is None else not_safe(right).done
    return known(because(data.why), _unsafe(data.unsafe), done)


def _aside(job: Job, data: e.PutAside) -> tuple[Said, ...]:
    return known(because(data.why), data.tag, _unsafe(data.unsafe))


def _handed(job: Job, data: e.HandedOver) -> tuple[Said, ...]:
    left, taken = Person(data.left_by), Person(data.taken_by)
    return (said("row-handed", left=left, taken=taken),)


def _voided(job: Job, data: e.Voided) -> tuple[Said, ...]:
    rows = tuple(said("row-number-of", n=seq) for seq in data.voids)
    return (said("row-takes-back", rows=rows, many=len(rows)),)


def _kept(job: Job, data: e.AnswerKept) -> tuple[Said, ...]:
    found, unit = data.answer, unit_of(job)
    told = enough_view(found, unit, found.day)
    parts = (_callout(found.callout, unit), told.say, told.alone)
    since = said("row-enough-basis", audit=found.short, day=found.day or "none")
    return tuple(part for part in (*parts, since) if isinstance(part, Said))


def _callout(asked: Callout, unit: Unit) -> Said:
    """The sizes that were asked about."""
    one, cutter, step = asked.one, None, None
    if isinstance(one, Face):
        size, cutter, step = one.width, one.cutter, one.pass_step
    else:
        size = one.depth if isinstance(one, Bore) else one.height
    return said(
        "row-callout",
        of=asked.kind,
        size=length(size, unit, -2),
        cutter="none" if cutter is None else length(cutter, unit, -2),
        step="none" if step is None else length(step, unit, -2),
    )


def _addendum(job: Job, data: e.Addendum) -> tuple[Said, ...]:
    kind = said("addendum-kind", kind=data.kind)
    return (said("row-addendum", kind=kind, text=data.text, signed=data.signed),)


def _amended(job: Job, data: e.ReportAmended) -> tuple[Said, ...]:
    now, before = (f"{job.short}-{nth}" for nth in (data.nth, data.nth - 1))
    return (said("row-amended", now=now, before=before, why=data.because),)


def _nothing_more(job: Job, data: e.Data) -> tuple[Said, ...]:
    return ()


ENDS: Mapping[type, Callable[[Job, Any], tuple[Said, ...]]] = {
    e.AuditOpened: _opened,
    e.Signed: _signed,
    e.Abandoned: _abandoned,
    e.PutAside: _aside,
    e.MadeSafe: _nothing_more,
    e.HandedOver: _handed,
    e.Voided: _voided,
    e.AnswerKept: _kept,
    e.Addendum: _addendum,
    e.ReportAmended: _amended,
}
