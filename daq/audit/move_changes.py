"""The fold's changes by events about the axes: parked, moved, checked, tightened."""

from dataclasses import replace
from typing import Any

from daq.audit import events as e
from daq.audit.facts import as_seen, disproves
from daq.audit.parts import TURN_ON, AxisResult, AxisShift, Next, Point
from daq.audit.state import Job
from daq.squaring.learned import Learned
from daq.squaring.story import Happened, Seen, Story, apart, disowned, distrusted, then, unread
from daq.squaring.story import parked as stood
from daq.words import Axis, Position, Said

Change = dict[str, Any]

UNTRUSTED = ("bumped", "wrong-adjuster", "astray")
"""What spoils the readings since the move; an axis that answers the other way round does not."""

NO_BASE: Change = {
    "base": None,
    "stop": None,
    "cracked_face_mm": None,
    "lost_face_mm": None,
    "question": None,
    "asked": None,
    "zero_asked": None,
}


def go(to: Next, said: Said | None = None) -> Change:
    """To the next step, with a message or without."""
    return {"step": to.step, "axis": to.axis, "ahead": to.ahead, "message": said}


def values(points: tuple[Point, ...]) -> dict[Position, float]:
    """Points by position."""
    return {p.position: p.pushed_mm for p in points}


def at(reading_position: Position | None, pushed_mm: float) -> tuple[Seen, ...]:
    """One reading as the story keeps it."""
    return () if reading_position is None else (Seen(reading_position, pushed_mm),)


def parked(job: Job, data: e.Parked) -> Change:
    """The base stands, or a question does."""
    told = at(data.reading.position, data.pushed_mm) if data.question is None else ()
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


def answered(job: Job, data: e.Answered) -> Change:
    """What is remembered stands as the answer left it."""
    if data.key == TURN_ON:
        return {**go(data.next), "question": None}
    story = job.story
    if data.sweep is not None:
        story = (*story[: job.swept_from], *as_seen(data.points))
    if data.key in ("zeroed", "set-anew"):
        story = then(story, Happened("zeroed"))
    if data.stop is not None and job.base is not None:
        place = job.base.position
        told = [p for p in data.points if p.position == place]
        story = (*story, *at(place, job.setup.gauge.pushed(job.base.mean_mm))) if told else story
    return {
        **go(data.next),
        "question": None,
        "sweeps": (*job.sweeps[:-1], data.sweep) if data.sweep is not None else job.sweeps,
        "free_pushed_mm": data.free_pushed_mm,
        "again_why": data.why or "",
        "known": values(data.points),
        "shown": {p.position: job.setup.gauge.face(p.pushed_mm) for p in data.points},
        "results": {"side": data.side, "nod": data.nod},
        "whole": data.whole,
        "stop": data.stop,
        "base": job.base if data.stop is not None else None,
        "taken": (),
        "story": story,
    }


def base(job: Job, data: e.BaseRead) -> Change:
    """The parked spot read again after a zero: the stop-at counts from it."""
    # What was read just now, but with the head as it stood when the base was first read.
    told = at(data.reading.position, job.setup.gauge.pushed(data.stop.base_face_mm))
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


def loosened(job: Job, data: e.Loosened) -> Change:
    """An axis is loose; proofs taken so far prove nothing any more."""
    loose = job.loose | {data.axis}
    disturbed = {"disturbed": True, "loosened": True, "final_from": len(job.sweeps)}
    stands = {"cracked_face_mm": data.reading.mean_mm}
    return {**go(data.next), "loose": loose, **disturbed, **stands}


def doubted(job: Job, data: e.StopDoubted) -> Change:
    """The stop-at stands; whether the turn ended is for the answer."""
    return {**go(data.next), "question": data.question, "asked": data.reading}


def moved(job: Job, data: e.Moved) -> Change:
    """The head stands elsewhere; what it did when the hand left is not known yet."""
    told = at(data.reading.position, job.setup.gauge.pushed(data.reading.mean_mm))
    stopped = tuple(replace(reading, stays=True) for reading in told)
    happened = (Happened("moved", data.axis), *stopped, Happened("rested", data.axis))
    change = {**go(data.next, data.said), **NO_BASE, "taken": (), "before_tightening": {}}
    shim = job.stop.shim if job.stop is not None else None
    return {
        **change,
        "moves": job.moves + 1,
        "story": (*job.story, *happened),
        "shims": (*job.shims, (data.axis, shim)) if shim is not None else job.shims,
    }


