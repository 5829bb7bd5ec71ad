"""What an open audit knows of its head: how well it reads, where it stands, what it is to reach."""

import math
from dataclasses import replace
from functools import lru_cache
from typing import Final

from daq.audit.facts import half_zone, middle
from daq.audit.gauge_setup import repeats
from daq.audit.parts import AxisResult, Effect
from daq.audit.reading_order import is_quick
from daq.audit.state import Job
from daq.checks.sweep.effects import effects
from daq.metrology.repeat import Repeat
from daq.squaring import advice
from daq.squaring.adjuster import unheld_mm
from daq.squaring.advice import pivot_from_parked, sees_too_little, sensitivity
from daq.squaring.aim import Goal
from daq.squaring.equations import Doubt, Scatter
from daq.squaring.learned import Learned, swung
from daq.squaring.response import Standing, stand
from daq.squaring.resting import RESTS, STOPS, fell_back, late_by, share
from daq.squaring.story import Story, way_left
from daq.squaring.tightening import ShiftStats, scatter_of
from daq.words import OPPOSITE, PARKED, Axis, Both, Position

_AS_MUCH = 0.8
"""Parked across, a gauge sees as much of a move that is this part of it."""

SWUNG_DOUBT = math.radians(3.0)
"""How near the angle of a ram is guessed from one move, one standard deviation."""


_STAND: Final = lru_cache(maxsize=8)(stand)
"""One press asks several times where the head stands after the same story."""


def repeatability(job: Job) -> Repeat:
    """How well a spot reads the same when come back to, pooled over this gauge and machine."""
    visits = (*job.setup.visits, *job.gauge.visits)
    return repeats(job.setup.gauge, job.setup.machine.uncertainty, visits)


def doubt(job: Job) -> Doubt:
    """How far one reading may be off: its visit, and the gauge's counts."""
    return Doubt(repeatability(job).sd_mm, job.setup.gauge.resolution / math.sqrt(12.0))


def reading_sd(job: Job) -> float:
    """The standard deviation of one reading at a visit of its own, mm."""
    return doubt(job).reading_mm


def learned(job: Job) -> Learned:
    """How the head answers, from earlier audits or from the machine's file."""
    known = job.setup.learned if job.setup.learned and not job.head.ram_moved else _prior(job)
    for axis in job.head.backwards | job.head.unsure:
        known = known.unsure_of(axis)
    if not job.head.swung:
        return known
    return replace(known, answering=swung(known.answering, job.head.swung, SWUNG_DOUBT))


def _prior(job: Job) -> Learned:
    if job.head.ram_moved and job.head.learned is not None:
        return job.setup.machine.prior(job.head.learned.ram)
    return job.setup.machine.prior()


def pivot_mm(job: Job, axis: Axis) -> float:
    """Where the pivot acts, away from the usual place to park: as it was known beforehand.

    Where that proved wrong, as this audit has shown it since.
    """
    wrong = axis in job.head.backwards | job.head.unsure
    answering = standing(job).answering if wrong and job.head.story else learned(job).answering
    return answering.pivot_mm(axis)


def sees_mm(job: Job, axis: Axis) -> float:
    """What the parked gauge sees of a move of this axis, mm per unit of slope, never below zero."""
    away_mm = pivot_from_parked(axis, park_at(job, axis), pivot_mm(job, axis))
    return abs(sensitivity(job.setup.machine.sweep_radius, away_mm))


def is_blind(job: Job, axis: Axis, at: Standing) -> bool:
    """Whether nobody knows well enough what the parked gauge sees of a move of this axis."""
    away_mm = pivot_from_parked(axis, park_at(job, axis), at.answering.pivot_mm(axis))
    doubt_mm = at.answering.pivot_doubt_mm(axis)
    return advice.is_blind(job.setup.machine.sweep_radius, away_mm, doubt_mm)


def park_at(job: Job, axis: Axis) -> Position:
    """Where the gauge sees a move of this axis: its usual place, or across where that sees more.

    A gauge over the pivot hardly moves.
    """
    usual, away_mm = PARKED[axis], pivot_mm(job, axis)
    better = sees_too_little(usual, job.setup.machine.sweep_radius, away_mm, -away_mm)
    return better if better in job.setup.plan.positions else usual


def park_from(job: Job, axis: Axis, stands: Position | None) -> Position:
    """The same, but where the gauge stands already if it sees as much from there."""
    usual = park_at(job, axis)
    across = OPPOSITE[usual]
    if not is_quick(job) or stands != across or across not in job.setup.plan.positions:
        return usual
    here, there = (_sees_from(job, axis, place) for place in (across, usual))
    return across if here >= _AS_MUCH * there else usual


def _sees_from(job: Job, axis: Axis, place: Position) -> float:
    away_mm = pivot_from_parked(axis, place, pivot_mm(job, axis))
    return abs(sensitivity(job.setup.machine.sweep_radius, away_mm))


