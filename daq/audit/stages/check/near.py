"""The first reading of a pair, where the turn ended: whether the other end need be read at all."""

from dataclasses import replace

from daq.audit.events import Data, NearRead, ReadingTaken
from daq.audit.facts import axis_of
from daq.audit.fallen import fallen
from daq.audit.folding import as_foreseen, leave
from daq.audit.head import reading_sd, standing
from daq.audit.held.tightening import Bolts
from daq.audit.parts import Next
from daq.audit.reading_order import saves_time, stands_at
from daq.audit.soonest import foreseen, onward
from daq.audit.state import Job
from daq.squaring.recognise import is_strange, surprise
from daq.squaring.story import Seen, stood


def near_tells(job: Job, event: ReadingTaken) -> tuple[Data, ...]:
    """What follows where the axis need not be read across: it did as was expected when let go."""
    axis, place = axis_of(job), event.reading.position
    stays = axis in job.loose and not job.reads.taken and stands_at(job) == place
    if place is None or not (stays and saves_time(job)):
        return ()
    seen = Seen(place, event.pushed_mm)
    if is_strange(surprise(standing(job), (seen,), reading_sd(job))):
        return ()
    story = stood(job.head.story, seen)
    after = replace(job, reads=job.reads.then(event.reading), head=replace(job.head, story=story))
    at = standing(after)
    follows = onward(after, at)
    if follows == Next("check", axis):
        return ()
    named = fallen(job, axis, story)
    return (NearRead(axis, follows, foreseen(after, at), named),)


def near_read(job: Job, data: NearRead) -> Job:
    """The pair is left at that."""
    to_tighten = data.next.step == "tighten"
    face_mm = job.reads.taken[-1].mean_mm if job.reads.taken else None
    after = as_foreseen(leave(job, data.next, data.said), data.stands)
    return replace(after, bolts=Bolts(first_face_mm=face_mm) if to_tighten else job.bolts)
