"""Before the gauge is parked: which axis is moved first, and which is left alone today."""

from dataclasses import dataclass, replace

from daq.audit.events import Data, OfStage
from daq.audit.folding import leave
from daq.audit.input import Input, Refused
from daq.audit.next_move import furthest, sweep_next
from daq.audit.parts import LeftAlone, Next
from daq.audit.state import Job
from daq.audit.views.step import Action, Field
from daq.words import OTHER, Axis, Said, said


@dataclass(frozen=True)
class First:
    """The payload of `first`."""

    axis: Axis


@dataclass(frozen=True)
class Leave:
    """The payload of `leave-alone`: the axis, and why."""

    axis: Axis
    why: str


@dataclass(frozen=True)
class FirstChosen(OfStage):
    """This axis is moved first while both are to be."""

    axis: Axis
    next: Next


@dataclass(frozen=True)
class AxisLeft(OfStage):
    """This axis is not moved in this audit; its verdict stands as it is swept."""

    alone: LeftAlone
    next: Next


def first(job: Job, given: Input) -> tuple[Data, ...]:
    """The other axis first."""
    axis = given.payload(First).axis
    _check_free(job)
    if axis == job.axis or not _other_out(job):
        raise Refused("not-to-be-first")
    return (FirstChosen(axis, Next("park", axis)),)


def leave_alone(job: Job, given: Input) -> tuple[Data, ...]:
    """One axis is left as it is; the other one goes on, if there is anything left of it to do."""
    wish = given.payload(Leave)
    _check_free(job)
    why = wish.why.strip()
    if not why:
        raise Refused("left-alone-without-why")
    if wish.axis in job.moves.alone:
        raise Refused("left-alone-already")
    alone = LeftAlone(wish.axis, why)
    if wish.axis != job.axis:
        return (AxisLeft(alone, Next("park", job.axis)),)
    without = replace(job, moves=job.moves.leaving(alone))
    on = furthest(without, job.axes.results)
    end = sweep_next(job) if job.sweeps.disturbed else Next("clear")
    return (AxisLeft(alone, end if on is None else Next("park", on)),)


def _check_free(job: Job) -> None:
    """Refuse while an axis is loose, or the gauge is parked for this one: then it is moved."""
    if not _free(job):
        raise Refused("choose-before-parking")


def _free(job: Job) -> bool:
    return not job.loose and job.parked is None


def _other(job: Job) -> Axis | None:
    """The other axis, if it can be set and is not left alone."""
    other = None if job.axis is None else OTHER[job.axis]
    if other is None or other in job.moves.alone:
        return None
    return None if job.setup.machine.axis(other).adjust.kind == "none" else other


def _other_out(job: Job) -> bool:
    other = _other(job)
    return other is not None and job.axes.results[other].word == "out"


def choices(job: Job) -> list[Action]:
    """The other axis first, or one of them left alone: both are offered while both are out."""
    other, here = _other(job), job.axis
    if other is None or here is None or not _free(job):
        return []
    if not _other_out(job):
        return [_leave(job, other)]
    say = said("axis-first", axis=job.setup.machine.axis(other).say)
    return [Action("first", say, {"axis": other}), _leave(job, other), _leave(job, here)]


def _leave(job: Job, axis: Axis) -> Action:
    say = said("leave-axis", axis=job.setup.machine.axis(axis).say.lower())
    why = (Field("why", said("leave-axis-why")),)
    return Action("leave-alone", say, {"axis": axis}, fields=why)


def first_chosen(job: Job, data: FirstChosen) -> Job:
    """The gauge is parked for the other one."""
    return replace(leave(job, data.next), moves=replace(job.moves, first=data.axis))


def axis_left(job: Job, data: AxisLeft) -> Job:
    """It is moved no more."""
    return replace(leave(job, data.next), moves=job.moves.leaving(data.alone))


def told_first(job: Job, data: FirstChosen) -> tuple[Said, ...]:
    """Which axis."""
    return (said("row-first", axis=job.setup.machine.axis(data.axis).say),)


def told_left(job: Job, data: AxisLeft) -> tuple[Said, ...]:
    """Which axis, and why."""
    axis = job.setup.machine.axis(data.alone.axis).say
    return (said("was-left-alone", axis=axis, why=data.alone.why),)
