"""Where a turn ended: at its stop-at, short of it, past it, or gone the other way."""

from dataclasses import dataclass

from daq.audit.events import Data, Moved, StopDoubted
from daq.audit.facts import began_mm, is_far_out, shown_face
from daq.audit.input import Input, Refused
from daq.audit.parts import ON_PURPOSE, TURN_ON, Answer, Next, Question, StopAt
from daq.audit.reading import check_travel, move_of, watched
from daq.audit.state import Job
from daq.audit.way import lean_left
from daq.squaring import adjuster
from daq.words import Said, said

STOPPED = Answer(ON_PURPOSE, said("answer-stopped"))
SHIM_IN = Answer(ON_PURPOSE, said("answer-shim-in"))
SHIM_OUT = Answer(TURN_ON, said("answer-shim-out"), usual=True)
TURN_BACK = Answer(TURN_ON, said("answer-turn-back"), usual=True)
TURN_FURTHER = Answer(TURN_ON, said("answer-turn-further"), usual=True)


@dataclass(frozen=True)
class Stopped:
    """The payload of `stopped`; `on_purpose`: however far it is from the stop-at."""

    on_purpose: bool = False


def stopped(job: Job, given: Input) -> tuple[Data, ...]:
    """The adjuster was turned; where it stopped, and whether it answered as it should.

    A stop far from the stop-at is asked about first: a foot may press before the hands are done.
    """
    on_purpose = given.payload(Stopped).on_purpose
    stop = move_of(job)
    if job.step == "question" and (job.zero_asked is not None or not on_purpose):
        raise Refused("question-open")
    reading = watched(job, given, stop.position)
    check_travel(job, reading)
    now_mm, axis = reading.mean_mm, stop.axis
    # Pressed again at the number already asked about, it goes no further: the check will tell.
    asked = job.parked.asked if job.parked is not None else None
    told = asked is not None and abs(now_mm - asked.mean_mm) <= noise_mm(job)
    if is_far(job, stop, now_mm) and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (StopDoubted(axis, reading, past, meant(job, stop, now_mm), to),)
    past, wrong = now_mm - stop.stop_face_mm, missed(job, stop, now_mm)
    return (Moved(axis, reading, past, Next("check", axis), wrong),)


def missed(job: Job, stop: StopAt, face_mm: float) -> Said | None:
    """What is to be said of where the turn ended; None when it ended where it should."""
    if stop.by_hand:
        return None
    if _went_away(job, stop, face_mm):
        return said("went-away", adjuster=job.setup.machine.axis(stop.axis).adjuster)
    if stop.shim:
        return None
    past = abs(face_mm - stop.stop_face_mm)
    onward = _is_past(job, stop, face_mm)
    if (onward and past > noise_mm(job)) or is_far(job, stop, face_mm):
        by = shown_face(job, past)
        return said("stopped-off", by=by, where="past" if onward else "short")
    return None


def _went_away(job: Job, stop: StopAt, face_mm: float) -> bool:
    gauge = job.setup.gauge
    stood, end, now = (gauge.pushed(mm) for mm in (began_mm(job, stop), stop.stop_face_mm, face_mm))
    return adjuster.reverse(stood, end, now, noise_mm(job))


def noise_mm(job: Job) -> float:
    """What the number may differ by itself from one look to the next, several counts at least."""
    return max(5 * job.setup.gauge.resolution, 2 * job.gauge.spread_mm)


def _is_past(job: Job, stop: StopAt, face_mm: float) -> bool:
    return (face_mm - stop.stop_face_mm) * (stop.stop_face_mm - began_mm(job, stop)) > 0.0


def is_far(job: Job, stop: StopAt, face_mm: float) -> bool:
    """Whether a turn that ends here leaves its axis far out, by more than the number's noise."""
    if stop.by_hand:
        return False
    left_mm = lean_left(job, stop, face_mm) * job.setup.machine.diameter
    return is_far_out(job, stop.axis, left_mm) and abs(face_mm - stop.stop_face_mm) > noise_mm(job)


def meant(job: Job, stop: StopAt, face_mm: float) -> Question:
    """The question whether a turn is to end here."""
    by = shown_face(job, abs(face_mm - stop.stop_face_mm))
    if stop.shim is not None:
        return Question(said("stop-far-shim", by=by), (SHIM_OUT, SHIM_IN))
    past = _is_past(job, stop, face_mm)
    way = "wrong" if _went_away(job, stop, face_mm) else "right"
    asked = said("stop-far", way=way, by=by, where="past" if past else "short")
    return Question(asked, (TURN_BACK if past else TURN_FURTHER, STOPPED))
