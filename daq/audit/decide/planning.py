"""What a person is told of a move before it, and how it answered."""

from daq.audit.facts import face_text
from daq.audit.parts import StopAt, Strange
from daq.audit.state import Job
from daq.audit.way import way
from daq.squaring import adjuster, advice
from daq.words import OTHER, Axis


def planned(job: Job, move: advice.StopAt, base_face_mm: float, turn: float) -> StopAt:
    """The stop-at with how to come to it and what to look out for.

    `move` is in pushed-in mm; `turn` is how the axis's lean is to change, slope, positive
    when the right or the front goes down.
    """
    gauge, machine = job.setup.gauge, job.setup.machine
    adjust = machine.axis(move.axis).adjust
    ends = (move.base_mm, move.stop_mm)
    come = way(job, move.axis, move.position, ends, move.wanted - move.t)
    shim = None
    if adjust.kind == "shim":
        shim = adjuster.shim(-turn * machine.diameter, machine.diameter, adjust)
    return StopAt(
        axis=move.axis,
        position=move.position,
        base_face_mm=base_face_mm,
        stop_face_mm=gauge.face(move.stop_mm),
        lean=move.t,
        wanted=move.wanted,
        turns=come.turns,
        past_mm=come.past_mm,
        shim=shim,
        warnings=come.warnings,
    )


def answered(job: Job, stop: StopAt, face_mm: float) -> str:
    """What to say of where the turn ended; nothing when it ended where it should."""
    gauge, machine = job.setup.gauge, job.setup.machine
    spec = machine.axis(stop.axis)
    noise = max(5 * gauge.resolution, 2 * job.spread_mm)
    stood = stop.base_face_mm if job.cracked_face_mm is None else job.cracked_face_mm
    went = (gauge.pushed(stood), gauge.pushed(stop.stop_face_mm), gauge.pushed(face_mm))
    if adjuster.reverse(*went, noise):
        return (
            f"The number went away from the stop-at: {spec.adjuster} answers the other way "
            "round, or another one was turned. The check shows where the head stands."
        )
    past = face_mm - stop.stop_face_mm
    onward = past * (stop.stop_face_mm - stood) > 0.0
    if onward and abs(past) > noise and not stop.shim:
        beyond = face_text(job, abs(past))
        return f"It stopped {beyond} past the stop-at. The check takes it as it stands."
    return ""


def say_strange(job: Job, axis: Axis, odd: Strange) -> str:
    """What must have happened between the parked reading and the pair check, in words."""
    spec = job.setup.machine.axis(axis)
    if odd == "wrong-adjuster":
        return (
            f"The number moved but {spec.say.lower()} did not: was another adjuster turned? "
            "Nothing is learned from this move."
        )
    if odd == "reversed":
        return (
            f"{spec.say} went the other way than the number said: the pivot in the machine's "
            "file lies on the wrong side. The next stop-at allows for it, but nothing of this "
            "audit is kept of the head: put the file right."
        )
    return (
        "The readings do not fit the move: the head, the arm or the surface was knocked, or the "
        "pivot in the machine's file is far off. Nothing is learned from this move."
    )


def say_knocked(job: Job, axis: Axis) -> str:
    """What must have happened to an axis whose bolts were tight while the other one was moved."""
    machine = job.setup.machine
    moved, stands = machine.axis(OTHER[axis]).say.lower(), machine.axis(axis).say.lower()
    return (
        f"This is not what moving {moved} does to {stands}: the head, the arm or the surface was "
        "knocked, a spot was mistaken, or the ram is swung otherwise than said. Nothing is "
        "learned from it."
    )


def say_odd_shift(job: Job, axis: Axis, shift_mm: float, again: bool) -> str:
    """What must have happened when tightening seems to have done what it never did."""
    say, by = job.setup.machine.axis(axis).say, face_text(job, abs(shift_mm))
    if again:
        return (
            f"{say} reads {by} otherwise than before tightening: knocked, or did the number "
            "jump? Read both spots again."
        )
    return (
        f"{say} stands {by} otherwise than before tightening, more than tightening should do: "
        "knocked? Nothing is learned from it unless it comes again."
    )
