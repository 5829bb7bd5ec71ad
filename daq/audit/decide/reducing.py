"""A finished sweep: its lean, its doubt term by term, its findings, its verdict, what is next."""

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import cast

from daq.audit.decide.choosing import after_sweep
from daq.audit.doubt import of_sweep
from daq.audit.events import SweepDone
from daq.audit.facts import as_one, half_zone, points, result, unit_of
from daq.audit.parts import AxisResult, Finding, Next
from daq.audit.state import Job
from daq.checks.sweep import findings as look
from daq.checks.sweep.arrange import bar_points, reversed_pair
from daq.checks.sweep.harmonics import second
from daq.checks.sweep.reduce import Fit, Point, fit, return_error
from daq.metrology.budget import Budget
from daq.words import AXES, POSITIONS, Axis, Position, Reading


@dataclass(frozen=True)
class Swept:
    """A sweep's readings fitted.

    `read` are the first gauge's; on a two-gauge bar `fitted` is that of the differences.
    """

    where: tuple[Position, ...]
    read: tuple[Point, ...]
    fitted: Fit
    return_mm: float


def reduce(job: Job, readings: tuple[Reading, ...], seconds: tuple[Reading, ...]) -> SweepDone:
    """The sweep's event: readings in the order taken, and the other gauge's on a bar."""
    swept = _fitted(job, readings, seconds)
    still = min(r.sd_mm for r in readings)
    budgets = {
        axis: of_sweep(job, swept.read, swept.fitted, swept.return_mm, still, axis) for axis in AXES
    }
    read: dict[Axis, float] = {"side": swept.fitted.d_side_mm, "nod": swept.fitted.d_nod_mm}
    mean = _with_turned(job, swept.fitted, read)
    side, nod = (_judged(job, axis, mean[axis], budgets[axis]) for axis in AXES)
    found = _findings(job, swept)
    usable = not any(f.blocking for f in found)
    follows = after_sweep(job, {"side": side, "nod": nod}) if usable else Next(job.step)
    return SweepDone(
        number=len(job.sweeps) + 1,
        purpose=job.purpose,
        why=job.again_why,
        center_pushed_mm=swept.fitted.c_mm,
        side_slope=swept.fitted.a,
        nod_slope=-swept.fitted.b,
        return_error_mm=swept.return_mm,
        spare_mm=swept.fitted.spare_mm,
        points=points(_at_the_end(swept)),
        findings=found,
        usable=usable,
        side=side,
        nod=nod,
        next=follows,
        turned=job.turned,
        part_of=job.turned or job.part_of,
        side_part_mm=read["side"] - mean["side"],
        nod_part_mm=read["nod"] - mean["nod"],
        side_budget=budgets["side"],
        nod_budget=budgets["nod"],
        word=as_one(job, side, nod),
    )


def _fitted(job: Job, readings: tuple[Reading, ...], seconds: tuple[Reading, ...]) -> Swept:
    where = tuple(cast(Position, r.position) for r in readings)
    orders = _orders(readings)
    gauge, other = job.setup.gauge, job.setup.second_gauge
    read = tuple(
        Point(POSITIONS[p], gauge.pushed(r.mean_mm), at)
        for p, r, at in zip(where, readings, orders, strict=True)
    )
    machine = job.setup.machine
    back = return_error(read[0].pushed_mm, read[-1].pushed_mm)
    if other is None or machine.second_radius is None or len(seconds) != len(readings):
        return Swept(where, read, fit(read, machine.sweep_radius, drift=True), back)
    across = tuple(
        Point(p.azimuth_deg, other.pushed(r.mean_mm), p.order)
        for p, r in zip(read, seconds, strict=True)
    )
    apart = bar_points(read, across)
    back = return_error(apart[0].pushed_mm, apart[-1].pushed_mm)
    bar = fit(apart, machine.sweep_radius + machine.second_radius, drift=True)
    # The bar's slopes, as differences across the first gauge's own circle.
    return Swept(where, read, replace(bar, radius_mm=machine.sweep_radius), back)


def _orders(readings: tuple[Reading, ...]) -> tuple[float, ...]:
    """Seconds since the first reading; the readings' count when a restart broke the clock."""
    times = [(r.mid_ns - readings[0].mid_ns) / 1e9 for r in readings]
    rising = all(before < after for before, after in pairwise(times))
    return tuple(times) if rising else tuple(float(i) for i in range(len(readings)))


def _at_the_end(swept: Swept) -> dict[Position, float]:
    """Each position's value as the gauge would read it at the end, a steady drift assumed."""
    first, last = swept.read[0], swept.read[-1]
    drift = (last.pushed_mm - first.pushed_mm) / (last.order - first.order)
    return {
        p: point.pushed_mm + drift * (last.order - point.order)
        for p, point in zip(swept.where, swept.read, strict=True)
    }


def _with_turned(job: Job, fitted: Fit, read: dict[Axis, float]) -> dict[Axis, float]:
    """The differences; with the ring or arm turned, the mean of this sweep and the one before.

    What an earlier turn showed of a surface that still lies the same is left out of them.
    """
    before = job.latest
    if not job.turned or before is None:
        return {axis: read[axis] - job.part_mm.get(axis, 0.0) for axis in AXES}
    first = replace(fitted, a=before.side_slope, b=-before.nod_slope)
    lean = reversed_pair(first, fitted)
    return {"side": lean.d_side_mm, "nod": lean.d_nod_mm}


def _judged(job: Job, axis: Axis, d_mm: float, budget: Budget) -> AxisResult:
    return result(job, axis, d_mm, budget.u_mm, budget.dof)


def _findings(job: Job, swept: Swept) -> tuple[Finding, ...]:
    unit = unit_of(job)
    resolution = job.setup.gauge.resolution
    tolerance = min(half_zone(job, "side"), half_zone(job, "nod"))
    earlier = job.sweeps[-1].spare_mm if job.sweeps else None
    limit = look.return_limit_mm(resolution, tolerance)
    found = [look.return_error_past(swept.return_mm, limit, unit)]
    spare = swept.fitted.spare_mm
    if spare is not None:
        allowed = look.spare_limit_mm(resolution, tolerance, job.spread_mm / 8)
        found.append(look.spare_past(spare, allowed, unit, earlier_mm=earlier))
    if len(job.setup.plan.positions) > 4:
        wave = second(swept.read, job.setup.machine.sweep_radius, drift=True)
        allowed = look.spare_limit_mm(resolution, tolerance, job.spread_mm / 8)
        found.append(look.second_past(wave, allowed, unit))
    found.append(look.aliased([p.azimuth_deg for p in swept.read]))
    return tuple(Finding(f.code, f.say, f.blocking) for f in found if f is not None)
