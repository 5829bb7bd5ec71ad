"""The trend of a machine: what its signed audits show together, and when the next is due."""

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from daq.audit.chosen import compares, offers
from daq.audit.history import OVER_MM, AxisSums, Checked, History, SignedAudit
from daq.audit.parts import AxisResult
from daq.audit.pivots import over_audits, pivots
from daq.audit.reasons import REASONS
from daq.audit.reliable import of_machine
from daq.audit.setup import MachineSetup
from daq.audit.state import MachineState
from daq.audit.views import handed
from daq.metrology.charts import LAMBDA, Chart, EwmaChart, Sums
from daq.words import Axis, Both, Person, Said, Word, said
from daq.words.trend import (
    AuditDue,
    AxisTrend,
    CheckDue,
    LeftOut,
    Smoothed,
    TrendLimits,
    TrendPoint,
    TrendSeries,
    TrendView,
)

FEWEST: Final = 8
"""So many values that count make limits; limits of fewer say little (common practice, no
source)."""

ANGLED = said("found-angled")
SET_BACK = said("found-set-back")
OFF_SCALE = said("found-off-scale")


@dataclass(frozen=True)
class Page:
    """The audits shown, oldest first, and what those before them came to.

    `more`: the row by which those before them are asked for, None where there are none.
    """

    shown: tuple[SignedAudit, ...]
    before: Both[AxisSums]
    more: int | None


def latest(history: History, most: int, before: int | None = None) -> Page | None:
    """The latest so many audits, or those before that signature's row; None if not all are kept."""
    there = [each for each in history.latest if before is None or each.seq < before]
    shown = tuple(there[max(0, len(there) - most) :])
    if len(shown) < most and history.older:
        return None
    since = len(history.latest) - history.latest.index(shown[0]) if shown else 0
    more = shown[0].seq if shown and shown[0].previous is not None else None
    return Page(shown, history.before(since), more)


def trend(
    state: MachineState, machine: MachineSetup | None, today: str, page: Page, *, sure: bool = True
) -> TrendView:
    """Return what a machine's signed audits show, oldest first, by the limits of all of them.

    As found, an audit after angled work stays out: the head was swung on purpose. One whose cause
    is known, such as a crash, is shown but does not count. `machine`: what its file says today,
    None without one; `today`: ISO date, of a clock that is `sure` or not.
    """
    history = state.history
    squaring, *checks = dues(state, machine, today, sure=sure)
    whole = history.before()
    now = None if machine is None else pivots(state.knows(machine), machine)
    axes = Both.of(
        lambda axis: replace(
            _axis(page.shown, page.before[axis], whole[axis], axis),
            pivots=tuple(over_audits(page.shown, now, axis)),
        )
    )
    unit = "mm" if machine is None else machine.unit
    return TrendView(
        OVER_MM,
        unit,
        history.audits,
        axes,
        squaring.due,
        tuple(checks),
        of_machine(state.reliability, unit),
        page.more,
    )


def _axis(shown: Sequence[SignedAudit], before: AxisSums, whole: AxisSums, axis: Axis) -> AxisTrend:
    return AxisTrend(
        as_found=_series(
            [
                _error(each, axis, each.as_found[axis], counts=REASONS[each.reason].counts)
                for each in shown
                if each.as_found is not None and REASONS[each.reason].as_found
            ],
            before.as_found,
            whole.as_found,
            tuple(_left_out(shown)),
        ),
        as_left=_series(
            [_error(each, axis, each.as_left[axis]) for each in shown],
            before.as_left,
            whole.as_left,
        ),
        tightening=_series(
            [p for each in shown for p in _shifts(each, axis)], before.tightening, whole.tightening
        ),
    )


def _left_out(history: Sequence[SignedAudit]) -> Iterator[LeftOut]:
    for each in history:
        if not REASONS[each.reason].as_found:
            set_back = each.as_found is None and each.off_scale is None
            say = SET_BACK if set_back else ANGLED
            yield LeftOut(each.audit, each.short, each.seq, each.day, say, each.utc_trusted)
        elif each.as_found is None:
            say = each.off_scale or OFF_SCALE
            yield LeftOut(each.audit, each.short, each.seq, each.day, say, each.utc_trusted)


def _error(each: SignedAudit, axis: Axis, result: AxisResult, *, counts: bool = True) -> TrendPoint:
    allowed = each.limits[axis]
    return _point(
        each,
        result.error_mm,
        counts=counts,
        low_mm=allowed.low_mm,
        high_mm=allowed.high_mm,
        word=result.word,
    )


def _shifts(each: SignedAudit, axis: Axis) -> list[TrendPoint]:
    return [_point(each, shift_mm) for shift_mm in each.shifted(axis)]


def _point(
    each: SignedAudit,
    value_mm: float,
    *,
    counts: bool = True,
    low_mm: float | None = None,
    high_mm: float | None = None,
    word: Word | None = None,
) -> TrendPoint:
    scale = OVER_MM / each.diameter_mm
    return TrendPoint(
        audit=each.audit,
        short=each.short,
        seq=each.seq,
        day=each.day,
        reason=each.reason,
        value_mm=value_mm * scale,
        allowed_low_mm=None if low_mm is None else low_mm * scale,
        allowed_high_mm=None if high_mm is None else high_mm * scale,
        word=word,
        counts=counts,
        outside=False,
        smoothed=None,
        sure=each.utc_trusted,
        hands=(*handed.in_words(each.handed), said("signed-by", by=Person(each.done_by))),
    )


