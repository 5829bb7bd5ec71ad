"""An axis that went back when it was let go, called by its name: no knock where it is known to."""

from daq.audit.facts import noise_mm, shown_face
from daq.audit.head import learned
from daq.audit.state import Job
from daq.squaring.adjuster import unheld_mm
from daq.squaring.resting import around
from daq.squaring.story import Happened, Story
from daq.words import Axis, Said, said


def fallen(job: Job, axis: Axis, story: Story) -> Said | None:
    """What is to be said of how far the parked number went once an axis was let go.

    None where it hardly went, was not seen, or where neither the file nor what was learned of
    this head names it. `story` ends with the pair read after the turn.
    """
    *_, last = (None, *around(story, axis))
    done = next((e for e in reversed(story) if isinstance(e, Happened)), None)
    if last is None or last[0] is not done or axis not in job.loose:
        return None
    _, before, after = last
    went_mm = abs(after.pushed_mm - before.pushed_mm)
    if went_mm <= noise_mm(job):
        return None
    by = shown_face(job, went_mm)
    if went_mm <= unheld_mm(job.setup.machine.axis(axis).adjust) + noise_mm(job):
        return said("went-back", by=by, of="backlash")
    return said("went-back", by=by, of="creep") if learned(job).rest_stats[axis].n else None
