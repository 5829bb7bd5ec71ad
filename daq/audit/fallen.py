"""An axis that went back when it was let go, called by its name: no knock where it is known to."""

from daq.audit.facts import noise_mm, shown_face
from daq.audit.head import learned
from daq.audit.state import Job
from daq.squaring.adjuster import unheld_mm
from daq.squaring.story import Seen, Story
from daq.words import Axis, Said, said


def fallen(job: Job, axis: Axis, story: Story) -> Said | None:
    """What is to be said of how far the parked number went once an axis was let go.

    None where it hardly went, was not seen, or where neither the file nor what was learned of
    this head names it. `story` ends with the pair read after the turn.
    """
    done = max((i for i, entry in enumerate(story) if not isinstance(entry, Seen)), default=0)
    around = story[done - 1 : done + 2] if done else ()
    if len(around) < 3 or axis not in job.loose:
        return None
    before, rested, after = around
    if isinstance(rested, Seen) or (rested.what, rested.axis) != ("rested", axis):
        return None
    if not (isinstance(before, Seen) and isinstance(after, Seen) and after.stays):
        return None
    went_mm = abs(after.pushed_mm - before.pushed_mm)
    if went_mm <= noise_mm(job):
        return None
    by = shown_face(job, went_mm)
    if went_mm <= unheld_mm(job.setup.machine.axis(axis).adjust) + noise_mm(job):
        return said("fell-back", by=by, of="backlash")
    known = learned(job).rest_stats[axis]
    return said("fell-back", by=by, of="creep") if known.n else None
