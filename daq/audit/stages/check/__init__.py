"""A pair check: the axis is read across, before its bolts are tightened and after."""

from typing import cast

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.facts import axis_of, disproves
from daq.audit.folding import Change, go, values
from daq.audit.parts import AxisShift, Next
from daq.audit.stage import SETTLED, Handler, Shows, Stage, Took, always
from daq.audit.stages.check import decide
from daq.audit.state import Job
from daq.audit.views.common import (
    STOP,
    TURN_NOTHING,
    again,
    nose,
    stop_here,
    swing,
    take,
    tight_now,
    touch,
    turn_to,
)
from daq.audit.views.places import next_place
from daq.audit.views.step import Action, Wording
from daq.squaring.learned import Learned
from daq.squaring.story import Happened, Story, apart, disowned, distrusted, unread
from daq.words import OTHER, Axis, Position, Said, said

UNTRUSTED = ("bumped", "wrong-adjuster", "astray")
"""What spoils the readings since the move; an axis that answers the other way round does not."""


def _says(job: Job) -> Wording:
    return Wording(turn_to(job, cast(Position, next_place(job))), _why_check(job))


def _why_check(job: Job) -> Said:
    axis = axis_of(job)
    spec = job.setup.machine.axis(axis)
    if job.ahead is not None and job.ahead.worked == OTHER[axis]:
        return said("check-other", axis=spec.say.lower())
    if axis in job.loose:
        return said("check-before-tightening")
    return said("check-tight", bolts=spec.bolts)


def _buttons(job: Job) -> list[Action]:
    first = take(next_place(job))
    worked = job.ahead.worked if job.ahead is not None else None
    if job.loose or worked == job.axis:
        return [first, *tight_now(job), touch()]
    return [first, touch(), again(job), stop_here()]


def _halt(job: Job) -> tuple[Said, Said | None]:
    return STOP, TURN_NOTHING


def _checked(job: Job, data: e.CheckDone) -> Change:
    """The axis stands as read, the other as it must have followed."""
    before = data.before_tightening_mm
    shift = () if data.shift_mm is None else (AxisShift(data.axis, data.shift_mm),)
    return {
        **go(data.next, data.said),
        "taken": (),
        "known": values(data.points),
        "results": data.results,
        "whole": data.whole,
        "shims": tuple(each for each in job.shims if data.results[each[0]].word != "in"),
        "before_tightening": {} if before is None else {data.axis: before},
        "slack_mm": data.slack_mm,
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


def _kept(job: Job, data: e.CheckDone) -> Learned | None:
    """What is known of the head: of an audit in which an axis answered backwards, nothing."""
    if data.strange != "reversed" or job.ram_moved:
        return job.learned
    return job.setup.learned


def _reversed(job: Job, data: e.CheckDone) -> frozenset[Axis]:
    """The axes taken for answering backwards: one more, or one less when it does not fit."""
    if data.strange == "reversed":
        return job.reversed | {data.axis}
    taken_back = data.strange and data.axis in job.loose
    return job.reversed - {data.axis} if taken_back else job.reversed


def _parked_face(job: Job, data: e.CheckDone) -> float | None:
    """What the gauge reads where it stands now, when the bolts of this axis are next."""
    if data.next != Next("tighten", data.axis):
        return None
    return job.taken[-1].mean_mm if job.taken else None


STAGES = (
    Stage(
        "check",
        shows=Shows("square", _says, _buttons, swing, nose, _halt, lowered=always),
        commands={
            "take": Handler(decide.take, SETTLED, decide.place),
            "tightened": "tighten",
            "touch": Handler(wish.touch),
            "stop-here": Handler(wish.stop_here),
            "again": Handler(wish.again),
        },
        took={e.CheckDone: Took(_checked, undoable=True)},
    ),
)
