"""Full sweeps: one reading at every position and again at the first."""

from statistics import median

from daq.audit.events import (
    Data,
    OffScale,
)
from daq.audit.facts import at_the_end, shown_face, unit_of
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.reading import taken
from daq.audit.reading_order import unread_places
from daq.audit.stages.sweep import drift
from daq.audit.stages.sweep.done import finished
from daq.audit.stages.sweep.flicks import flicked
from daq.audit.stages.sweep.reduce import reduce
from daq.audit.stages.sweep.unreturned import may_stay_out, return_tells
from daq.audit.state import Job
from daq.words import Command, Position, said

NEWEST = 5
"""So many of the newest samples tell how the gauge stands now."""


def place(job: Job, command: Command) -> Position:
    """Where a sweep's take says the gauge is, if that place is still wanted."""
    position = Input(command).position
    open_places = unread_places(job)
    if position in open_places:
        return position
    first = open_places[0]
    if position is None:
        raise Refused("place-unsaid", next=first)
    back = bool(job.reads.taken) and first == job.reads.taken[0].position
    raise Refused("place-read", position=position, next=first, times=2 if back else 1)


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the sweep; the last one reduces it, or leads to a question about it."""
    tried = flicked(job, given)
    if tried is not None and not tried.ok:
        return (tried,)
    found = _read(job, given)
    return found if tried is None else (tried, *found)


def _read(job: Job, given: Input) -> tuple[Data, ...]:
    event = taken(job, given, place(job, given.command))
    reads = job.reads.then(event.reading, event.second)
    plan = job.setup.plan
    if len(reads.taken) < len(plan.positions):
        return (event,)
    if len(reads.taken) < len(plan.sequence) and not may_stay_out(job):
        return (event,)
    done = reduce(job, reads.taken, reads.seconds)
    if len(reads.taken) < len(plan.sequence):
        return (event,) if return_tells(job, done) else (event, *finished(job, done))
    asked = drift.asked(job, done, reads)
    return (event, *finished(job, done)) if asked is None else (event, asked)


def off_scale(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge cannot read the head here: recorded as found, and the head is brought closer."""
    position = given.position
    if position is None or position not in job.setup.plan.positions:
        raise Refused("off-scale-place-unsaid")
    if job.sweeps.loosened and job.sweeps.latest is not None:
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
    gauge, free = job.setup.gauge, job.gauge.free_pushed_mm or 0.0
    read = [gauge.pushed(r.mean_mm) - free for r in job.reads.taken]
    newest = [s.value_mm for s in given.samples if s.gauge == gauge.key][-NEWEST:]
    if newest and read and at_the_end(job, gauge.pushed(median(newest))):
        return gauge.travel - min(read)
    return max(read, default=0.0)
