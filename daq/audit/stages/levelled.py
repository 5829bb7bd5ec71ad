"""The machine was moved: it stands on its feet, level and at rest, before its head is swept."""

from dataclasses import dataclass

from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import isolate
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Wording
from daq.words import said


@dataclass(frozen=True)
class Levelled(OfStage):
    """Every foot carries, the machine is level, and it has settled."""

    next: Next


def levelled(job: Job, given: Input) -> tuple[Data, ...]:
    """The machine stands as it is to stay."""
    given.payload(Nothing)
    return (Levelled(Next("prepare")),)


def _levelled(job: Job, data: Levelled) -> Job:
    """On to its head."""
    return go(job, data.next)


STAGES = (
    Stage(
        "levelled",
        shows=Shows(
            "prepare",
            just(Wording(said("level-first"), said("level-first-how"))),
            just([Action("levelled", said("is-level"), primary=True)]),
            cautions=lambda job: (isolate(job.setup.machine), said("jack-by-manual"), FIRST),
        ),
        commands={"levelled": Handler(levelled)},
        took={Levelled: Took(_levelled, undoable=True, told=said("machine-was-levelled"))},
        heeds_zero=False,
    ),
)
