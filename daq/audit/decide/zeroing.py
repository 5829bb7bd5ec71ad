"""What the service notices of the gauge by itself: its zero moved, it went, it came back."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit.decide.common import Input, Nothing, Refused
from daq.audit.decide.parking import agreement, axis_of
from daq.audit.events import Data, GaugeBack, GaugeFault, Voided, Zeroed
from daq.audit.facts import left_to_check, points, reads_as_free, wanted
from daq.audit.head import park_at
from daq.audit.parts import Answer, Next, Question
from daq.audit.state import Job
from daq.metrology.jump import Jump, zero_noticed
from daq.squaring.story import last_seen
from daq.words import Position

PARKED_STEPS = ("park", "question", "loosen", "move")
TURNED_STEPS = ("as-found", "final", "park", "question", "check")
"""Where the spindle is turned from spot to spot."""

SUDDEN_NS: Final = 50_000_000
"""In less than this no hand turns a spindle to another spot (common practice, no source)."""

NOT_ZEROED: Final = Answer("not-zeroed", "I did not zero it: carry on")
WAS_ZEROED: Final = Answer("zeroed", "Yes, it was zeroed")
ASK: Final = Question(
    "zero", "The number went to zero: was the gauge zeroed?", (NOT_ZEROED, WAS_ZEROED)
)


@dataclass(frozen=True)
class Fault:
    """The payload of `gauge-fault`."""

    code: str
    say: str


@dataclass(frozen=True)
class Back:
    """The payload of `gauge-back`."""

    run: str
    gauge: str


def zeroed(job: Job, given: Input) -> tuple[Data, ...]:
    """The number jumped to zero. Differences stand; the stop-at does not.

    Where it reads zero because it was turned to a spot that does, nothing happened; where
    that may be so, it is asked. A gauge that was zeroed in the air reads zero there too: then
    only the free reading, taken again, can tell a zeroed gauge from a lifted contact.
    """
    jump = zero_noticed(given.samples, job.setup.gauge.resolution)
    if jump is None:
        raise Refused("no-zero-in-samples")
    lifted = reads_as_free(job, job.setup.gauge.pushed(jump.after_mm))
    if lifted and job.setup.machine.seat == "block" and job.step in ("as-found", "final", "check"):
        raise Refused("lifted-for-block")
    if job.zero_asked is not None:
        raise Refused("zero-asked-already")
    expected = "no" if lifted else _expected(job, jump)
    if expected == "yes":
        raise Refused("zero-expected")
    event = _shifted(job, jump, lifted)
    if expected == "no":
        return (event,)
    if job.axis in job.loose and job.base is not None and event.resume is None:
        # Until it is answered hands may turn on: nothing carries the base over.
        say, to = "Zeroed with the bolts loose: check this axis again.", Next("check", job.axis)
        event = replace(event, lost_face_mm=None, say=say, next=to)
    return (replace(event, question=ASK),)


def _expected(job: Job, jump: Jump) -> Literal["yes", "maybe", "no"]:
    """Whether the number is at zero because that is what the contact was turned to.

    Or, while an adjuster is turned, because that is where it is to stop.
    """
    sudden = jump.took_ns < SUDDEN_NS
    if job.step == "move" and job.stop is not None:
        there = abs(job.stop.stop_face_mm - jump.after_mm) <= agreement(job)
        return "no" if sudden and not there else "maybe"
    if job.step not in TURNED_STEPS:
        return "no"
    reads = _reads(job)
    off = {p: abs(job.setup.gauge.face(m) - jump.after_mm) for p, m in reads.items()}
    spots = _spots(job)
    # Zeroed at a spot that was not read since: it may be any of those not read yet.
    unplaced = job.zeroed and min(off.values(), default=agreement(job)) > job.spread_mm
    if any(off[p] <= agreement(job) if p in off else unplaced for p in spots):
        return "yes"
    near = any(mm <= agreement(job) for mm in off.values())
    if near and job.axis in job.loose:
        return "yes"  # The pair read after a move: it is to read the same at both ends.
    return "maybe" if near or (reads and not sudden) else "no"


def _reads(job: Job) -> Mapping[Position, float]:
    """What is known to read what in today's zero, pushed in, mm."""
    gauge = job.setup.gauge
    known = dict(job.known)
    last = last_seen(job.story)
    if last is not None and job.step == "check":
        known[last.position] = last.pushed_mm
    read = {r.position: gauge.pushed(r.mean_mm) for r in job.taken if r.position is not None}
    return {**known, **read}


