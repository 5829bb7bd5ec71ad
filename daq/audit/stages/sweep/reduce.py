"""A finished sweep: its lean, its doubt term by term, its findings, its verdict, what is next."""

import math
from dataclasses import dataclass, replace

from daq.audit.decidable.helps import decidable
from daq.audit.decide_parts import Decidable
from daq.audit.doubt import of_sweep
from daq.audit.events import SweepDone
from daq.audit.facts import as_one, certain, first_read, narrowest, points, result, unit_of
from daq.audit.head import on_the_work, reading_sd
from daq.audit.laid import known, reversal
from daq.audit.next_move import after_sweep
from daq.audit.parts import Added, Flaw, Next
from daq.audit.reading import orders
from daq.audit.stages.sweep.unreturned import unseen_mm
from daq.audit.state import Job
from daq.checks import finding as against
from daq.checks.sweep import findings as look
from daq.checks.sweep.arrange import bar_points, reversed_pair
from daq.checks.sweep.harmonics import second
from daq.checks.sweep.reduce import Fit, Spot, fit, return_error
from daq.checks.sweep.slow_turn.fit import SlowTurn
from daq.checks.sweep.steady import Walked
from daq.units import FINE
from daq.words import POSITIONS, Both, Position, Reading, Shown, said

SURE = 4.0
"""A part half the difference of two sweeps' differences scatters by √2 of a reading: 2.8 of it."""


@dataclass(frozen=True)
class FittedSweep:
    """A sweep's readings fitted.

    `read` are the first gauge's, and `alone` their fit; on a two-gauge bar `fitted` is that
    of the differences, else the same. `scatter_mm`: the least of one reading's samples. `slow`: of
    a slow turn, the circle of all its samples, told at the places.
    """

    where: tuple[Position, ...]
    read: tuple[Spot, ...]
    alone: Fit
    fitted: Fit
    return_mm: float
    scatter_mm: float
    slow: SlowTurn | None = None
    returned: bool = True


def reduce(job: Job, readings: tuple[Reading, ...], seconds: tuple[Reading, ...]) -> SweepDone:
    """The sweep's event: readings in the order taken, and the other gauge's on a bar."""
    return came_to(job, _fitted(job, readings, seconds))


def came_to(job: Job, swept: FittedSweep) -> SweepDone:
    """The event of a sweep, however it was read."""
    as_read = swept.read, swept.fitted, swept.return_mm, swept.scatter_mm
    budgets = Both.of(lambda axis: of_sweep(job, *as_read, axis, swept.slow))
    added = _added(job, swept.fitted)
    mean = _without(added, swept.fitted)
    results = Both.of(
        lambda axis: result(job, axis, mean[axis], budgets[axis].u_mm, budgets[axis].dof)
    )
    teaches = reversal(job, added, budgets)
    found = (*_findings(job, swept, added), *teaches.told)
    usable = not any(f.blocking for f in found)
    follows = after_sweep(job, results) if usable else first_read(job)
    if usable and not swept.returned:
        walked = Shown(swept.return_mm, unit_of(job), FINE[unit_of(job)])
        follows = replace(follows, left_out=said("return-left-out", walked=walked))
    done = SweepDone(
        number=len(job.sweeps.done) + 1,
        purpose=job.sweeps.purpose,
        why=job.reads.why,
        center_pushed_mm=swept.fitted.c_mm,
        slopes=swept.fitted.slopes,
        return_error_mm=swept.return_mm if swept.returned else 0.0,
        spare_mm=swept.fitted.spare_mm,
        points=points(_as_it_ended(swept)),
        findings=found,
        usable=usable,
        results=results,
        next=follows,
        turned=job.reads.turned,
        added=added,
        taught=teaches.taught if usable else None,
        differs=teaches.differs if usable else None,
        parked_adds_mm=Both.of(lambda axis: swept.alone.d_mm[axis] - mean[axis]),
        budgets=budgets,
        whole=as_one(job, results),
        effects=on_the_work(job, results),
        slow=swept.slow,
        returned=swept.returned,
    )
    if not usable:
        return done
    to = follows if teaches.differs is None else Next("differs")
    return replace(done, decidable=_decidable(job, swept, done), next=to)


def _decidable(job: Job, swept: FittedSweep, done: SweepDone) -> Decidable:
    """What can be decided with the sweep just done; the next one is taken to be read still."""
    after = replace(job, sweeps=replace(job.sweeps, done=(*job.sweeps.done, done)))
    read = swept.read
    if not swept.returned:
        # The next sweep may be read back.
        step = (read[-1].order - read[0].order) / (len(read) - 1)
        read = (*read, replace(read[0], order=read[-1].order + step))
    return decidable(after, read, swept.fitted, swept.return_mm, swept.scatter_mm)


