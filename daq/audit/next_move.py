"""What comes next: the axis to move, to tighten, or the sweep that proves it."""

import math
from collections.abc import Mapping
from dataclasses import replace

from daq.audit.doubt import of_pair
from daq.audit.facts import (
    first_read,
    half_zone,
    is_far_out,
    judged_as_one,
    middle,
    narrowest,
)
from daq.audit.head import goals, hand_mm, reading_sd, sees_mm
from daq.audit.input import Refused
from daq.audit.parts import AxisResult, Next, NoShim
from daq.audit.reading_order import can_be_set
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.squaring.adjuster import worth_moving
from daq.squaring.aim import Goal, aim, cross_doubt, spoils
from daq.squaring.response import Standing
from daq.squaring.shims import shim, thickness, worth_shimming
from daq.words import AXES, OPPOSITE, OTHER, PARKED, Axis, Both

_SHOWS = 0.75
"""Too close to call, an axis is left where its move would be less than this part of a count of
the parked gauge: it can be stopped at whole counts only."""
_SAME_SHIM = 0.5
"""Shims are alike that would set an axis within this part of its limit of each other."""
_SHIMS_ASKED = 3
"""So often an axis is asked for a shim while it stays far out: then there is none."""
_MOST = 3.0
"""What is in doubt comes to so many standard deviations at the most."""
_UNSURE = 0.25
"""An axis is checked before its move when its lean is in more doubt, one standard deviation,
than this part of its limit."""

Results = Mapping[Axis, AxisResult]


def wants_move(job: Job, axis: Axis, result: AxisResult) -> bool:
    """Whether this axis is to be moved: not inside, it can be, and a move would better it."""
    if result.word == "in":
        return False
    half_mm, rule = half_zone(job, axis), job.setup.machine.verdict
    if rule.name == "simple" and not result.good_enough:
        # No move can be called in: what reads inside is left, else it is brought to read so.
        off_mm = abs(result.error_mm - middle(job, axis))
        return off_mm > half_mm and _worth(job, axis, result, half_mm)
    return _worth(job, axis, result, half_mm - result.guard_mm)


def _worth(job: Job, axis: Axis, result: AxisResult, within_mm: float) -> bool:
    """Whether a move of this axis is likely to end within so much of its goal."""
    if not can_be_set(job, axis):
        return False
    off = result.error_mm - middle(job, axis)
    if _shimmed(job, axis, off):
        return False
    shows = abs(off) >= _SHOWS * job.setup.gauge.resolution * _across(job, axis)
    if result.word == "close" and not shows:
        return False
    leaves = math.hypot(leaves_mm(job, axis), reads_mm(job, axis))
    machine = job.setup.machine
    adjust = machine.axis(axis).adjust
    if adjust.shelf:
        left_mm = shim(off, machine.diameter, adjust).leaves_mm
        return worth_shimming(off, left_mm, within_mm, leaves, result.word)
    return worth_moving(off, within_mm, leaves, result.word)


def _shimmed(job: Job, axis: Axis, off_mm: float) -> bool:
    """Whether this would ask for a shim that was asked for, and did not bring the axis inside.

    There is none on the shelf, nor one so near to it. Far out still, it was not put in, and is
    asked for once more; so is one that there is.
    """
    machine = job.setup.machine
    adjust = machine.axis(axis).adjust
    asked = [shim for each, shim in job.moves.shims if each == axis]
    if not asked or (is_far_out(job, axis, off_mm) and len(asked) < _SHIMS_ASKED):
        return False
    needed = shim(off_mm, machine.diameter, adjust)
    near_mm = thickness(_SAME_SHIM * half_zone(job, axis), machine.diameter, adjust)
    same = [
        tried
        for tried in asked
        if tried.place == needed.place and abs(tried.thickness_mm - needed.thickness_mm) <= near_mm
    ]
    return len(same) > (1 if adjust.shelf else 0)


