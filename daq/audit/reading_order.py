"""Where the gauge is read next and in what order: round the circle, across; what is left out."""

from daq.audit.facts import axis_of, certain
from daq.audit.state import Job
from daq.squaring.story import last_seen
from daq.words import AXES, FOUR_POSITIONS, OPPOSITE, OTHER, PARKED, Axis, Position


def unread_places(job: Job) -> tuple[Position, ...]:
    """The places still to be read, the guided one first; at the end the first one again."""
    taken = [r.position for r in job.reads.taken]
    left = tuple(p for p in sweep_order(job) if p not in taken)
    return left or (certain(taken[0]),)


def is_quick(job: Job) -> bool:
    """Whether what tells nothing new is left out."""
    return job.setup.machine.plan == "quick"


def may_go_round(job: Job) -> bool:
    """Whether a sweep may be one slow turn: the collar tells where the arm passes by itself.

    A block is lifted from spot to spot, and of two gauges the far one has no lag of its own told.
    """
    machine = job.setup.machine
    whole = set(FOUR_POSITIONS) <= set(machine.positions)
    alone = job.setup.second_gauge is None and machine.seat != "block"
    return bool(machine.slow_turn) and alone and whole


def saves_time(job: Job) -> bool:
    """Whether the steps of squaring are chosen by the time they take.

    Not for shims, of which one more is no turn more; nor for a lean that is judged as a whole; nor
    once something did not fit, which may come again unseen.
    """
    machine = job.setup.machine
    shims = any(machine.axis(a).adjust.kind == "shim" for a in AXES if can_be_set(job, a))
    whole = machine.verdict.together == "vector"
    return is_quick(job) and not shims and not whole and not job.head.is_surprising


def can_be_set(job: Job, axis: Axis) -> bool:
    """Whether this axis has an adjuster, and is not left alone."""
    return axis not in job.moves.alone and job.setup.machine.axis(axis).adjust.kind != "none"


def both_at_once(job: Job) -> bool:
    """Whether the bolts of both axes are cracked together now: both are to be moved."""
    machine, other = job.setup.machine, OTHER[axis_of(job)]
    together = is_quick(job) and machine.loosen == "both" and not job.loose
    settable = machine.axis(other).adjust.kind not in ("none", "shim")
    left = other in job.moves.alone or job.axes.results[other].word == "in"
    return together and settable and not left


def sweep_order(job: Job) -> tuple[Position, ...]:
    """Where the sweep under way reads, in order."""
    told = job.ahead.places if job.ahead is not None else ()
    return told or job.setup.plan.positions


def sweep_from(job: Job) -> tuple[Position, ...]:
    """The order of a sweep begun now: from where the gauge stands, and unwinding its cable."""
    every, stands = job.setup.plan.positions, job.gauge.at
    if not is_quick(job) or stands not in every or job.reads.turned:
        return every
    at = every.index(stands)
    onward = (*every[at:], *every[:at])
    return (onward[0], *onward[:0:-1]) if job.gauge.wound_deg > 0.0 else onward


def check_order(job: Job, axis: Axis) -> tuple[Position, ...]:
    """Where a pair check reads, in order; without a back, nod is checked against the sides.

    It ends where the gauge is parked, ready to watch the tightening or the next move; with
    the bolts tight it begins there if the gauge stands there anyway. Where time is saved it always
    does: most axes checked are tightened next.
    """
    near, stands = PARKED[axis], stands_at(job)
    far = OPPOSITE[near]
    across = (far,) if far in job.setup.plan.positions else ("right", "left")
    if is_quick(job):
        return (far, near) if stands == far else (near, *across)
    begins = axis not in job.loose and stands == near
    return (near, *across) if begins else (*across, near)


def stands_at(job: Job) -> Position | None:
    """Where the gauge was read last, since the first sweep."""
    seen = last_seen(job.head.story)
    return None if seen is None else seen.position


def left_to_check(job: Job) -> tuple[Position, ...]:
    """The positions a pair check still needs, where the gauge stands first."""
    read = [r.position for r in job.reads.taken]
    return tuple(p for p in check_order(job, axis_of(job)) if p not in read)
