"""Parked already: an axis turned on while it is loose, from what its pair read just now."""

from daq.audit.events import Data, Parked, ReadingTaken
from daq.audit.facts import axis_of
from daq.audit.head import nod_mm, park_from, standing
from daq.audit.reading_order import saves_time
from daq.audit.stages.park.decide import UNSURE_MM
from daq.audit.stages.park.shows import BIG_NOD_MM
from daq.audit.state import Job
from daq.audit.stop_at import ready, stop_for


def parked_at_once(job: Job, found: tuple[Data, ...]) -> tuple[Data, ...]:
    """The base without another reading, where the last one is it and nothing else is to be done.

    `job` stands after the events `found`. With the bolts tight there is something to be chosen
    first: which axis, another sweep, none at all.
    """
    read = [data for data in found if isinstance(data, ReadingTaken)]
    if not read or job.step != "park" or not (job.loose and saves_time(job)):
        return ()
    taken, axis = read[-1], axis_of(job)
    place = taken.reading.position
    big = nod_mm(job) > BIG_NOD_MM[job.setup.gauge.kind]
    if big or place is None or place != park_from(job, axis, place):
        return ()
    at = standing(job)
    if at.lean_doubt(axis) * job.setup.machine.diameter > UNSURE_MM:
        return ()
    base_mm = taken.reading.mean_mm
    return (
        Parked(
            axis=axis,
            reading=taken.reading,
            pushed_mm=taken.pushed_mm,
            expected_pushed_mm=taken.pushed_mm,
            question=None,
            stop=stop_for(job, place, base_mm, at),
            said=job.message,
            next=ready(job),
            at_once=True,
        ),
    )
