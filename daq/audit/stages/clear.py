"""The arm comes out, the wrench off the drawbar."""

from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.facts import first_read, is_look, kind_of, word_of
from daq.audit.folding import go
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Anew, Next
from daq.audit.setup import AxisSetup
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views import decides, rounds
from daq.audit.views.by_kind import power_for_drawbar
from daq.audit.views.common import FIRST, again, turned
from daq.audit.views.places import low_by
from daq.audit.views.remarks import remarks
from daq.audit.views.step import Action, Choice, Field, Wording
from daq.audit.views.whole import notes
from daq.words import Axis, Said, said

_PUT_BACK: Final = (said("put-back"), said("set-back"))


def cleared(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The arm is out and the wrench off the drawbar."""
    given.payload(Nothing)
    return (e.Cleared(),)


@dataclass(frozen=True)
class Square:
    """The payload of `square`: where the arm was meanwhile."""

    arm: Literal["in", "out"]


@dataclass(frozen=True)
class SquareWanted(e.OfStage):
    """A check alone found the head out, and it is squared now, in the same audit."""

    next: Next


def square(job: Job, given: Input) -> tuple[e.Data, ...]:
    """Squared now: the sweep is the as-found of what follows."""
    arm = given.payload(Square).arm
    axis = _could_be_squared(job)
    if axis is None:
        raise Refused("nothing-to-square")
    if arm == "in":
        return (SquareWanted(Next("park", axis)),)
    # Clamped anew, it sweeps another circle: prepared, touched and swept before it is parked.
    anew = Anew("again", first_read(job))
    again = e.SweepWanted(
        said("arm-had-been-out"), Next("prepare"), anew=anew, laid=job.sweeps.laid
    )
    return SquareWanted(Next(job.step)), again


def _could_be_squared(job: Job) -> Axis | None:
    return job.ahead.squares if job.ahead is not None else None


def _says(job: Job) -> Wording:
    if job.check is not None and job.round is not None:
        drawbar = job.setup.machine.drawbar
        out = said("arm-out", drawbar=drawbar)
        title = out if is_look(job) else said("gauge-out", drawbar=drawbar)
        return Wording(title, notes=rounds.sees(job))
    proof = job.sweeps.as_left or job.sweeps.latest
    if proof is not None and word_of(proof) == "in":
        stands = said("is-inside") if job.moves.made else said("leave-inside")
    elif proof is not None and word_of(proof) == "close":
        stands = said("leave-close")
    else:
        stands = _found_out(job) if _could_be_squared(job) else said("leave-out")
    fixed = tuple(said("report-only", axis=spec.say) for spec in _not_set(job))
    out = said("arm-out", drawbar=job.setup.machine.drawbar)
    return Wording(out, stands, (*notes(job), *fixed, *remarks(job), *_PUT_BACK))


def _found_out(job: Job) -> Said:
    """Which axes a check alone found out, which side of each is low, and by how much."""
    out = [axis for axis, result in job.axes.results.items() if result.word == "out"]
    return said("found-out", axes=tuple(low_by(job, axis) for axis in out))


def _not_set(job: Job) -> list[AxisSetup]:
    """The axes that are out and have nothing to set them with."""
    machine = job.setup.machine
    axes = [a for a, result in job.axes.results.items() if result.word != "in"]
    return [machine.axis(a) for a in axes if machine.axis(a).adjust.kind == "none"]


def _buttons(job: Job) -> list[Action]:
    machine = job.setup.machine
    out = said("cleared", drawbar=machine.drawbar)
    done = out if kind_of(job) == "head" else said("cleared-gauge", drawbar=machine.drawbar)
    now = [_square(job)] if _could_be_squared(job) else []
    return [
        Action("cleared", done, primary=True),
        *now,
        *decides.gaining(job, [_again(job), *turned(job)]),
    ]


def _again(job: Job) -> Action:
    once_more = again(job)
    return replace(once_more, fields=(*once_more.fields, _arm(job)))


def _square(job: Job) -> Action:
    return Action("square", said("square-now"), fields=(_arm(job),))


def _arm(job: Job) -> Field:
    """Told to take it out, a person may have done so, and the power may be back."""
    where = (Choice("in", said("arm-still-in")), Choice("out", said("arm-was-taken-out")))
    return Field("arm", said("arm-is-where", of=kind_of(job)), "choice", choices=where)


def _cautions(job: Job) -> tuple[Said, ...]:
    """A power drawbar lets go of the arm with power alone; all others before it is back."""
    return *(power_for_drawbar(job.setup.machine) or (said("before-power"),)), FIRST


def _cleared(job: Job, data: e.Cleared) -> Job:
    """The arm is out."""
    return replace(go(job, data.next), arm_in=False)


def _squared(job: Job, data: SquareWanted) -> Job:
    """On to its first move; why it was opened stays."""
    return replace(go(job, data.next), moves=replace(job.moves, squaring_asked=True))


STAGES = (
    Stage(
        "clear",
        shows=Shows("clear", _says, _buttons, cautions=_cautions),
        commands={
            "cleared": Handler(cleared),
            "again": Handler(wish.again),
            "square": Handler(square),
        },
        took={
            e.Cleared: Took(_cleared),
            SquareWanted: Took(_squared, undoable=True, told=said("squaring-was-wanted")),
        },
        # A contact lifted off as the arm comes out is no zero.
        heeds_zero=False,
    ),
)
