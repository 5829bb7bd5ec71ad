"""The fold's changes, an event type each: what an event carries goes into the audit's state."""

from collections.abc import Callable
from typing import Any

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.facts import as_seen
from daq.audit.move_changes import NO_BASE, Change, at, go, values
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.squaring.story import Happened, then
from daq.words import Reading


def _prepared(job: Job, data: e.Prepared) -> Change:
    change = {**go(Next("touch-free")), "arm_in": True}
    if data.learned is not None:
        change |= {"learned": data.learned, "ram_moved": True}
    if data.anew is None:
        return change
    if data.cracked:
        change |= {"loose": job.loose | set(data.anew.maybe), "loosened": True}
    return {
        **change,
        "anew": data.anew,
        "again_why": "The gauge or the head was touched while the screen was off.",
        "disturbed": True,
        "final_from": len(job.sweeps),
        "story": then(job.story, Happened("unknown")),
    }


def _restarted(job: Job, data: e.Restarted) -> Change:
    said = go(data.next, data.say, "restarted")
    if data.anew is None:
        return said
    return {
        **said,
        **NO_BASE,
        "anew": data.anew,
        "resume": None,
        "taken": (),
        "shown": {},
        "tight_face_mm": None,
        "bolt_face_mm": None,
        "story": then(job.story, Happened("zeroed")),
    }


def _free(job: Job, data: e.FreeRead) -> Change:
    change = {
        **go(data.next, data.say, "touch"),
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


def _pushed(job: Job, data: e.Pushed) -> Change:
    change = go(data.next, "" if data.ok else data.say, "touch")
    return {**change, "anew": None} if data.ok else change


def _touch(job: Job, data: e.TouchWanted) -> Change:
    return {**go(data.next), "resume": data.resume}


def _reading(job: Job, data: e.ReadingTaken) -> Change:
    taken: tuple[Reading, ...] = (*job.taken, data.reading)
    shown = dict(job.shown) if job.step == "check" or job.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.reading.mean_mm
    code = "preload" if data.say else ""
    told = at(position, data.pushed_mm) if job.step == "check" else ()
    before = job.seconds if job.taken else ()
    return {
        "taken": taken,
        "lifted": False,
        "seconds": before if data.second is None else (*before, data.second),
        "shown": shown,
        "message": data.say,
        "message_code": code,
        "story": (*job.story, *told),
    }


def _sweep(job: Job, data: e.SweepDone) -> Change:
    first = next(iter(sorted(data.findings, key=lambda finding: not finding.blocking)), None)
    change = {
        **(go(data.next, first.said, first.code) if first else go(data.next)),
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
        **go(data.next, data.say, "zeroed"),
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


def _again(job: Job, data: e.SweepWanted) -> Change:
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


def _stop_here(job: Job, data: e.StopHere) -> Change:
    return {**go(data.next), **NO_BASE, "finishing": True, "taken": ()}


def _cleared(job: Job, data: e.Cleared) -> Change:
    return {**go(Next("sign")), "arm_in": False}


def _fault(job: Job, data: e.GaugeFault) -> Change:
    return {"since": job.since}


def _back(job: Job, data: e.GaugeBack) -> Change:
    story = then(job.story, Happened("zeroed"))
    if data.next is None:
        # Its zero may be another now: the bolts are counted from what it reads next.
        return {"since": job.since, "tight_face_mm": None, "bolt_face_mm": None, "story": story}
    return {**go(data.next, data.say, "away"), **NO_BASE, "taken": (), "story": story}


def _noted(job: Job, data: e.GaugeNoted) -> Change:
    said = {"since": job.since, "message": data.say, "message_code": data.code}
    if data.unit is not None:
        said["unit"] = data.unit
    if data.next is None:
        return said
    story = then(job.story, Happened("unknown"))
    return {**go(data.next, data.say, data.code), **NO_BASE, "taken": (), "story": story}


def _learned(job: Job, data: e.ResponseUpdated) -> Change:
    return {"learned": data.learned}


CHANGES: dict[type[e.Data], Callable[[Job, Any], Change]] = {
    e.Prepared: _prepared,
    e.FreeRead: _free,
    e.Pushed: _pushed,
    e.Restarted: _restarted,
    e.ReadingTaken: _reading,
    e.SweepDone: _sweep,
    e.Parked: moves.parked,
    e.Answered: moves.answered,
    e.Zeroed: _zeroed,
    e.BaseRead: moves.base,
    e.Loosened: moves.loosened,
    e.StopDoubted: moves.doubted,
    e.Moved: moves.moved,
    e.CheckDone: moves.checked,
    e.BoltPulled: moves.bolt,
    e.Tightened: moves.tightened,
    e.SweepWanted: _again,
    e.OffScale: moves.off_scale,
    e.BroughtCloser: moves.closer,
    e.ResponseUpdated: _learned,
    e.Cleared: _cleared,
    e.GaugeFault: _fault,
    e.GaugeBack: _back,
    e.GaugeNoted: _noted,
    e.TouchWanted: _touch,
    e.StopHere: _stop_here,
}
"""What each event changes in the open audit it belongs to."""
