"""What a sweep changes in the audit."""

from daq.audit import events as e
from daq.audit.facts import as_seen
from daq.audit.folding import NO_BASE, Change, foremost, go, values
from daq.audit.state import Job
from daq.squaring.story import Happened, then


def swept(job: Job, data: e.SweepDone) -> Change:
    """The head stands as this sweep read it."""
    change = {
        **go(data.next, foremost(data.findings)),
        **NO_BASE,
        "taken": (),
        "sweeps": (*job.sweeps, data),
        "reread_mm": None,
    }
    if not data.usable:
        return {**change, "shown": {}}
    # The gauge may have drifted since the last reading; what turned brings its own slope.
    elsewhere = bool(data.turned) or data.apart
    before = then(job.story, Happened("unknown" if elsewhere else "zeroed"))
    story = (*before, *as_seen(data.points))
    return {
        **change,
        "story": story,
        "swept_from": len(before),
        "swept_to": len(story),
        "part_mm": {"side": data.side_part_mm, "nod": data.nod_part_mm},
        "parts": data.parts,
        "turned": "",
        "known": values(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "whole": data.whole,
        "again_why": "",
        "slack_mm": {},
        "disturbed": False,
    }


def off_scale(job: Job, data: e.OffScale) -> Change:
    """The head as found is beyond what the gauge can read."""
    listed = (*job.off_scale, data)
    return {**go(data.next), "off_scale": listed, "taken": (), "shown": {}}
