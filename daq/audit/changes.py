"""The fold's changes by events that lead through the audit, and by those of the gauge."""

from collections.abc import Mapping

from daq.audit import events as e
from daq.audit.facts import as_seen
from daq.audit.move_changes import NO_BASE, Change, at, go, values
from daq.audit.parts import Next
from daq.audit.stage import Took
from daq.audit.state import Job
from daq.squaring.story import Happened, then
from daq.words import Reading, said


def prepared(job: Job, data: e.Prepared) -> Change:
    """The card was read: the arm goes in, and what a restart left in doubt is known."""
    change = {**go(data.next), "arm_in": True}
    if data.learned is not None:
        change |= {"learned": data.learned, "ram_moved": True}
    if data.anew is None:
        return change
    if data.cracked:
        change |= {"loose": job.loose | set(data.anew.maybe), "loosened": True}
    return {
        **change,
        "anew": data.anew,
        "again_why": said("touched-while-off"),
        "disturbed": True,
        "final_from": len(job.sweeps),
        "story": then(job.story, Happened("unknown")),
    }


def _restarted(job: Job, data: e.Restarted) -> Change:
    change = go(data.next, data.said)
    if data.anew is None:
        return change
    return {
        **change,
        **NO_BASE,
        "anew": data.anew,
        "resume": None,
        "taken": (),
        "shown": {},
        "tight_face_mm": None,
        "bolt_face_mm": None,
        "story": then(job.story, Happened("zeroed")),
    }


def free(job: Job, data: e.FreeRead) -> Change:
    """The free reading stands; after a zero everything remembered has shifted."""
    change = {
        **go(data.next, data.said),
        "unit": data.unit,
        "free_pushed_mm": data.pushed_mm,
        "spread_mm": data.spread_mm,
        "known": values(data.points),
        "resume": None,
        "lifted": True,
    }
    if job.resume is not None:
        change["story"] = then(job.story, Happened("zeroed"))
        change["zeroed"] = True
    return {**change, "taken": (), "shown": {}} if data.restart else change


def pushed(job: Job, data: e.Pushed) -> Change:
    """The gauge is alive and counts the right way, or not."""
    change = go(data.next, None if data.ok else data.said)
    return {**change, "anew": None} if data.ok else change


def touch(job: Job, data: e.TouchWanted) -> Change:
    """The free reading is taken again before the audit goes on."""
    return {**go(data.next), "resume": data.resume}


def _reading(job: Job, data: e.ReadingTaken) -> Change:
    taken: tuple[Reading, ...] = (*job.taken, data.reading)
    shown = dict(job.shown) if job.step == "check" or job.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.reading.mean_mm
    told = at(position, data.pushed_mm) if job.step == "check" else ()
    before = job.seconds if job.taken else ()
    return {
        "taken": taken,
        "lifted": False,
        "seconds": before if data.second is None else (*before, data.second),
        "shown": shown,
        "message": data.said,
        "story": (*job.story, *told),
    }


def swept(job: Job, data: e.SweepDone) -> Change:
    """The head stands as this sweep read it."""
    first = next(iter(sorted(data.findings, key=lambda finding: not finding.blocking)), None)
    change = {
        **go(data.next, first.said if first else None),
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


def _zeroed(job: Job, data: e.Zeroed) -> Change:
    if data.question is not None:
        return {**go(Next("question", job.axis)), "question": data.question, "zero_asked": data}
    change = {
        **go(data.next, data.said),
        **NO_BASE,
        "base": job.base if data.lost_face_mm is not None else None,
        "lost_face_mm": data.lost_face_mm,
        "known": values(data.points),
        "free_pushed_mm": data.free_pushed_mm,
        "resume": data.resume,
    }
    if data.resume is None:
        change["story"] = then(job.story, Happened("zeroed"))
        change["zeroed"] = True
    for watched in ("tight_face_mm", "bolt_face_mm"):
        face_mm = getattr(job, watched)
        if face_mm is not None:
            shift_mm = data.after_face_mm - data.before_face_mm
            change[watched] = face_mm + shift_mm if data.resume is None else None
    return {**change, "taken": (), "shown": {}} if data.restart else change


def again(job: Job, data: e.SweepWanted) -> Change:
    """Another full sweep is wanted."""
    change = {
        **go(data.next),
        **NO_BASE,
        "again_why": data.why,
        "taken": (),
        "shown": {},
        "turned": data.turned,
        "anew": data.anew,
        "lifted": job.lifted or bool(data.turned),
    }
    # Swept anew for another reason, the surface may have been seated anew too.
    return change if data.turned else {**change, "part_mm": {}, "parts": ()}


def stop_here(job: Job, data: e.StopHere) -> Change:
    """No more moves."""
    return {**go(data.next), **NO_BASE, "finishing": True, "taken": ()}


def cleared(job: Job, data: e.Cleared) -> Change:
    """The arm is out."""
    return {**go(data.next), "arm_in": False}


def _fault(job: Job, data: e.GaugeFault) -> Change:
    return {"since": job.since}


def _back(job: Job, data: e.GaugeBack) -> Change:
    story = then(job.story, Happened("zeroed"))
    if data.next is None:
        # Its zero may be another now: the bolts are counted from what it reads next.
        return {"since": job.since, "tight_face_mm": None, "bolt_face_mm": None, "story": story}
    return {**go(data.next, data.said), **NO_BASE, "taken": (), "story": story}


def _noted(job: Job, data: e.GaugeNoted) -> Change:
    change: Change = {"since": job.since, "message": data.said}
    if data.unit is not None:
        change["unit"] = data.unit
    if data.next is None:
        return change
    story = then(job.story, Happened("unknown"))
    return {**go(data.next, data.said), **NO_BASE, "taken": (), "story": story}


def _learned(job: Job, data: e.ResponseUpdated) -> Change:
    return {"learned": data.learned}


COMMON: Mapping[type[e.Data], Took] = {
    e.ReadingTaken: Took(_reading, undoable=True),
    e.ResponseUpdated: Took(_learned),
    e.Restarted: Took(_restarted),
    e.Zeroed: Took(_zeroed),
    e.GaugeFault: Took(_fault),
    e.GaugeBack: Took(_back),
    e.GaugeNoted: Took(_noted),
}
"""Events of more than one stage."""
