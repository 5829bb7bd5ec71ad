"""Full sweeps: one reading at every position and again at the first."""

from dataclasses import dataclass, replace
from statistics import median
from typing import Final

from daq.audit.decide.common import Input, Nothing, Refused, head_only
from daq.audit.decide.reducing import reduce
from daq.audit.decide.teaching import teach
from daq.audit.events import (
    BroughtCloser,
    Data,
    OffScale,
    ReadingTaken,
    StopHere,
    SweepWanted,
)
from daq.audit.facts import (
    as_seen,
    first_read,
    has_sweep_to_compare,
    in_air,
    shown_face,
    unit_of,
    wanted,
)
from daq.audit.head import reading_sd, standing
from daq.audit.parts import Anew, Finding, Next, Turned
from daq.audit.state import Job
from daq.squaring.recognise import is_strange, surprise
from daq.squaring.story import Happened
from daq.words import Command, Position, Reading, Said, said

LEAST_PRELOAD_MM: Final = {"plunger": 0.2, "lever": 0.05}
"""Less than this and a lean can lift the contact off (a plunger's is usually pushed in by
about 1 mm, a lever's by 0.1 to 0.25 mm: common practice, no source)."""
NEWEST = 5
"""So many of the newest samples tell how the gauge stands now."""


@dataclass(frozen=True)
class Why:
    """The payload of `again` and of `stop-here`."""

    why: str


@dataclass(frozen=True)
class Again:
    """The payload of `again`: why, or what was turned half round."""

    why: str = ""
    turned: Turned = ""


APART = Finding(said("apart"), blocking=False)


def place(job: Job, command: Command) -> Position:
    """Where a sweep's take says the gauge is, if that place is still wanted."""
    position = Input(command).position
    open_places = wanted(job)
    if position in open_places:
        return position
    first = open_places[0]
    if position is None:
        raise Refused("place-unsaid", next=first)
    back = bool(job.taken) and first == job.taken[0].position
    raise Refused("place-read", position=position, next=first, times=2 if back else 1)


def check_contact(job: Job, reading: Reading) -> None:
    """Refuse a reading of the air."""
    if in_air(job, job.setup.gauge.pushed(reading.mean_mm)):
        raise Refused("off-contact", at=_at(job, reading), reads=shown_face(job, reading.mean_mm))


def _at(job: Job, reading: Reading) -> str:
    """Where that was, as a refusal says it."""
    return "station" if job.check is not None else reading.position or "unknown"


def taken(job: Job, given: Input, position: Position) -> ReadingTaken:
    """One reading with its preload; refused when the contact is in the air."""
    reading = given.reading(position)
    check_contact(job, reading)
    pushed = job.setup.gauge.pushed(reading.mean_mm)
    if job.free_pushed_mm is None:
        return ReadingTaken(reading, pushed, None, None, given.second(position))
    in_mm = pushed - job.free_pushed_mm
    check_travel(job, reading)
    told = preload(job, in_mm, position)
    return ReadingTaken(reading, pushed, in_mm, told, given.second(position))


def check_travel(job: Job, reading: Reading) -> None:
    """Refuse a reading with the contact pushed in to its stop."""
    if _at_the_end(job, job.setup.gauge.pushed(reading.mean_mm)):
        raise Refused("end-of-travel", at=_at(job, reading))


def _at_the_end(job: Job, pushed_mm: float) -> bool:
    """Whether the contact is pushed in to its stop: the surface may be further."""
    gauge, free = job.setup.gauge, job.free_pushed_mm
    return free is not None and gauge.travel - (pushed_mm - free) < 2 * gauge.resolution


