"""The fold's changes by events that lead through the audit, and by those of the gauge."""

from collections.abc import Mapping

from daq.audit import events as e
from daq.audit.folding import NO_BASE, Change, go, in_unit, seen_at, values
from daq.audit.parts import Next
from daq.audit.stage import Took
from daq.audit.state import Job
from daq.squaring.story import Happened, then
from daq.words import Reading


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


def _reading(job: Job, data: e.ReadingTaken) -> Change:
    taken: tuple[Reading, ...] = (*job.taken, data.reading)
    shown = dict(job.shown) if job.step == "check" or job.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.reading.mean_mm
    told = seen_at(position, data.pushed_mm) if job.step == "check" else ()
    before = job.seconds if job.taken else ()
    return {
        "taken": taken,
        "lifted": False,
        "seconds": before if data.second is None else (*before, data.second),
        "shown": shown,
        "message": data.said,
        "story": (*job.story, *told),
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


def _fault(job: Job, data: e.GaugeFault) -> Change:
    return {"since": job.since}


def _back(job: Job, data: e.GaugeBack) -> Change:
    story = then(job.story, Happened("zeroed"))
    if data.next is None:
        # Its zero may be another now: the bolts are counted from what it reads next.
        return {"since": job.since, "tight_face_mm": None, "bolt_face_mm": None, "story": story}
    return {**go(data.next, data.said), **NO_BASE, "taken": (), "story": story}


def _noted(job: Job, data: e.GaugeNoted) -> Change:
    change: Change = {"since": job.since, "message": data.said, **in_unit(job, data)}
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
