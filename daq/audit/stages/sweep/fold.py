"""What a sweep changes in the audit."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import as_seen
from daq.audit.folding import begun, foremost, go, leave, values
from daq.audit.held.sweeps import ReadSoFar, Sweeps
from daq.audit.state import Job
from daq.squaring.story import Happened, then
from daq.words import AXES

_SURE = 3.0
"""A parked reading may be so many times further from a slow turn's point than from a reading."""


def swept(job: Job, data: e.SweepDone) -> Job:
    """The head stands as this sweep read it."""
    after = replace(
        leave(job, data.next, foremost(data.findings)),
        sweeps=replace(job.sweeps, done=(*job.sweeps.done, data)),
        tightening=replace(job.tightening, reread_mm=None),
    )
    if not data.usable:
        return replace(after, circle=replace(job.circle, shown={}))
    # The gauge may have drifted since the last reading; what turned brings its own slope.
    elsewhere = bool(data.turned) or data.elsewhere
    before = then(job.head.story, Happened("unknown" if elsewhere else "zeroed"))
    head, more_mm = job.head.naming(data.guesses).taking(data.used), data.more_mm
    story = (*before, *as_seen(data.points, data))
    return replace(
        after,
        head=replace(
            head.reversing(data.backwards, job.setup.learned),
            story=story,
            swept_from=len(before),
            swept_to=len(story),
            slack_mm=dict.fromkeys(AXES, _SURE * more_mm) if more_mm else {},
        ),
        sweeps=replace(
            _marked(after.sweeps, data),
            disturbed=False,
            parked_adds_mm=data.parked_adds_mm,
            added=data.added,
        ),
        circle=replace(job.circle, known=values(data.points)),
        axes=replace(job.axes, results=data.results, whole=data.whole),
        reads=ReadSoFar(),
    )


def _marked(sweeps: Sweeps, data: e.SweepDone) -> Sweeps:
    """What bears a mark as this sweep read it: turned, if it was; with what is known of it now."""
    if data.turned == "ring" and sweeps.laid is not None:
        sweeps = replace(sweeps, laid=sweeps.laid.turned())
    if data.turned == "arm" and sweeps.clamped is not None:
        sweeps = replace(sweeps, clamped=sweeps.clamped.turned())
    return sweeps if data.taught is None else sweeps.knowing(data.taught)


def off_scale(job: Job, data: e.OffScale) -> Job:
    """The head as found is beyond what the gauge can read."""
    sweeps = replace(job.sweeps, off_scale=(*job.sweeps.off_scale, data))
    return replace(begun(go(job, data.next)), sweeps=sweeps)
