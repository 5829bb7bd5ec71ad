"""A proving sweep that fits a swung ram: whether it is swung, asked before anything is made of it.

Confirmed, it is used at once. Where nobody is sure it is named, and used if it comes again.
"""

from dataclasses import dataclass, replace

from daq.audit.asked import chosen
from daq.audit.events import Data, OfStage
from daq.audit.facts import certain
from daq.audit.folding import go
from daq.audit.held.move import Asked
from daq.audit.input import Input
from daq.audit.questions import Question
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.stages.sweep.done import finished
from daq.audit.stages.sweep.ram_asked import KNOCKED, NOT_SURE, USE, RamAsked
from daq.audit.stages.sweep.reduce import reduce
from daq.audit.state import Job
from daq.audit.views.asking import answers, question
from daq.words import Said, said


@dataclass(frozen=True)
class RamAnswered(OfStage):
    """What was answered."""

    key: str


def _answered(job: Job, given: Input) -> tuple[Data, ...]:
    """The sweep as it was read, of a head that is what it was said to be."""
    told = RamAnswered(chosen(certain(job.asked).question, given))
    after, reads = _judged(job, told), job.reads
    return told, *finished(after, reduce(after, reads.taken, reads.seconds), settled=told.key)


def _asked(job: Job, data: RamAsked) -> Job:
    question = Question(data.said, (USE, KNOCKED, NOT_SURE))
    return replace(go(job, data.next), asked=Asked(question), head=job.head.naming((data.guess,)))


def _judged(job: Job, data: RamAnswered) -> Job:
    return job if data.key != USE.key else replace(job, head=job.head.taking(job.head.named))


def _asked_detail(job: Job, data: RamAsked) -> tuple[Said, ...]:
    return (data.said,)


def _answered_detail(job: Job, data: RamAnswered) -> tuple[Said, ...]:
    return (said("row-surmise", key=data.key),)


STAGE = Stage(
    "final-ram",
    shows=Shows("final", question, answers),
    commands={"answer": Handler(_answered)},
    took={
        RamAsked: Took(_asked, told=said("ram-was-asked-about"), detail=_asked_detail),
        RamAnswered: Took(_judged, told=said("surmise-was-answered"), detail=_answered_detail),
    },
)
