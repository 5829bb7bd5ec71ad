"""How a person comes to a stop-at: how far past it, in how many turns, with what in mind."""

from daq.audit.facts import unit_of
from daq.audit.parts import StopAt, Way
from daq.audit.state import Job
from daq.squaring import adjuster
from daq.words import PARKED, Axis, Position


def last_way(job: Job, axis: Axis, turn: float) -> int:
    """Which way an axis's lean is turned last, in a turn that changes it by so much, slope.

    1 with the right or the front going down; an adjuster that has a side to rise last comes from
    that side, whichever way it goes.
    """
    adjust = job.setup.machine.axis(axis).adjust
    if adjust.kind in ("worm", "rack") and adjust.finish_raising:
        return -1 if adjust.finish_raising == PARKED[axis] else 1
    return (turn > 0.0) - (turn < 0.0)


def way(job: Job, axis: Axis, position: Position, ends_mm: tuple[float, float], lean: float) -> Way:
    """The way from one parked reading to another, both pushed-in mm.

    `lean` is how the lean toward the parked position changes on it, slope.
    """
    gauge = job.setup.gauge
    adjust = job.setup.machine.axis(axis).adjust
    past = adjuster.past_mm(lean, position, adjust)
    return Way(
        past_mm=past / gauge.cosine,
        turns=adjuster.say_turns(adjuster.turns(lean, adjust)),
        warnings=adjuster.warnings(
            *ends_mm,
            job.gauge.free_pushed_mm,
            gauge.travel,
            gauge.kind,
            gauge.resolution,
            unit_of(job),
            past,
        ),
    )


def way_left(job: Job, stop: StopAt, now_face_mm: float) -> Way:
    """The way to a stop-at from what the gauge's face reads now."""
    now, end = (job.setup.gauge.pushed(face_mm) for face_mm in (now_face_mm, stop.stop_face_mm))
    return way(job, stop.axis, stop.position, (now, end), lean_left(job, stop, now_face_mm))


def lean_left(job: Job, stop: StopAt, now_face_mm: float) -> float:
    """How the lean is still to change from what the face reads now, slope, seen as `stop` is."""
    gauge = job.setup.gauge
    base, end = gauge.pushed(stop.base_face_mm), gauge.pushed(stop.stop_face_mm)
    change = stop.wanted - stop.lean
    planned = end != base and change != 0.0
    # Below zero where the pivot lies beyond the parked gauge.
    per_mm = change / (end - base) if planned else 1.0 / job.setup.machine.sweep_radius
    return (end - gauge.pushed(now_face_mm)) * per_mm
