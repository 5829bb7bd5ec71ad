"""What a person is told of a move before it, and how it answered."""

from daq.audit.facts import face_text, is_far_out
from daq.audit.parts import ON_PURPOSE, TURN_ON, Answer, Question, StopAt, Strange
from daq.audit.state import Job
from daq.audit.way import lean_left, way
from daq.squaring import adjuster, advice
from daq.words import OTHER, Axis

STOPPED = Answer(ON_PURPOSE, "Yes, stopped on purpose")
SHIM_IN = Answer(ON_PURPOSE, "Yes, it is in")


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
        approach=adjuster.approach(adjust),
        past_mm=come.past_mm,
        shim=shim,
        warnings=come.warnings,
    )


def answered(job: Job, stop: StopAt, face_mm: float) -> str:
    """What to say of where the turn ended; nothing when it ended where it should."""
    if stop.by_hand:
        return ""
    spec = job.setup.machine.axis(stop.axis)
    if _went_away(job, stop, face_mm):
        return (
            f"The number went away from the stop-at: {spec.adjuster} answers the other way "
            "round, or another one was turned. The check shows where the head stands."
        )
    if stop.shim:
        return ""
    past = abs(face_mm - stop.stop_face_mm)
    onward = _is_past(job, stop, face_mm)
    if (onward and past > noise_mm(job)) or is_far(job, stop, face_mm):
        where = "past" if onward else "short of"
        by = face_text(job, past)
        return f"It stopped {by} {where} the stop-at. The check takes it as it stands."
    return ""


def _went_away(job: Job, stop: StopAt, face_mm: float) -> bool:
    gauge = job.setup.gauge
    stood, end, now = (gauge.pushed(mm) for mm in (_stood(job, stop), stop.stop_face_mm, face_mm))
    return adjuster.reverse(stood, end, now, noise_mm(job))


def noise_mm(job: Job) -> float:
    """What the number may differ by itself from one look to the next, several counts at least."""
    return max(5 * job.setup.gauge.resolution, 2 * job.spread_mm)


def _stood(job: Job, stop: StopAt) -> float:
    """What the face read when the turn began."""
    return stop.base_face_mm if job.cracked_face_mm is None else job.cracked_face_mm


def _is_past(job: Job, stop: StopAt, face_mm: float) -> bool:
    return (face_mm - stop.stop_face_mm) * (stop.stop_face_mm - _stood(job, stop)) > 0.0


def is_far(job: Job, stop: StopAt, face_mm: float) -> bool:
    """Whether a turn that ends here leaves its axis far out, by more than the number's noise."""
    if stop.by_hand:
        return False
    left_mm = lean_left(job, stop, face_mm) * job.setup.machine.diameter
    return is_far_out(job, stop.axis, left_mm) and abs(face_mm - stop.stop_face_mm) > noise_mm(job)


def meant(job: Job, stop: StopAt, face_mm: float) -> Question:
    """The question whether a turn is to end here."""
    by = face_text(job, abs(face_mm - stop.stop_face_mm))
    if stop.shim is not None:
        say = f"{by} from the stop-at: is the shim in, and the bolts snug?"
        return Question("far", say, (Answer(TURN_ON, "No, not yet", True), SHIM_IN))
    past = _is_past(job, stop, face_mm)
    where = f"{by} past the stop-at" if past else f"{by} to go"
    if _went_away(job, stop, face_mm):
        where = f"The number went the wrong way, {where}"
    say = f"{where}: stopped here on purpose?"
    onward = Answer(TURN_ON, "No, turn back" if past else "No, turn further", usual=True)
    return Question("far", say, (onward, STOPPED))


def say_strange(job: Job, axis: Axis, odd: Strange) -> str:
    """What must have happened between the parked reading and the pair check, in words."""
    spec = job.setup.machine.axis(axis)
    if odd == "wrong-adjuster":
        return (
            f"The number moved but {spec.say.lower()} did not: was another adjuster turned? "
            "Nothing is learned from this move."
        )
    if odd == "astray":
        return (
            f"{spec.say} does not go where the number says: the pivot in the machine's file is "
            "wrong, or something is knocked. No stop-at is given until a turn by hand has shown "
            "how it answers."
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