def _fitted(job: Job, readings: tuple[Reading, ...], seconds: tuple[Reading, ...]) -> FittedSweep:
    where: tuple[Position, ...] = tuple(certain(r.position) for r in readings)
    gauge, other = job.setup.gauge, job.setup.second_gauge
    read = tuple(
        Spot(POSITIONS[p], gauge.pushed(r.mean_mm), at)
        for p, r, at in zip(where, readings, orders(readings), strict=True)
    )
    machine, still = job.setup.machine, min(r.sd_mm for r in readings)
    returned = where[0] == where[-1]
    alone = fit(read, machine.sweep_radius, drift=returned)
    if not returned:
        unseen = unseen_mm(job)
        return FittedSweep(where, read, alone, alone, unseen, still, returned=False)
    back = return_error(read[0].pushed_mm, read[-1].pushed_mm)
    if other is None or machine.second_radius is None or len(seconds) != len(readings):
        return FittedSweep(where, read, alone, alone, back, still)
    across = tuple(
        Spot(p.azimuth_deg, other.pushed(r.mean_mm), p.order)
        for p, r in zip(read, seconds, strict=True)
    )
    across_bar = bar_points(read, across)
    back = return_error(across_bar[0].pushed_mm, across_bar[-1].pushed_mm)
    bar = fit(across_bar, machine.sweep_radius + machine.second_radius, drift=True)
    # The bar's slopes, as differences across the first gauge's own circle.
    fitted = replace(bar, radius_mm=machine.sweep_radius)
    return FittedSweep(where, read, alone, fitted, back, still)


def _as_it_ended(swept: FittedSweep) -> dict[Position, float]:
    """Each position's value as the gauge would read it at the end, a steady drift assumed."""
    if not swept.returned:
        return {p: each.pushed_mm for p, each in zip(swept.where, swept.read, strict=True)}
    first, last = swept.read[0], swept.read[-1]
    drift = (last.pushed_mm - first.pushed_mm) / (last.order - first.order)
    return {
        p: point.pushed_mm + drift * (last.order - point.order)
        for p, point in zip(swept.where, swept.read, strict=True)
    }


def _added(job: Job, fitted: Fit) -> tuple[Added, ...]:
    """What is known to lie in the readings besides the lean, as the surface lies now.

    What was turned for this sweep is half of what changed since the sweep before.
    """
    before = job.sweeps.latest
    if not job.reads.turned or before is None:
        return known(job)
    first = replace(fitted, a=before.slopes.side, b=-before.slopes.nod)
    lean = reversed_pair(first, fitted)
    across = 2.0 * fitted.radius_mm
    # As this sweep read it: the first one read it the other way round.
    turned = Added(job.reads.turned, Both(-across * lean.added_a, across * lean.added_b))
    return (*(each for each in job.sweeps.added if each.of != job.reads.turned), turned)


def _without(added: tuple[Added, ...], fitted: Fit) -> Both[float]:
    """The differences of the lean alone."""
    return Both.of(lambda axis: fitted.d_mm[axis] - sum(each.d_mm[axis] for each in added))


def _findings(job: Job, swept: FittedSweep, added: tuple[Added, ...]) -> tuple[Flaw, ...]:
    unit, noise_mm = unit_of(job), job.gauge.spread_mm / 8
    allowed = look.spare_limit_mm(job.setup.gauge.resolution, narrowest(job), noise_mm)
    earlier = job.sweeps.done[-1].spare_mm if job.sweeps.done else None
    found = [_returned(job, swept) if swept.returned else None]
    spare, slow = swept.fitted.spare_mm, swept.slow
    if slow is not None:
        found += [look.second_past(slow.second, allowed, unit), slow.stood_out(allowed, unit)]
    elif spare is not None:
        found.append(look.spare_past(spare, allowed, unit, earlier_mm=earlier))
    if slow is None and len(job.setup.plan.positions) > 4:
        wave = second(swept.read, job.setup.machine.sweep_radius, drift=swept.returned)
        found.append(look.second_past(wave, allowed, unit))
    found += [_over_bound(job, each) for each in added if not each.learned]
    if slow is None:
        found.append(look.aliased([p.azimuth_deg for p in swept.read]))
    return tuple(Flaw(f.said, f.blocking) for f in found if f is not None)


def return_limit(job: Job) -> float:
    """How large a sweep's return error may be, mm."""
    return against.return_limit_mm(job.setup.gauge.resolution, narrowest(job))


def _returned(job: Job, swept: FittedSweep) -> against.Finding | None:
    """What to say of a sweep that does not come back; as fast as what was said to be steady."""
    limit_mm, unit, known = return_limit(job), unit_of(job), job.sweeps.steady_mm_s
    past = against.return_error_past(swept.return_mm, limit_mm, unit)
    walked = Walked(swept.return_mm, swept.read[-1].order - swept.read[0].order)
    if past is None or known is None or not walked.is_as(known, reading_sd(job)):
        return past
    return walked.told(limit_mm, unit)


def _over_bound(job: Job, each: Added) -> against.Finding | None:
    """What to say when a turn showed more than the machine's file allows for.

    It stops the sweep: a head knocked between the two sweeps looks just the same.
    """
    doubts = job.setup.machine.uncertainty
    found_mm = math.hypot(*each.d_mm.values())
    bound_mm = doubts.wedge if each.of == "ring" else 2.0 * doubts.spindle_axial
    if found_mm <= bound_mm + SURE * reading_sd(job):
        return None
    unit = unit_of(job)
    found, bound = (Shown(mm, unit, FINE[unit]) for mm in (found_mm, bound_mm))
    say = said("added", of=each.of, found=found, bound=bound, unit=unit)
    return against.Finding(say, True, found_mm, bound_mm)
