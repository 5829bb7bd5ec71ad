"""The arm comes out, the wrench off the drawbar."""

from dataclasses import replace
from typing import Final

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.facts import kind_of, word_of
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.setup import AxisSetup
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views import rounds
from daq.audit.views.common import FIRST, again, turned
from daq.audit.views.step import Action, Choice, Field, Wording
from daq.audit.views.whole import notes
from daq.words import Said, said

_PUT_BACK: Final = (said("put-back"), said("set-back"))


def cleared(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The arm is out and the wrench off the drawbar."""
    given.payload(Nothing)
    return (e.Cleared(),)


def _says(job: Job) -> Wording:
    if job.check is not None and job.round is not None:
        return Wording(said("gauge-out"), rounds.came_to(job.check, job.round.word))
    proof = job.sweeps.as_left or job.sweeps.latest
    if proof is not None and word_of(proof) == "in":
        stands = said("is-inside") if job.moves.made else said("leave-inside")
    elif proof is not None and word_of(proof) == "close":
        stands = said("leave-close")
    else:
        stands = said("leave-out")
    fixed = tuple(said("report-only", axis=spec.say) for spec in _not_set(job))
    out = said("arm-out", drawbar=job.setup.machine.drawbar)
    return Wording(out, stands, (*notes(job), *fixed, *_PUT_BACK))


def _not_set(job: Job) -> list[AxisSetup]:
    """The axes that are out and have nothing to set them with."""
    machine = job.setup.machine
    axes = [a for a, result in job.axes.results.items() if result.word != "in"]
    return [machine.axis(a) for a in axes if machine.axis(a).adjust.kind == "none"]


def _buttons(job: Job) -> list[Action]:
    machine = job.setup.machine
    out = said("cleared", drawbar=machine.drawbar)
    done = out if job.check is None else said("cleared-gauge")
    return [Action("cleared", done, primary=True), _again(job), *turned(job)]


def _again(job: Job) -> Action:
    """Told to take it out, a person may have done so, and the power may be back."""
    once_more = again(job)
    where = (Choice("in", said("arm-still-in")), Choice("out", said("arm-was-taken-out")))
    arm = Field("arm", said("arm-is-where", of=kind_of(job)), "choice", choices=where)
    return replace(once_more, fields=(*once_more.fields, arm))


def _cautions(job: Job) -> tuple[Said, ...]:
    """A power drawbar lets go of the arm with power alone; all others before it is back."""
    if job.setup.machine.drawbar == "power":
        return said("power-for-drawbar"), said("start-nothing"), FIRST
    return said("before-power"), FIRST


def _cleared(job: Job, data: e.Cleared) -> Job:
    """The arm is out."""
    return replace(go(job, data.next), arm_in=False)


STAGES = (
    Stage(
        "clear",
        shows=Shows("clear", _says, _buttons, cautions=_cautions),
        commands={"cleared": Handler(cleared), "again": Handler(wish.again)},
        took={e.Cleared: Took(_cleared)},
        # A contact lifted off as the arm comes out is no zero.
        heeds_zero=False,
    ),
)