def no_shims(job: Job) -> tuple[NoShim, ...]:
    """The axes that would be moved if there were a shim on the shelf to bring them inside."""
    if job.moves.ended or not squares(job):
        return ()
    return tuple(
        NoShim(axis, left_mm)
        for axis, result in job.axes.results.items()
        if (left_mm := _at_best(job, axis, result)) is not None
    )


def _at_best(job: Job, axis: Axis, result: AxisResult) -> float | None:
    """What is left of an axis's error at best, as it is or with a shim; None if that can be in."""
    machine = job.setup.machine
    adjust, within_mm = machine.axis(axis).adjust, half_zone(job, axis) - result.guard_mm
    if result.word == "in" or not (adjust.shelf and can_be_set(job, axis)) or within_mm <= 0.0:
        return None
    off_mm = result.error_mm - middle(job, axis)
    left_mm = shim(off_mm, machine.diameter, adjust).leaves_mm
    best_mm = min(off_mm, left_mm, key=abs)
    if abs(best_mm) <= within_mm or wants_move(job, axis, result):
        return None
    return middle(job, axis) + best_mm


def leaves_mm(job: Job, axis: Axis) -> float:
    """What a move leaves undone, one standard deviation, mm across the sweep."""
    return _across(job, axis) * math.hypot(hand_mm(job, axis), math.sqrt(2.0) * reading_sd(job))


def _across(job: Job, axis: Axis) -> float:
    """What a change of the parked reading is across the sweep, as a multiple of it."""
    machine = job.setup.machine
    return machine.diameter / max(sees_mm(job, axis), 0.5 * machine.sweep_radius)


def reads_mm(job: Job, axis: Axis) -> float:
    """How far off an axis may read in a pair check, one standard deviation, mm across the sweep.

    Without a back, nod is read against the middle of the sides: twice what is between them.
    """
    straight = OPPOSITE[PARKED[axis]] in job.setup.plan.positions
    return math.sqrt(2.0 if straight else 6.0) * reading_sd(job)


def after_sweep(job: Job, results: Results) -> Next:
    """The worst axis that wants a move is next; on a check, or when none does, none is."""
    worst = furthest(job, results)
    if worst is None or job.moves.ended or not squares(job):
        return Next("clear")
    return Next("park", worst)


def squares(job: Job) -> bool:
    """Whether the head is to be set in this audit, and not looked at alone."""
    return REASONS[job.reason].squares or job.moves.squaring_asked


def furthest(job: Job, results: Results) -> Axis | None:
    """The axis furthest out for its tolerance of those to be moved; None when there is none."""
    return _worst(job, wanting(job, results), results)


def wanting(job: Job, results: Results) -> list[Axis]:
    """The axes to be moved by their own limits; of a lean judged as a whole, the worse one.

    That is the worse one that can be set, if the other leaves it any room.
    """
    whole = judged_as_one(job, results)
    if whole is None:
        return [axis for axis in AXES if wants_move(job, axis, results[axis])]
    if whole.word == "in":
        return []
    off = Both.of(lambda axis: abs(results[axis].error_mm - middle(job, axis)))
    settable = [axis for axis in AXES if can_be_set(job, axis)]
    if not settable:
        return []
    longer = max(settable, key=lambda axis: off[axis])
    circle_mm = max(narrowest(job) - whole.guard_mm, 0.0)
    room = math.sqrt(circle_mm**2 - min(circle_mm, off[OTHER[longer]]) ** 2)
    if OTHER[longer] not in settable and off[OTHER[longer]] >= circle_mm:
        return []
    judged = replace(results[longer], word=whole.word)
    return [longer] if _worth(job, longer, judged, room) else []


def _worst(job: Job, axes: list[Axis], results: Results) -> Axis | None:
    """The axis the shop or a person wants first, else the one furthest out.

    That is the one furthest from the middle of its zone, for the zone's width.
    """
    first = job.moves.first or job.setup.machine.first

    def off(axis: Axis) -> float:
        return abs(results[axis].error_mm - middle(job, axis)) / half_zone(job, axis)

    return min(axes, key=lambda axis: (axis != first, -off(axis)), default=None)


