"""Arm and gauge come out before a head is opened or swung by hand, and go back in after it."""

from dataclasses import dataclass, replace

from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Anew, Next
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import NOBODY_BENEATH, arm_away, arm_back, supported, worked_on
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Wording
from daq.squaring.story import Happened
from daq.words import Said, said


@dataclass(frozen=True)
class ArmOut(OfStage):
    """The gauge is away from under the head, which is supported where its bolts alone hold it.

    `arm`: whether the arm stayed in the spindle, clamped by a drawbar that needs power.
    """

    arm: bool
    next: Next


@dataclass(frozen=True)
class ArmBack(OfStage):
    """The arm is back in with its gauge; the contact is touched anew before anything is read."""

    anew: Anew
    next: Next


def arm_out(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge is away, the head held."""
    given.payload(Nothing)
    stays = job.setup.machine.drawbar == "power"
    return (ArmOut(stays, Next(_LEADS[job.step], job.axis)),)


def back_in(job: Job, given: Input) -> tuple[Data, ...]:
    """Arm and gauge are back."""
    given.payload(Nothing)
    to = Next("final") if job.axis is None else Next("check", job.axis)
    return (ArmBack(Anew("again", to), Next("touch-free")),)


def _out_says(job: Job) -> Wording:
    return Wording(arm_away(job.setup.machine), supported(*worked_on(job)))


def _back_says(job: Job) -> Wording:
    return Wording(arm_back(job.setup.machine), said("still-locked-out"))


def _out(job: Job, data: ArmOut) -> Job:
    return replace(go(job, data.next), arm_in=data.arm)


def _back(job: Job, data: ArmBack) -> Job:
    """Where the gauge reads from is not as before; which way the head leans is."""
    return replace(
        go(job, data.next),
        arm_in=True,
        sweeps=job.sweeps if job.arm_in else job.sweeps.arm_out(),
        gauge=job.gauge.away(),
        anew=data.anew,
        circle=replace(job.circle, shown={}),
        head=job.head.then(Happened("zeroed")),
    )


_LEADS = {"arm-out-shim": "shim-open", "arm-out-closer": "closer"}
_OUT = Shows(
    "square",
    _out_says,
    just([Action("arm-out", said("arm-is-away"), primary=True)]),
    cautions=just((NOBODY_BENEATH, FIRST)),
)


def _out_detail(job: Job, data: ArmOut) -> tuple[Said, ...]:
    """Where the arm stayed."""
    return (said("row-arm-stays"),) if data.arm else ()


STAGES = (
    *(
        Stage(
            key,
            before=leads,
            shows=_OUT,
            commands={"arm-out": Handler(arm_out)},
            took={ArmOut: Took(_out, told=said("arm-went-out"), detail=_out_detail)},
            heeds_zero=False,
        )
        for key, leads in _LEADS.items()
    ),
    Stage(
        "arm-back",
        shows=Shows(
            "square",
            _back_says,
            just([Action("arm-back", said("arm-is-back"), primary=True)]),
            cautions=just((FIRST,)),
        ),
        commands={"arm-back": Handler(back_in)},
        took={ArmBack: Took(_back, told=said("arm-was-put-back"))},
        heeds_zero=False,
    ),
)
