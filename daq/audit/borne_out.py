"""A signed "conforms" as it is held against the next as-found; both are of the head."""

import datetime
import math
from typing import Final

from daq.audit.events import SweepDone
from daq.audit.facts import certain, narrowest, word_of
from daq.audit.history import OVER_MM
from daq.audit.last_sweep import same_again
from daq.audit.parts import Budget
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.audit.stated import Apart, AxisStated, BorneOut, NotCounted, Stated
from daq.metrology.reliability import LEARNS, WANDERS, Between, DoubtPart, brought_back
from daq.units import SLACK_MM
from daq.words import Axis, Both

LONGEST: Final = datetime.timedelta(days=366)
"""After more than a year no scatter from audit to audit says how far a head goes by itself (common
practice, no source)."""


def stated(job: Job, left: SweepDone, today: str) -> Stated | None:
    """What the signature states of the head as left; None where it conforms not, or in practice."""
    if word_of(left) != "in" or not REASONS[job.reason].kept:
        return None
    machine = job.setup.machine
    by_axis = math.prod(certain(each.probability) for each in left.results.values())
    return Stated(
        audit=job.short,
        day=today,
        probability=by_axis if left.whole is None else left.whole.probability,
        axes=Both.of(lambda axis: _axis(job, left, axis)),
        circle_mm=None if left.whole is None else _over(job) * narrowest(job),
        serial_number=job.setup.gauge.serial_number,
        diameter_mm=machine.diameter,
        seat=machine.seat,
        ram_angle=machine.ram_angle,
    )


def borne_out(job: Job, found: SweepDone | None, today: str) -> BorneOut | None:
    """Hold the as-found against what the audit before it stated; None where it stated nothing.

    Found off the gauge's scale it does not agree, and teaches nothing.
    """
    before, going = job.setup.stated, job.setup.going
    if before is None or not REASONS[job.reason].kept:
        return None
    why = before.since or _moved(job, before, today)
    if why is not None:
        return BorneOut(before.audit, before.probability, why, False, False, None)
    learning: NotCounted | None = (
        "learning" if min(each.pairs for each in going.values()) < LEARNS else None
    )
    if found is None:
        return BorneOut(before.audit, before.probability, learning, False, False, None)
    alike = _alike(job, before)
    now = Both.of(lambda axis: _axis(job, found, axis))
    apart = Both.of(lambda axis: _apart(before.axes[axis], now[axis], alike=alike))
    wanders = any(going[a].sd_mm > WANDERS * apart[a].u_mm for a in apart)
    why = learning or ("wanders" if wanders else None)
    nothing = Both(Between(), Between())
    return BorneOut(
        before.audit,
        before.probability,
        why,
        agreed=why is None and _inside(before, now, going, alike=alike),
        as_read=why is None and _inside(before, now, nothing, alike=alike),
        teaches=apart,
    )


def _over(job: Job) -> float:
    return OVER_MM / job.setup.machine.diameter


def _axis(job: Job, sweep: SweepDone, axis: Axis) -> AxisStated:
    over, result = _over(job), sweep.results[axis]
    wanted_mm = result.d_mm - result.error_mm
    u_mm = over * result.u_mm
    return AxisStated(
        lean_mm=over * result.d_mm,
        low_mm=over * (wanted_mm + (result.low_mm or 0.0)),
        high_mm=over * (wanted_mm + (result.high_mm or 0.0)),
        u_mm=u_mm,
        dof=result.dof,
        apart_mm=u_mm if sweep.budgets is None else over * _anew(job, sweep.budgets[axis]),
    )


def _anew(job: Job, budget: Budget) -> float:
    """The part of one axis's doubt that the same gauge's next sweep of the same circle has anew."""
    same = same_again(job.setup.machine.seat)
    return math.hypot(*(term.u_mm for term in budget.terms if term.code not in same))


def _moved(job: Job, before: Stated, today: str) -> NotCounted | None:
    """What is known to have moved the head since, or why it is another lean that was found."""
    machine, known = job.setup.machine, REASONS[job.reason].known
    if known is not None:
        return known
    if job.head.ram_moved or machine.ram_angle != before.ram_angle:
        return "ram"
    if machine.seat != before.seat:
        return "seat"
    day = datetime.date.fromisoformat
    return "long" if day(today) - day(before.day) > LONGEST else None


def _alike(job: Job, before: Stated) -> bool:
    """Whether the same gauge swept the same circle."""
    machine, gauge = job.setup.machine, job.setup.gauge
    as_before = before.serial_number, before.diameter_mm
    return as_before == (gauge.serial_number, machine.diameter)


def _apart(before: AxisStated, now: AxisStated, *, alike: bool) -> Apart:
    return Apart(
        now.lean_mm - before.lean_mm,
        math.hypot(before.doubt(alike=alike).u_mm, now.doubt(alike=alike).u_mm),
        0.5 * (before.high_mm - before.low_mm),
    )


def _inside(before: Stated, now: Both[AxisStated], going: Both[Between], *, alike: bool) -> bool:
    """Whether the as-found, brought back to the doubt of what was stated, lies inside."""
    back = Both.of(lambda axis: _back(before.axes[axis], now[axis], going[axis], alike=alike))
    if before.circle_mm is not None:
        off = (back[axis] - before.axes[axis].middle_mm for axis in back)
        return math.hypot(*off) <= before.circle_mm + SLACK_MM
    return all(
        before.axes[axis].low_mm - SLACK_MM <= back[axis] <= before.axes[axis].high_mm + SLACK_MM
        for axis in back
    )


def _back(before: AxisStated, now: AxisStated, going: Between, *, alike: bool) -> float:
    doubts = (
        before.doubt(alike=alike),
        now.doubt(alike=alike),
        DoubtPart(going.sd_mm, going.dof),
    )
    own = DoubtPart(before.u_mm, before.dof)
    return before.lean_mm + brought_back(now.lean_mm - before.lean_mm, doubts, own)