def _series(
    points: Sequence[TrendPoint],
    before: Sums,
    whole: Sums,
    left_out: tuple[LeftOut, ...] = (),
) -> TrendSeries:
    """One series: the points shown, by the limits that all its values make."""
    if whole.count < FEWEST:
        say = said("limits-come", fewest=FEWEST, there=whole.count)
        return TrendSeries(tuple(points), None, left_out, say)
    counted = [i for i, each in enumerate(points) if each.counts]
    chart = whole.individuals()
    smooth = before.ewma([points[i].value_mm for i in counted], chart.center, chart.sd)
    beyond = set(chart.outside([each.value_mm for each in points]))
    smoothed = dict(zip(counted, _smoothed(smooth), strict=True))
    marked = tuple(
        replace(each, outside=i in beyond, smoothed=smoothed.get(i))
        for i, each in enumerate(points)
    )
    say = _shown(marked, "all" if len(counted) == whole.count else "shown")
    return TrendSeries(marked, _limits(chart, smooth), left_out, say)


def _smoothed(chart: EwmaChart) -> list[Smoothed]:
    outside = set(chart.outside)
    each = zip(chart.points, chart.lows, chart.highs, strict=True)
    return [Smoothed(at, low, high, i in outside) for i, (at, low, high) in enumerate(each)]


def _limits(chart: Chart, smooth: EwmaChart) -> TrendLimits:
    return TrendLimits(
        center_mm=chart.center,
        low_mm=chart.low,
        high_mm=chart.high,
        sd_mm=chart.sd,
        smoothed_low_mm=smooth.low,
        smoothed_high_mm=smooth.high,
        weight=LAMBDA,
    )


def _shown(points: Sequence[TrendPoint], which: str) -> Said:
    """What the points say; `which` they are: "all", or those "shown" where others are not."""
    single = [each for each in points if each.outside]
    drifted = [each for each in points if each.smoothed is not None and each.smoothed.outside]
    shown = []
    if single:
        shown.append(said("outside-limits", values=len(single), which=which, day=single[-1].day))
    if drifted:
        shown.append(said("has-drifted", values=len(drifted), which=which, day=drifted[-1].day))
    if len(shown) > 1:
        return said("and-then", first=shown[0], next=shown[1])
    return shown[0] if shown else said("inside-limits", which=which)


def dues(
    state: MachineState, machine: MachineSetup | None, today: str, *, sure: bool = True
) -> tuple[CheckDue, ...]:
    """Return when squaring is due, then each other check that the machine's file offers.

    What hangs on today's date says so where the clock is not `sure`.
    """
    found = _dues(state, machine, today)
    return found if sure else tuple(map(_doubted, found))


def _doubted(check: CheckDue) -> CheckDue:
    if check.due.day is None or not isinstance(check.due.say, Said):
        return check
    say = said("and-then", first=check.due.say, next=said("due-by-unsure-clock"))
    return replace(check, due=replace(check.due, say=say))


def _dues(state: MachineState, machine: MachineSetup | None, today: str) -> tuple[CheckDue, ...]:
    squared = state.history.latest[-1] if state.history.latest else None
    every = None if machine is None else machine.audit_every
    head = _check("", said("check-head"), squared, every, today)
    if machine is None:
        return (head,)
    often = {kind: each.every_days for kind, each in machine.checks.items()}
    return head, *(
        replace(
            _check(o.kind, o.name, state.checked.get(o.kind), often[o.kind], today),
            looks=compares(o.kind),
        )
        for o in offers(machine)
    )


def _check(
    kind: str, say: Said, last: SignedAudit | Checked | None, every_days: int | None, today: str
) -> CheckDue:
    when = _due(last, every_days, today)
    if last is None:
        return CheckDue(kind, say, None, None, None, when)
    return CheckDue(kind, say, last.audit, last.short, last.word, when, addenda=last.later)


def _due(last: SignedAudit | Checked | None, every_days: int | None, today: str) -> AuditDue:
    """When the next is due: so many days after the last signed one.

    Any signed audit counts, whatever its reason and its verdict. On the day itself it is
    due and not yet overdue; where an interval is agreed and none was ever signed, it is.
    """
    last_day = last.day if last else None
    if every_days is None:
        say = said("no-interval")
        return AuditDue(last_day, None, None, None, False, say)
    if last is None:
        say = said("none-signed")
        return AuditDue(None, every_days, None, None, True, say)
    day = datetime.date.fromisoformat(last.day) + datetime.timedelta(days=every_days)
    left = (day - datetime.date.fromisoformat(today)).days
    say = _due_say(day.isoformat(), left)
    if not last.utc_trusted:
        say = said("and-then", first=say, next=said("clock-not-set"))
    return AuditDue(last_day, every_days, day.isoformat(), left, left < 0, say)


def _due_say(day: str, left: int) -> Said:
    if left < 0:
        return said("overdue", days=-left, day=day)
    return said("due-on", days=left, day=day) if left else said("due-today")
