"""What is done while there is still power: the spindle warm and in neutral, arm in, height set.

The arm only where a power drawbar clamps it, the height only where the head moves by power.
"""

from dataclasses import dataclass, replace

from daq.audit.anytime import restart
from daq.audit.events import Data, OfStage
from daq.audit.facts import is_look, kind_of
from daq.audit.folding import go
from daq.audit.held.ran import RAN, Ran
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Next
from daq.audit.reasons import REASONS
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import clearance
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Field, Wording
from daq.settings import quoted
from daq.words import Said, said

MOST_MINUTES = 240


@dataclass(frozen=True)
class Warmed(OfStage):
    """The spindle was run warm, or left cold, and is in neutral; `minutes`: how long, if said."""

    warm: bool
    minutes: int | None
    next: Next


@dataclass(frozen=True)
class ArmFitted(OfStage):
    """The power drawbar clamped what goes into the spindle."""

    next: Next


@dataclass(frozen=True)
class HeightSet(OfStage):
    """The head that moves by power stands at the height it is read at, and is clamped."""

    next: Next


@dataclass(frozen=True)
class Warm:
    """The payload of `warmed`; `minutes`: as typed, nothing where they are not known."""

    warm: bool
    minutes: str = ""


def warmed(job: Job, given: Input) -> tuple[Data, ...]:
    """The spindle is warm, or left cold; either way it is in neutral."""
    card = given.payload(Warm)
    text = card.minutes.strip()
    if not text:
        return (Warmed(card.warm, None, Next("prepare")),)
    minutes = int(text) if text.isascii() and text.isdigit() and len(text) < 4 else 0
    if not (card.warm and 1 <= minutes <= MOST_MINUTES):
        raise Refused("no-such-minutes", found=quoted(text), most=MOST_MINUTES)
    return (Warmed(True, minutes, Next("prepare")),)


def arm_fitted(job: Job, given: Input) -> tuple[Data, ...]:
    """The arm is in, clamped by power."""
    given.payload(Nothing)
    return (ArmFitted(Next("prepare")),)


def height_set(job: Job, given: Input) -> tuple[Data, ...]:
    """The head stands where it is read, and is clamped."""
    given.payload(Nothing)
    return (HeightSet(Next("prepare")),)


def _asked(job: Job) -> bool:
    """Whether there may be power: after a restart it is asked whether the lock is still on.

    A machine that was left with bolts loose or the arm in was to have none.
    """
    return job.anew is None or job.anew.why not in ("restart", "left")


def _warm_asked(job: Job) -> bool:
    """Not where it is only looked whether the head moved: no more than hands need then."""
    return _asked(job) and not is_look(job)


def _arm_asked(job: Job) -> bool:
    return _asked(job) and "arm" in job.setup.machine.while_powered


def _height_asked(job: Job) -> bool:
    return _asked(job) and "height" in job.setup.machine.while_powered


def _warm_says(job: Job) -> Wording:
    how = said("run-it-warm-how", reason=job.reason, brake=job.setup.machine.brake)
    return Wording(said("run-it-warm", reason=job.reason), how)


def _warm_buttons(job: Job) -> list[Action]:
    minutes = (Field("minutes", said("minutes")),)
    # What Enter and the pedal say is never what the cautions forbid.
    crash = job.reason == "crash"
    run = [
        Action("warmed", said("is-warm"), {"warm": True}, primary=not crash),
        Action("warmed", said("is-warm-after"), {"warm": True}, fields=minutes),
    ]
    cold = Action("warmed", said("left-cold"), {"warm": False}, primary=crash)
    return [cold, *run] if crash else [*run, cold]


def _warm_cautions(job: Job) -> tuple[Said, ...]:
    crash = (said("looked-at-first"),) if job.reason == "crash" else ()
    locked = (said("unlock-first"),) if REASONS[job.reason].asks else ()
    return (*crash, *locked, said("clear-of-power"), FIRST)


def _arm_says(job: Job) -> Wording:
    return Wording(said("clamp-arm", of=kind_of(job)), said("clamp-arm-how", of=kind_of(job)))


def _arm_buttons(job: Job) -> list[Action]:
    return [Action("arm-fitted", said("arm-clamped", of=kind_of(job)), primary=True)]


def _height_says(job: Job) -> Wording:
    return Wording(said("set-height"), said("set-height-how", clear=clearance(job)))


def _height_buttons(job: Job) -> list[Action]:
    return [Action("height-set", said("height-is-set"), primary=True)]


def _height_cautions(job: Job) -> tuple[Said, ...]:
    started = (said("start-nothing"),) if job.arm_in else ()
    return (*started, said("head-may-sink"), FIRST)


def _warmed(job: Job, data: Warmed) -> Job:
    return replace(go(job, data.next), own={**job.own, RAN: Ran(data.warm, data.minutes)})


def _arm_in(job: Job, data: ArmFitted) -> Job:
    return replace(go(job, data.next), arm_in=True)


def _height(job: Job, data: HeightSet) -> Job:
    return go(job, data.next)


def _warm_detail(job: Job, data: Warmed) -> tuple[Said, ...]:
    """Warm or cold, and for how long."""
    ran = said("spindle-ran", warm="warm" if data.warm else "cold", minutes=data.minutes or 0)
    return (said("just-ran", ran=ran),)


STAGES = (
    Stage(
        RAN,
        before="power-arm",
        when=_warm_asked,
        shows=Shows("prepare", _warm_says, _warm_buttons, cautions=_warm_cautions),
        commands={"warmed": Handler(warmed), "restarted": Handler(restart.unread)},
        took={Warmed: Took(_warmed, undoable=True, told=said("was-warmed"), detail=_warm_detail)},
        heeds_zero=False,
    ),
    Stage(
        "power-arm",
        before="power-height",
        when=_arm_asked,
        shows=Shows(
            "prepare",
            _arm_says,
            _arm_buttons,
            cautions=just((said("start-nothing"), said("drawbar-clear"), FIRST)),
        ),
        commands={"arm-fitted": Handler(arm_fitted), "restarted": Handler(restart.unread)},
        took={ArmFitted: Took(_arm_in, undoable=True, told=said("arm-was-fitted"))},
        heeds_zero=False,
    ),
    Stage(
        "power-height",
        before="prepare",
        when=_height_asked,
        shows=Shows("prepare", _height_says, _height_buttons, cautions=_height_cautions),
        commands={"height-set": Handler(height_set), "restarted": Handler(restart.unread)},
        took={HeightSet: Took(_height, undoable=True, told=said("height-was-set"))},
        heeds_zero=False,
    ),
)
