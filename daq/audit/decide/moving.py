"""Loosening, the one move, the pair check, tightening."""

from typing import cast

from daq.audit.decide.common import Input, Nothing, Refused, Take
from daq.audit.decide.parking import axis_of
from daq.audit.decide.sweeping import check_contact, check_unit, outside, taken
from daq.audit.events import CheckDone, Data, Loosened, Moved, Tightened
from daq.audit.facts import differences, left_to_check, points, result
from daq.audit.parts import AxisResult, Next, StopAt
from daq.audit.state import Job
from daq.words import AXES, Axis, Command, Position, Reading


def _stop(job: Job) -> StopAt:
    if job.stop is None:
        raise Refused("There is no stop-at: park and read this spot first.")
    return job.stop


def _watched(job: Job, given: Input, stop: StopAt) -> Reading:
    check_unit(job, given)
    reading = given.reading(stop.position)
    check_contact(job, reading)
    return reading


def loosened(job: Job, given: Input) -> tuple[Data, ...]:
    """The bolts were cracked: the drop is recorded and the stop-at does not move with it."""
    given.payload(Nothing)
    stop = _stop(job)
    reading = _watched(job, given, stop)
    drop = reading.mean_mm - stop.base_face_mm
    return (Loosened(stop.axis, reading, drop, Next("move", stop.axis)),)


def stopped(job: Job, given: Input) -> tuple[Data, ...]:
    """The adjuster was turned; where it stopped."""
    given.payload(Nothing)
    stop = _stop(job)
    reading = _watched(job, given, stop)
    past = reading.mean_mm - stop.stop_face_mm
    return (Moved(stop.axis, reading, past, Next("check", stop.axis)),)


def place(job: Job, command: Command) -> Position:
    """Where a pair check's take says the gauge is, if that is still wanted."""
    left = left_to_check(job)
    position = Input(command).payload(Take).position
    if position not in left:
        found = position or "no position"
        raise Refused(f"{found.capitalize()} is not wanted now: {left[0]} is next.")
    return position


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the pair check; the second one judges the axis."""
    event = taken(job, given, place(job, given.command))
    if not job.taken:
        return (event,)
    return event, _judge(job, (*job.taken, event.reading))


def _judge(job: Job, readings: tuple[Reading, ...]) -> CheckDone:
    axis = axis_of(job)
    known = _after_move(job, axis, readings)
    d_mm = differences(known)[axis]
    results: dict[Axis, AxisResult] = {**job.results, axis: result(job, axis, d_mm)}
    before = job.before_tightening.get(axis)
    tight = axis not in job.loose
    moved = abs(d_mm - job.results[axis].d_mm)
    slack = {a: 0.0 if a == axis else job.slack_mm.get(a, 0.0) + moved for a in AXES}
    return CheckDone(
        axis=axis,
        points=points(known),
        side=results["side"],
        nod=results["nod"],
        shift_mm=d_mm - before if tight and before is not None else None,
        before_tightening_mm=None if tight else d_mm,
        side_slack_mm=slack["side"],
        nod_slack_mm=slack["nod"],
        next=after_check(job, axis, results),
    )


def _after_move(job: Job, axis: Axis, readings: tuple[Reading, ...]) -> dict[Position, float]:
    """What each position reads now: the pair as read, the others with the circle's centre.

    A head turned about a pivot beside the spindle lifts or lowers the whole circle; the
    middle of the pair that was read says by how much.
    """
    pair = {cast(Position, r.position): job.setup.gauge.pushed(r.mean_mm) for r in readings}
    lifted = sum(m - job.known[p] for p, m in pair.items()) / len(pair)
    return {p: pair.get(p, m + lifted) for p, m in job.known.items()}


def after_check(job: Job, axis: Axis, results: dict[Axis, AxisResult]) -> Next:
    """Out: the same axis again. In: tighten it, or once tight go to the other axis or the proof."""
    if results[axis].word == "out":
        return Next("park", axis)
    if axis in job.loose:
        return Next("tighten", axis)
    worst = outside(results)
    return Next("final") if worst is None else Next("park", worst)


def tightened(job: Job, given: Input) -> tuple[Data, ...]:
    """The bolts are tight again; a pair check shows what that did."""
    given.payload(Nothing)
    axis = axis_of(job)
    if axis not in job.loose:
        raise Refused("Those bolts are tight already.")
    return (Tightened(axis, Next("check", axis)),)