def nod_mm(job: Job) -> float:
    """How far the nod still to be made moves the head where the gauge is parked, mm."""
    if job.axis != "nod" or "nod" not in job.axes.results:
        return 0.0
    machine = job.setup.machine
    pivot_mm = pivot_from_parked("nod", park_at(job, "nod"), machine.nod.pivot_distance)
    lean = job.axes.results["nod"].error_mm / machine.diameter
    return abs(lean * (machine.sweep_radius + pivot_mm))


def shift_stats(job: Job, axis: Axis) -> ShiftStats:
    """What tightening an axis did before, this audit's own included."""
    before = learned(job).shift_stats[axis]
    diameter = job.setup.machine.diameter
    for shift in job.tightening.shifts:
        if shift.axis == axis:
            before = before.after(shift.shift_mm / diameter)
    return before


def rest_stats(job: Job, axis: Axis) -> ShiftStats:
    """How far an axis went back when it was let go, this audit's own included."""
    known, radius_mm = learned(job), job.setup.machine.sweep_radius
    before = known.rest_stats[axis]
    for slope in fell_back(job.head.story, axis, radius_mm, known.answering.pivot_mm(axis)):
        before = before.after(slope)
    return before


def stop_stats(job: Job, axis: Axis) -> ShiftStats:
    """How far past its stop-at an axis was let go, mm at the gauge, this audit's own included."""
    before = learned(job).stop_stats[axis]
    for each in job.moves.late:
        if each.axis == axis:
            before = before.after(each.late_mm)
    return before


def hand_mm(job: Job, axis: Axis) -> float:
    """How near the hand stops this axis to a reading, one standard deviation, mm at the gauge."""
    return scatter_of(stop_stats(job, axis), STOPS)


def goes_on(job: Job, at: Standing, axis: Axis) -> float:
    """What an axis still does after the reading it is stopped at, along the way of its last turn.

    A slope: how far the hand goes past what it is told, less what the head goes back, once let go
    and later.
    """
    back = (at.answering.rest(axis) + at.answering.late(axis)) * _share(job, axis)
    past_mm = late_by(stop_stats(job, axis), hand_mm(job, axis))
    return past_mm / max(sees_mm(job, axis), 0.5 * job.setup.machine.sweep_radius) - back


def _share(job: Job, axis: Axis) -> float:
    return share(job.setup.machine.sweep_radius, learned(job).answering.pivot_mm(axis))


def standing(job: Job, more: Story = ()) -> Standing:
    """Where the head stands after everything so far, and after `more`."""
    return _STAND(
        (*job.head.story, *more),
        learned(job).answering,
        job.setup.machine.sweep_radius,
        doubt(job),
        scatters(job),
    )


def scatters(job: Job) -> Both[Scatter]:
    """How far what each axis does when it is tightened, and let go, lies apart."""
    return Both.of(lambda axis: _scatter(job, axis))


def _scatter(job: Job, axis: Axis) -> Scatter:
    """What is named as backlash is anything up to that, either way (JCGM 100, 4.3.7)."""
    free_mm = unheld_mm(job.setup.machine.axis(axis).adjust) / math.sqrt(3.0)
    sees = job.setup.machine.sweep_radius + abs(learned(job).answering.pivot_mm(axis))
    free = free_mm / (sees * _share(job, axis))
    rest = scatter_of(
        rest_stats(job, axis), replace(RESTS, scatter=math.hypot(RESTS.scatter, free))
    )
    return Scatter(scatter_of(shift_stats(job, axis)), rest)


def goals(job: Job, at: Standing, anew: Axis | None = None) -> Both[Goal]:
    """What each axis is to reach, as the gauge reads it: the middle of its zone.

    What a turned ring or arm showed beyond the lean is read along with it; what tightening
    will add, and what an axis goes back until then, is left for it, as far as it is known. `anew`:
    the axis that is turned once more before.
    """

    def shift(axis: Axis) -> float:
        way = 0 if axis == anew else way_left(job.head.story, axis)
        return at.answering.shift(axis) - way * at.answering.late(axis) * _share(job, axis)

    return Both.of(lambda axis: _goal(job, axis, shift(axis)))


def _goal(job: Job, axis: Axis, shift: float) -> Goal:
    machine = job.setup.machine
    read_mm = middle(job, axis) + job.sweeps.parked_adds_mm.get(axis, 0.0)
    wanted = machine.axis(axis).wanted_lean + read_mm / machine.diameter
    return Goal(wanted, half_zone(job, axis) / machine.diameter, shift)


def on_the_work(job: Job, results: Both[AxisResult]) -> tuple[Effect, ...]:
    """What the lean a sweep showed does to the shop's work."""
    machine = job.setup.machine
    return effects(results.map(lambda each: each.d_mm / machine.diameter), machine.work)
