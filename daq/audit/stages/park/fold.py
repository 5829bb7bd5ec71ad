"""What a parked reading changes in the audit."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.folding import go, seen_at
from daq.audit.held.circle import Circle
from daq.audit.held.move import Asked, MoveBase
from daq.audit.state import Job
from daq.squaring.story import stood
from daq.words import Reading


def parked(job: Job, data: e.Parked) -> Job:
    """The base stands, or a question does."""
    fresh = data.question is None and not data.at_once
    told = seen_at(data.reading.position, data.pushed_mm) if fresh else ()
    story = job.head.story
    for reading in told:
        story = stood(story, reading)
    visit = () if data.visit_mm is None else (data.visit_mm,)
    return replace(
        go(job, data.next, data.said),
        parked=MoveBase(data.reading, data.stop) if data.stop or data.question else None,
        asked=Asked(data.question) if data.question else None,
        gauge=replace(job.gauge.down(), visits=(*job.gauge.visits, *visit)),
        circle=_circle(job, data.reading),
        head=replace(job.head, story=story),
    )


def base(job: Job, data: e.BaseRead) -> Job:
    """The parked spot read again after a zero: the stop-at counts from it."""
    # What was read just now, but with the head as it stood when the base was first read.
    told = seen_at(data.reading.position, job.setup.gauge.pushed(data.stop.base_face_mm))
    cracked_mm = data.reading.mean_mm if job.loose else None
    return replace(
        go(job, data.next),
        parked=MoveBase(data.reading, data.stop, cracked_face_mm=cracked_mm),
        gauge=job.gauge.down(),
        circle=_circle(job, data.reading),
        head=replace(job.head, story=(*job.head.story, *told)),
    )


def _circle(job: Job, reading: Reading) -> Circle:
    place, circle = reading.position, job.circle
    shown = {} if place is None else {place: reading.mean_mm}
    return replace(circle, shown={**circle.shown, **shown})
