"""A pair check: the axis is read across, before its bolts are tightened and after."""

from typing import cast

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving, opening, sweeping
from daq.audit.stage import HISTORY, SETTLED, Handler, Shows, Stage, Took, always
from daq.audit.state import Job
from daq.audit.views.common import (
    STOP,
    TURN_NOTHING,
    again,
    axis_of,
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
from daq.words import OTHER, Position, Said, said


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
    return [first, touch(), again(), stop_here()]


def _halt(job: Job) -> tuple[Said, Said | None]:
    return STOP, TURN_NOTHING


STAGES = (
    Stage(
        "check",
        shows=Shows("square", _says, _buttons, swing, nose, _halt, lowered=always),
        commands={
            "take": Handler(moving.take, SETTLED, moving.place),
            "tightened": Handler(moving.tightened, HISTORY),
            "touch": Handler(opening.touch),
            "stop-here": Handler(sweeping.stop_here),
            "again": Handler(sweeping.again),
        },
        took={e.CheckDone: Took(moves.checked, undoable=True)},
    ),
)