def preload(job: Job, in_mm: float, position: Position | Said) -> Said | None:
    """What is to be said of how far the contact is pushed in, or None."""
    room = job.setup.gauge.travel - in_mm
    least = LEAST_PRELOAD_MM[job.setup.gauge.kind]
    if in_mm < least:
        return said("little-preload", position=position, pushed=shown_face(job, in_mm))
    if room < least:
        return said("near-end-of-travel", position=position, left=shown_face(job, room))
    return None


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the sweep; the last one reduces it."""
    event = taken(job, given, place(job, given.command))
    readings = (*job.taken, event.reading)
    if len(readings) < len(job.setup.plan.sequence):
        return (event,)
    seconds = job.seconds if event.second is None else (*job.seconds, event.second)
    done = reduce(job, readings, seconds)
    if not done.usable or not job.story:
        return event, done
    seen = as_seen(done.points)
    if not done.turned:
        expected = standing(job, (Happened("zeroed"),))
        if is_strange(surprise(expected, seen, reading_sd(job))):
            done = replace(done, apart=True, findings=(*done.findings, APART))
    after = Happened("unknown" if done.turned or done.apart else "zeroed")
    return event, done, *teach(job, standing(job, (after, *seen)))


def again(job: Job, given: Input) -> tuple[Data, ...]:
    """Another full sweep, with the reason it is wanted for, or with something turned half round."""
    wish = given.payload(Again)
    head_only(job, turned=wish.turned)
    if wish.turned and not has_sweep_to_compare(job):
        raise Refused("no-sweep-to-compare")
    if wish.turned == "ring" and not job.setup.machine.seat_turns:
        raise Refused("no-ring-to-turn")
    if wish.turned:
        why: str | Said = said("turned-half-round", turned=wish.turned)
    else:
        why = wish.why.strip()
    if not why:
        raise Refused("sweep-again-without-why")
    to = sweep_next(job)
    if job.step != "sign":
        return (SweepWanted(why, to, wish.turned),)
    if wish.turned:
        raise Refused("arm-was-out")
    return (SweepWanted(why, Next("prepare"), anew=Anew("again", to)),)


def sweep_next(job: Job) -> Next:
    """To a full sweep: one that counts is taken with everything tight."""
    if job.loose:
        raise Refused("bolts-loose")
    return first_read(job)


def stop_here(job: Job, given: Input) -> tuple[Data, ...]:
    """No more moves: report what is, after a full sweep if bolts were loosened since the last."""
    why = given.payload(Why).why.strip()
    if not why:
        raise Refused("stopped-without-why")
    proof = sweep_next(job)
    return (StopHere(why, proof if job.disturbed else Next("clear")),)


def off_scale(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge cannot read the head here: recorded as found, and the head is brought closer."""
    position = given.position
    if position is None or position not in job.setup.plan.positions:
        raise Refused("off-scale-place-unsaid")
    closer_yet = bool(job.off_scale) and job.latest is None
    if job.loosened and not closer_yet:
        raise Refused("off-scale-after-sweep")
    beyond = _beyond(job, given)
    told = said("off-scale", position=position)
    if beyond > 0.0:
        by = shown_face(job, beyond)
        told = said("off-scale-beyond", position=position, by=by, unit=unit_of(job))
    return (OffScale(position, beyond, told, Next("closer")),)


def _beyond(job: Job, given: Input) -> float:
    """How far the surface is beyond what was read of it, at least.

    Pushed in to the stop: the travel that was left where it was pushed in least. Off contact,
    or not known which: what the contact was pushed in where it was pushed in most.
    """
    gauge, free = job.setup.gauge, job.free_pushed_mm or 0.0
    read = [gauge.pushed(r.mean_mm) - free for r in job.taken]
    newest = [s.value_mm for s in given.samples if s.gauge == gauge.key][-NEWEST:]
    if newest and read and _at_the_end(job, gauge.pushed(median(newest))):
        return gauge.travel - min(read)
    return max(read, default=0.0)


def closer(job: Job, given: Input) -> tuple[Data, ...]:
    """The head was brought closer by scale or square, and everything is tight again."""
    given.payload(Nothing)
    return (BroughtCloser(Next("final")),)
