"""What a parked reading changes in the audit."""

from daq.audit import events as e
from daq.audit.folding import Change, go, seen_at
from daq.audit.state import Job
from daq.squaring.story import parked as stood
from daq.words import Position


def parked(job: Job, data: e.Parked) -> Change:
    """The base stands, or a question does."""
    told = seen_at(data.reading.position, data.pushed_mm) if data.question is None else ()
    story = job.story
    for reading in told:
        story = stood(story, reading)
    visit = () if data.visit_mm is None else (data.visit_mm,)
    return {
        **go(data.next, data.said),
        "base": data.reading if data.stop or data.question else None,
        "lifted": False,
        "stop": data.stop,
        "cracked_face_mm": None,
        "question": data.question,
        "shown": {**job.shown, data.reading.position: data.reading.mean_mm},
        "story": story,
        "visits": (*job.visits, *visit),
    }


def base(job: Job, data: e.BaseRead) -> Change:
    """The parked spot read again after a zero: the stop-at counts from it."""
    # What was read just now, but with the head as it stood when the base was first read.
    told = seen_at(data.reading.position, job.setup.gauge.pushed(data.stop.base_face_mm))
    return {
        **go(data.next),
        "base": data.reading,
        "lifted": False,
        "stop": data.stop,
        "cracked_face_mm": data.reading.mean_mm if job.loose else None,
        "lost_face_mm": None,
        "shown": _shown(job, data),
        "story": (*job.story, *told),
    }


def _shown(job: Job, data: e.BaseRead) -> dict[Position, float]:
    place = data.reading.position
    return dict(job.shown) if place is None else {**job.shown, place: data.reading.mean_mm}
