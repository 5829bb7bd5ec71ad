"""A shim goes in: the joint opened no further than it needs, the head slung, no fingers in."""

from dataclasses import dataclass, replace

from daq.audit.events import Data, OfStage
from daq.audit.facts import axis_of, certain, shown_face, unit_of
from daq.audit.folding import go, leave
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next, Shim
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.by_kind import CLEAR, CRACK, support_first
from daq.audit.views.common import other_bolts, spec_of
from daq.audit.views.figures import on_face
from daq.audit.views.shims import say_leaves, say_shim, told_shim
from daq.audit.views.step import Action, Clamp, Turn, Wording
from daq.squaring.story import Happened
from daq.words import Axis, Said, said


@dataclass(frozen=True)
class JointOpened(OfStage):
    """An axis's bolts are cracked and its joint open, the head hanging in its sling."""

    axis: Axis
    next: Next


@dataclass(frozen=True)
class Shimmed(OfStage):
    """The shim is in and the bolts are snug on it; no gauge saw it."""

    axis: Axis
    shim: Shim
    next: Next


def opened(job: Job, given: Input) -> tuple[Data, ...]:
    """The joint is open."""
    given.payload(Nothing)
    return (JointOpened(axis_of(job), Next("shim", job.axis)),)


def shimmed(job: Job, given: Input) -> tuple[Data, ...]:
    """The shim is in, the bolts snug; the check shows what it did."""
    given.payload(Nothing)
    return (Shimmed(axis_of(job), _shim(job), Next("arm-back", job.axis)),)


def _shim(job: Job) -> Shim:
    return certain(certain(job.stop).shim)


def _open_says(job: Job) -> Wording:
    bolts = spec_of(job).bolts
    title = said("open-again", bolts=bolts) if job.axis in job.loose else said("crack", bolts=bolts)
    return Wording(title, said("open-joint"), (other_bolts(job),))


def _open_buttons(job: Job) -> list[Action]:
    return [Action("joint-open", said("joint-is-open"), primary=True)]


def _open_cautions(job: Job) -> tuple[Said, ...]:
    return (*support_first(spec_of(job)), CRACK, CLEAR)


def _shim_says(job: Job) -> Wording:
    needed, push = _shim(job), said("push-then-snug")
    leaves = say_leaves(job, needed)
    detail = push if leaves is None else said("and-then", first=leaves, next=push)
    put = said("put-shim", shim=say_shim(needed, unit_of(job)))
    return Wording(put, detail, (other_bolts(job),))


def _shim_buttons(job: Job) -> list[Action]:
    return [Action("shimmed", said("shim-in"), primary=True)]


def _shim_cautions(job: Job) -> tuple[Said, ...]:
    return said("head-still-slung"), said("push-with-a-strip")


def _open_hands(job: Job) -> Clamp:
    return Clamp("loosen", job.axis)


def _shim_hands(job: Job) -> Turn:
    """What the parked gauge would read then, for hands that know their head by it alone."""
    return Turn(job.axis, shown_face(job, on_face(job, certain(job.stop).stop_face_mm)))


def _opened(job: Job, data: JointOpened) -> Job:
    return replace(
        go(job, data.next),
        loose=job.loose | {data.axis},
        sweeps=job.sweeps.spoilt(loosened=True),
    )


def _shimmed(job: Job, data: Shimmed) -> Job:
    """The head stands elsewhere, by as much as the shim makes."""
    moves, asked = job.moves, (data.axis, data.shim)
    return replace(
        leave(job, data.next),
        tightening=replace(job.tightening, before={}),
        moves=replace(moves, made=moves.made + 1, shims=(*moves.shims, asked)),
        head=job.head.then(Happened("moved", data.axis), Happened("rested", data.axis)),
    )


def _detail(job: Job, data: Shimmed) -> tuple[Said, ...]:
    """How thick, and where."""
    return told_shim(job, data.shim)


STAGES = (
    Stage(
        "shim-open",
        shows=Shows("square", _open_says, _open_buttons, _open_hands, _open_cautions),
        commands={"joint-open": Handler(opened)},
        took={JointOpened: Took(_opened, told=said("bolts-were-cracked"))},
        heeds_zero=False,
    ),
    Stage(
        "shim",
        shows=Shows("square", _shim_says, _shim_buttons, _shim_hands, _shim_cautions),
        commands={"shimmed": Handler(shimmed)},
        took={Shimmed: Took(_shimmed, told=said("shim-was-put-in"), detail=_detail)},
        heeds_zero=False,
    ),
)