def checked(job: Job, data: e.CheckDone) -> Change:
    """The axis stands as read, the other as it must have followed."""
    before = data.before_tightening_mm
    results: dict[Axis, AxisResult] = {"side": data.side, "nod": data.nod}
    shift = () if data.shift_mm is None else (AxisShift(data.axis, data.shift_mm),)
    return {
        **go(data.next, data.said),
        "taken": (),
        "known": values(data.points),
        "results": results,
        "whole": data.whole,
        "shims": tuple(each for each in job.shims if results[each[0]].word != "in"),
        "before_tightening": {} if before is None else {data.axis: before},
        "slack_mm": {"side": data.side_slack_mm, "nod": data.nod_slack_mm},
        "shifts": (*job.shifts, *shift),
        "story": _believed(job, data),
        "learned": _kept(job, data),
        "reversed": _reversed(job, data),
        "unsure": job.unsure | {data.axis} if data.strange == "astray" else job.unsure,
        "tight_face_mm": _parked_face(job, data),
        "bolt_face_mm": None,
        "bolt_steps": job.bolt_steps if data.strange == "again" else 0,
        "reread_mm": data.doubted_mm,
        "doubted_mm": _doubted(job, data),
    }


def _doubted(job: Job, data: e.CheckDone) -> dict[Axis, float]:
    """What tightening seemed to do that was not believed; what is believed is doubted no more."""
    doubted = dict(job.doubted_mm)
    if data.shift_mm is not None:
        doubted.pop(data.axis, None)
    elif data.strange == "bumped" and job.reread_mm is not None:
        doubted[data.axis] = job.reread_mm
    return doubted


def _believed(job: Job, data: e.CheckDone) -> Story:
    """The story as far as it can be believed after this check."""
    if data.strange == "again":
        return (*unread(job.story, len(job.taken)), Happened("zeroed"))
    if data.strange not in UNTRUSTED:
        return job.story
    if data.axis not in job.loose:
        return apart(job.story, len(job.taken))
    wrong = disproves(job, data.axis, data.strange)
    return disowned(job.story) if wrong else distrusted(job.story)


def _reversed(job: Job, data: e.CheckDone) -> frozenset[Axis]:
    """The axes taken for answering backwards: one more, or one less when it does not fit."""
    if data.strange == "reversed":
        return job.reversed | {data.axis}
    taken_back = data.strange and data.axis in job.loose
    return job.reversed - {data.axis} if taken_back else job.reversed


def _kept(job: Job, data: e.CheckDone) -> Learned | None:
    """What is known of the head: of an audit in which an axis answered backwards, nothing."""
    if data.strange != "reversed" or job.ram_moved:
        return job.learned
    return job.setup.learned


def _parked_face(job: Job, data: e.CheckDone) -> float | None:
    """What the gauge reads where it stands now, when the bolts of this axis are next."""
    if data.next != Next("tighten", data.axis):
        return None
    return job.taken[-1].mean_mm if job.taken else None


def bolt(job: Job, data: e.BoltPulled) -> Change:
    """One more step of the bolts."""
    before = data.reading.mean_mm - data.since_face_mm
    return {
        **go(data.next, data.said),
        "bolt": data.bolt,
        "bolt_steps": data.step,
        "lifted": False,
        "tight_face_mm": before,
        "bolt_face_mm": data.reading.mean_mm,
        "bolt_over_mm": data.shift_face_mm if data.over else None,
    }


def tightened(job: Job, data: e.Tightened) -> Change:
    """The axis is tight; since it was loosened there was no sweep that could prove anything."""
    happened: Story = (Happened("tightened", data.axis),)
    if job.step != "tighten":
        # Cracked bolts let the head drop, and nothing was read since.
        happened = (Happened("moved", data.axis), *happened)
    return {
        **go(data.next, job.message if job.is_told("bolt-over") else None),
        **NO_BASE,
        "loose": job.loose - {data.axis},
        "lifted": False,
        "taken": (),
        "reread_mm": None,
        # An adjuster may have been turned since the check: what tightening did is not known.
        "before_tightening": job.before_tightening if job.step == "tighten" else {},
        "story": then(job.story, *happened),
    }


def off_scale(job: Job, data: e.OffScale) -> Change:
    """The head as found is beyond what the gauge can read."""
    listed = (*job.off_scale, data)
    return {**go(data.next), "off_scale": listed, "taken": (), "shown": {}}


def closer(job: Job, data: e.BroughtCloser) -> Change:
    """The head was moved: a sweep from now on is not as found."""
    return {
        **go(data.next),
        "loosened": True,
        "disturbed": True,
        "final_from": len(job.sweeps),
        "lifted": True,
        "story": (),
    }
