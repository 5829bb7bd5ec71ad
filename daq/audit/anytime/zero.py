"""What the service notices of the gauge's zero by itself, and what a person says to it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final, Literal

from daq.audit.anytime.restart import BEGUN_AGAIN
from daq.audit.events import Data, Voided, Zeroed
from daq.audit.facts import (
    agreement,
    axis_of,
    certain,
    first_read,
    points,
    reads_as_free,
    station_next,
    tap_of,
)
from daq.audit.head import park_at
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Next, ReadAt
from daq.audit.questions import Answer, Question
from daq.audit.reading_order import left_to_check, unread_places
from daq.audit.state import Job
from daq.metrology.jump import Jump, zero_noticed
from daq.squaring.story import last_seen
from daq.words import Position, Said, said

PARKED_STEPS = ("park", "question", "loosen", "move")
TURNED_STEPS = ("as-found", "final", "park", "question", "check")
"""Where the spindle is turned from spot to spot."""

SUDDEN_NS: Final = 50_000_000
"""In less than this no hand turns a spindle to another spot (common practice, no source)."""

NOT_ZEROED: Final = Answer("not-zeroed", said("answer-not-zeroed"))
WAS_ZEROED: Final = Answer("zeroed", said("answer-was-zeroed"))
ASK: Final = Question(said("number-went-to-zero"), (NOT_ZEROED, WAS_ZEROED))


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
    if lifted and _lifts(job):
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
        told, to = said("zeroed-while-loose"), Next("check", job.axis)
        event = replace(event, lost_face_mm=None, said=told, next=to)
    return (replace(event, question=ASK),)


def _lifts(job: Job) -> bool:
    """Whether the contact is lifted here to be set elsewhere."""
    if job.step == "stations":
        return not job.reads.taken or station_next(job).lap != _last_station(job).lap
    return job.setup.machine.seat == "block" and job.step in ("as-found", "final", "check")


def _last_station(job: Job) -> ReadAt:
    return certain(job.ahead).stations[len(job.reads.taken) - 1]


def _expected(job: Job, jump: Jump) -> Literal["yes", "maybe", "no"]:
    """Whether the number is at zero because that is what the contact was turned to.

    Or, while an adjuster is turned, because that is where it is to stop.
    """
    sudden = jump.took_ns < SUDDEN_NS
    if job.step == "move" and job.stop is not None:
        there = abs(job.stop.stop_face_mm - jump.after_mm) <= agreement(job)
        return "no" if sudden and not there else "maybe"
    tap = tap_of(job)
    if tap is not None:
        return "yes" if abs(tap.stop_face_mm - jump.after_mm) <= agreement(job) else "no"
    if job.step == "stations" and job.reads.taken:
        return _expected_at_station(job, jump, sudden=sudden)
    if job.step not in TURNED_STEPS:
        return "no"
    reads = _reads(job)
    off = {p: abs(job.setup.gauge.face(m) - jump.after_mm) for p, m in reads.items()}
    spots = _spots(job)
    # Zeroed at a spot that was not read since: it may be any of those not read yet.
    unplaced = job.gauge.zeroed and min(off.values(), default=agreement(job)) > job.gauge.spread_mm
    if any(off[p] <= agreement(job) if p in off else unplaced for p in spots):
        return "yes"
    near = any(mm <= agreement(job) for mm in off.values())
    if near and job.axis in job.loose:
        return "yes"  # The pair read after a move: it is to read the same at both ends.
    return "maybe" if near or (reads and not sudden) else "no"


def _expected_at_station(job: Job, jump: Jump, *, sudden: bool) -> Literal["yes", "maybe", "no"]:
    """The same where a round is read: only a station that was read in its lap is known before."""
    stations = certain(job.ahead).stations
    known = {s.key: r.mean_mm for s, r in zip(stations, job.reads.taken, strict=False)}
    reads = known.get(station_next(job).key)
    if reads is not None and abs(reads - jump.after_mm) <= agreement(job):
        return "yes"
    return "no" if sudden else "maybe"


def _reads(job: Job) -> Mapping[Position, float]:
    """What is known to read what in today's zero, pushed in, mm."""
    gauge = job.setup.gauge
    known = dict(job.circle.known)
    last = last_seen(job.head.story)
    if last is not None and job.step == "check":
        known[last.position] = last.pushed_mm
    read = {r.position: gauge.pushed(r.mean_mm) for r in job.reads.taken if r.position is not None}
    return {**known, **read}


def _spots(job: Job) -> tuple[Position, ...]:
    """The places to be turned to from here."""
    if job.step in ("as-found", "final"):
        return unread_places(job)
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
    known = {p: m + shift for p, m in job.circle.known.items()}
    free = None if job.gauge.free_pushed_mm is None else job.gauge.free_pushed_mm + shift
    told, to = _after(job)
    return Zeroed(
        before_face_mm=jump.before_mm,
        after_face_mm=jump.after_mm,
        lost_face_mm=_lost(job, jump),
        resume=to if lifted else None,
        restart=bool(job.reads.taken) and not lifted,
        free_pushed_mm=free,
        points=points(known),
        said=said("zeroed-or-lifted") if lifted else told,
        next=Next("touch-free", to.axis) if lifted else to,
    )


def _lost(job: Job, jump: Jump) -> float | None:
    """The value a base is carried over from; the first of several zeros in a row counts."""
    doubted = job.asked is not None and job.stop is None
    if job.parked is None or doubted:
        return None
    return jump.before_mm if job.parked.lost_face_mm is None else job.parked.lost_face_mm


def _after(job: Job) -> tuple[Said, Next]:
    if job.step in PARKED_STEPS:
        return said("zeroed-read-again"), Next("park", job.axis)
    if job.step in BEGUN_AGAIN:
        return said("zeroed-start-again"), first_read(job)
    told = said("zeroed-start-again") if job.reads.taken else said("zeroed-noted")
    return told, Next(job.step, job.axis)