def _spots(job: Job) -> tuple[Position, ...]:
    """The places to be turned to from here."""
    if job.step in ("as-found", "final"):
        return wanted(job)
    if job.step == "check":
        return left_to_check(job)
    parked = job.base.position if job.base is not None else None
    return (parked or park_at(job, axis_of(job)),)


def answered(job: Job, key: str) -> tuple[Data, ...]:
    """What follows from the answer to whether the gauge was zeroed."""
    if job.zero_asked is None or key == NOT_ZEROED.key:
        return _denied(job)
    return (replace(job.zero_asked, question=None),)


def not_zeroed(job: Job, given: Input) -> tuple[Data, ...]:
    """The person denies what the service noticed: everything is as it was before."""
    given.payload(Nothing)
    return _denied(job)


def _denied(job: Job) -> tuple[Data, ...]:
    if not job.noticed:
        raise Refused("nothing-noticed")
    return (Voided(job.noticed[-1][0]),)


def _shifted(job: Job, jump: Jump, lifted: bool) -> Zeroed:
    """What a zero does: everything remembered shifts, or a lifted contact is asked for first."""
    shift = 0.0 if lifted else job.setup.gauge.pushed(jump.after_mm - jump.before_mm)
    known = {p: m + shift for p, m in job.known.items()}
    free = None if job.free_pushed_mm is None else job.free_pushed_mm + shift
    say, to = _after(job)
    if lifted:
        say = "Zeroed, or the contact was lifted: let it hang free and take the reading."
    return Zeroed(
        before_face_mm=jump.before_mm,
        after_face_mm=jump.after_mm,
        lost_face_mm=_lost(job, jump),
        resume=to if lifted else None,
        restart=bool(job.taken) and not lifted,
        free_pushed_mm=free,
        points=points(known),
        say=say,
        next=Next("touch-free", to.axis) if lifted else to,
    )


def _lost(job: Job, jump: Jump) -> float | None:
    """The value a base is carried over from; the first of several zeros in a row counts."""
    doubted = job.question is not None and job.stop is None
    if job.base is None or doubted:
        return None
    return jump.before_mm if job.lost_face_mm is None else job.lost_face_mm


def _after(job: Job) -> tuple[str, Next]:
    if job.step in PARKED_STEPS:
        return "Zeroed: read this spot again.", Next("park", job.axis)
    if job.taken:
        return "Zeroed in the middle: start again with the first position.", _same(job)
    return "Zeroed: noted.", _same(job)


def _same(job: Job) -> Next:
    return Next(job.step, job.axis)


def gauge_fault(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge stopped giving readings."""
    fault = given.payload(Fault)
    return (GaugeFault(fault.code, fault.say),)


def gauge_back(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge gives readings again; what was read before may have another zero."""
    back = given.payload(Back)
    run = back.run
    if back.gauge != job.setup.gauge.key:
        return (GaugeBack(run, "", None),)
    if job.base is not None and job.base.run != run and job.step in PARKED_STEPS:
        say = "The gauge was away: read this spot again."
        if job.axis in job.loose:
            say = "The gauge was away and the bolts are loose: check this axis again."
            return (GaugeBack(run, say, Next("check", job.axis)),)
        return (GaugeBack(run, say, Next("park", job.axis)),)
    if job.step == "check" and job.taken and job.taken[0].run != run:
        say = "The gauge was away in the middle of the check: start it again."
        return (GaugeBack(run, say, Next("check", job.axis)),)
    return (GaugeBack(run, "", None),)
