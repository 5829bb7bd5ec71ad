"""Loosening, the one move, the pair check, tightening."""

from dataclasses import dataclass

from daq.audit.decide.checking import judged
from daq.audit.decide.common import Input, Nothing, Refused
from daq.audit.decide.noticing import check_moves
from daq.audit.decide.parking import axis_of
from daq.audit.decide.stopping import is_far, meant, missed, noise_mm
from daq.audit.decide.sweeping import check_contact, check_travel, taken
from daq.audit.events import BoltPulled, Data, Loosened, Moved, StopDoubted, Tightened
from daq.audit.facts import left_to_check, unit_of
from daq.audit.parts import Next, StopAt
from daq.audit.state import Job
from daq.settings import quoted
from daq.squaring import tightening
from daq.squaring.tightening import Tighten
from daq.words import Command, Position, Reading


@dataclass(frozen=True)
class Bolt:
    """The payload of `bolt`: the bolt that was pulled up a step, or put right after it."""

    bolt: str


@dataclass(frozen=True)
class Stopped:
    """The payload of `stopped`; `on_purpose`: however far it is from the stop-at."""

    on_purpose: bool = False


def _stop(job: Job) -> StopAt:
    if job.stop is None:
        raise Refused("no-stop-at")
    return job.stop


def _watched(job: Job, given: Input, stop: StopAt) -> Reading:
    check_moves(job, given)
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
    """The adjuster was turned; where it stopped, and whether it answered as it should.

    A stop far from the stop-at is asked about first: a foot may press before the hands are done.
    """
    on_purpose = given.payload(Stopped).on_purpose
    stop = _stop(job)
    if job.step == "question" and (job.zero_asked is not None or not on_purpose):
        raise Refused("question-open")
    reading = _watched(job, given, stop)
    check_travel(job, reading)
    now_mm, axis = reading.mean_mm, stop.axis
    # Pressed again at the number already asked about, it goes no further: the check will tell.
    told = job.asked is not None and abs(now_mm - job.asked.mean_mm) <= noise_mm(job)
    if is_far(job, stop, now_mm) and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (StopDoubted(axis, reading, past, meant(job, stop, now_mm), to),)
    past, wrong = now_mm - stop.stop_face_mm, missed(job, stop, now_mm)
    return (Moved(axis, reading, past, Next("check", axis), wrong),)


def place(job: Job, command: Command) -> Position:
    """Where a pair check's take says the gauge is, if that is still wanted."""
    left = left_to_check(job)
    position = Input(command).position
    if position not in left:
        raise Refused("place-not-wanted", position=position or "none", next=left[0])
    return position


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the pair check; the second one judges the axis."""
    event = taken(job, given, place(job, given.command))
    if len(left_to_check(job)) > 1:
        return (event,)
    return event, *judged(job, (*job.taken, event.reading))


def bolt(job: Job, given: Input) -> tuple[Data, ...]:
    """One step of pulling up the bolts, with what it did to the number; the last one is tight.

    A bolt that moved the head too far may be put right and pulled up again: the same step,
    counted from before it was first touched.
    """
    name = given.payload(Bolt).bolt
    axis = axis_of(job)
    spec = job.setup.machine.axis(axis)
    done, over_mm = _bolt_step(job, spec.tighten, name)
    check_moves(job, given)
    reading = given.reading(None)
    check_contact(job, reading)
    check_travel(job, reading)
    # Where the gauge was not parked for this axis, the first step is what the rest count from.
    first = reading.mean_mm if job.tight_face_mm is None else job.tight_face_mm
    last = first if job.bolt_face_mm is None else job.bolt_face_mm - over_mm
    shift = reading.mean_mm - last
    over = tightening.is_over(shift, spec.tighten)
    # The last bolt stays to be put right while it is over; "all tight" may be said instead.
    finished = tightening.next_step(spec.tighten, done) is None and not over
    pulled = BoltPulled(
        axis=axis,
        bolt=name,
        step=done,
        reading=reading,
        shift_face_mm=shift,
        since_face_mm=reading.mean_mm - first,
        over=over,
        said=tightening.over_limit(name, shift, spec.tighten, unit_of(job)),
        next=Next("tighten", axis),
    )
    return (pulled, Tightened(axis, Next("check", axis))) if finished else (pulled,)


def _bolt_step(job: Job, tighten: Tighten, bolt: str) -> tuple[int, float]:
    """The number of the step that this bolt makes, and what it did to the number before."""
    every = tightening.steps(tighten)
    if not every:
        raise Refused("bolts-not-watched")
    ahead = every[job.bolt_steps : job.bolt_steps + 1]
    # A bolt alone is next again itself: its next part, not this one once more.
    if [step.bolt for step in ahead] == [bolt]:
        return job.bolt_steps + 1, 0.0
    following = repr(ahead[0].bolt) if ahead else "none"
    again = "none"
    if job.bolt_steps and job.bolt_over_mm is not None:
        latest = every[job.bolt_steps - 1].bolt
        if bolt == latest:
            return job.bolt_steps, job.bolt_over_mm
        again = repr(latest)
    raise Refused("no-such-bolt", found=quoted(bolt), next=following, again=again)


def tightened(job: Job, given: Input) -> tuple[Data, ...]:
    """The bolts are tight again; a pair check shows what that did."""
    given.payload(Nothing)
    axis = axis_of(job)
    if axis not in job.loose:
        raise Refused("tight-already")
    return (Tightened(axis, Next("check", axis)),)
