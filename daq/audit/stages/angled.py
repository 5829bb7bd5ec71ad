"""After angled work: a head still swung is set back by its scale before arm and gauge go on.

Under a head that is swung through degrees nothing may hang. Set back by eye and scale it is not
as it was found: no sweep says any more how it kept square.
"""

from dataclasses import dataclass, replace

from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import cracking, isolate
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Wording
from daq.words import Said, said


@dataclass(frozen=True)
class Angled:
    """The payload of `angled`: whether the head is still at an angle."""

    still: bool


@dataclass(frozen=True)
class AngleAsked(OfStage):
    """Whether the head was still at an angle when the audit was opened."""

    still: bool
    next: Next


@dataclass(frozen=True)
class SetBack(OfStage):
    """The head was set back by its scale, and is tight."""

    next: Next


def angled(job: Job, given: Input) -> tuple[Data, ...]:
    """Still at an angle it is set back first."""
    still = given.payload(Angled).still
    return (AngleAsked(still, Next("set-back" if still else "prepare")),)


def set_back(job: Job, given: Input) -> tuple[Data, ...]:
    """The head is at its scale's zero, and tight."""
    given.payload(Nothing)
    return (SetBack(Next("prepare")),)


def _asked(job: Job, data: AngleAsked) -> Job:
    return go(job, data.next)


def _set_back(job: Job, data: SetBack) -> Job:
    """A sweep from now on is not as found."""
    sweeps = replace(job.sweeps.spoilt(loosened=True), set_back=True)
    return replace(go(job, data.next), loose=frozenset(), sweeps=sweeps)


def _answers(job: Job) -> list[Action]:
    return [
        Action("angled", said("still-angled"), {"still": True}, primary=True),
        Action("angled", said("angle-is-back"), {"still": False}),
    ]


def _cautions(job: Job) -> tuple[Said, ...]:
    axes = job.setup.machine.axes.values()
    return (isolate(job.setup.machine), *cracking(*axes), said("arm-stays-out"), FIRST)


def _detail(job: Job, data: AngleAsked) -> tuple[Said, ...]:
    """Whether it was."""
    return (said("row-angled", still="yes" if data.still else "no"),)


STAGES = (
    Stage(
        "angled",
        shows=Shows(
            "prepare",
            just(Wording(said("angle-asked"), said("angle-asked-why"))),
            _answers,
            cautions=just((FIRST,)),
        ),
        commands={"angled": Handler(angled)},
        took={
            AngleAsked: Took(_asked, undoable=True, told=said("angle-was-asked"), detail=_detail)
        },
        heeds_zero=False,
    ),
    Stage(
        "set-back",
        shows=Shows(
            "prepare",
            just(Wording(said("set-back-first"), said("set-back-how"))),
            just([Action("set-back", said("is-set-back"), primary=True)]),
            cautions=_cautions,
        ),
        commands={"set-back": Handler(set_back)},
        took={SetBack: Took(_set_back, told=said("head-was-set-back"))},
        heeds_zero=False,
    ),
)