def after_check(job: Job, axis: Axis, at: Standing) -> Next:
    """What follows a pair check of `axis`.

    Bolts that are loose are settled first: the axis is moved again, or it is tightened when
    it stands where it should, or when the other axis's move may still throw it out by more
    than can be aimed for. Far out it is never bolted up: it is turned on while it is loose.
    """
    alone = Both.of(lambda a: landed(job, a, at, False))
    out = wanting(job, alone)
    moved = Both.of(lambda a: a in out)
    landing = Both.of(lambda a: landed(job, a, at, moved[OTHER[a]]))
    # One that is inside by itself is left alone, though the other's move may yet throw it out.
    still = [a for a in wanting(job, landing) if moved[a] or not moved[OTHER[a]]]
    for loose in sorted(job.loose, key=lambda a: a != axis):
        if job.setup.machine.loosen == "both" and any(a != loose for a in still):
            continue
        ready = loose in still and not _waits(job, loose, still, at)
        if ready or _turns_on(job, loose, still, at):
            return _onto(job, loose, axis, at)
        # The other axis's move or bolts came between: read where it stands, and park there.
        return Next("tighten" if loose == axis else "check", loose)
    if axis in still and _waits(job, axis, still, at):
        return _onto(job, OTHER[axis], axis, at)
    worst = _worst(job, still, landing)
    return Next("final") if worst is None else _onto(job, worst, axis, at)


def _onto(job: Job, axis: Axis, checked: Axis, at: Standing) -> Next:
    """The next move is this axis's, after the pair check of `checked`.

    Its own pair is read first where the other's move left its lean in a doubt that the check
    would make clearly less: the stop-at starts from there, and how the other's turn answers
    on this axis is learned for good.
    """
    doubt = at.lean_doubt(axis)
    checked_doubt = reads_mm(job, axis) / job.setup.machine.diameter
    enough = max(_UNSURE * goals(job, at)[axis].limit, math.sqrt(2.0) * checked_doubt)
    return Next("check" if axis != checked and doubt > enough else "park", axis)


def landed(job: Job, axis: Axis, at: Standing, others: bool) -> AxisResult:
    """An axis as it will stand if it is not turned any more and its bolts are tight.

    With `others`, once the other one was moved to its goal.
    """
    machine = job.setup.machine
    aims = {a: _as_it_is(job, a, goal) for a, goal in goals(job, at).items()}
    off = at.lean(axis) - aim(at, aims, axis, others)
    error_mm = middle(job, axis) + off * machine.diameter
    wanted_mm = machine.axis(axis).wanted_lean * machine.diameter
    return of_pair(job, axis, wanted_mm + error_mm)


def _as_it_is(job: Job, axis: Axis, goal: Goal) -> Goal:
    """The goal of an axis that is not turned any more: tight bolts shift it no further."""
    return goal if axis in job.loose else replace(goal, shift=0.0)


def _turns_on(job: Job, axis: Axis, still: list[Axis], at: Standing) -> bool:
    """Whether this axis would be bolted up far out, though a move would better it.

    Far even if the other's move should take back as much of it as it may at the most: turned on
    for less, it is as likely as not to be cracked again all the same.
    """
    others = OTHER[axis] in still
    result = landed(job, axis, at, others)
    most_mm = _MOST * cross_doubt(at, goals(job, at), axis) * job.setup.machine.diameter
    off_mm = abs(result.error_mm - middle(job, axis)) - (most_mm if others else 0.0)
    return is_far_out(job, axis, max(off_mm, 0.0)) and wants_move(job, axis, result)


def _waits(job: Job, axis: Axis, still: list[Axis], at: Standing) -> bool:
    """Whether this axis is better finished after the other's move."""
    return OTHER[axis] in still and spoils(at, goals(job, at), axis)


def sweep_next(job: Job) -> Next:
    """To a full sweep: one that counts is taken with everything tight."""
    if job.loose:
        raise Refused("bolts-loose")
    return first_read(job)
