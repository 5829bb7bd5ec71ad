"""A pair that does not fit is asked about: what seems to have happened is named, and answered."""

from dataclasses import dataclass, replace

from daq.audit.asked import chosen
from daq.audit.events import Data, OfStage
from daq.audit.facts import axis_of, certain
from daq.audit.folding import leave
from daq.audit.input import Input
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.stages.check.asks import READ_AGAIN, USE
from daq.audit.stages.check.decide import judged
from daq.audit.state import Job
from daq.audit.views.asking import answers, question
from daq.squaring.story import unread
from daq.squaring.surmise import Guess
from daq.words import Said, said


@dataclass(frozen=True)
class SurmiseAnswered(OfStage):
    """What was asked about a pair that did not fit, and what was answered.

    `next`: where the pair is read once more.
    """

    guess: Guess
    question: Said
    key: str
    next: Next | None = None


def _answer(job: Job, given: Input) -> tuple[Data, ...]:
    """The pair judged by what was answered, or read once more."""
    asked, guess = certain(job.asked).question, certain(job.head.named)
    key = chosen(asked, given)
    if key == READ_AGAIN.key:
        again = Next("check", axis_of(job))
        return (SurmiseAnswered(guess, asked.said, key, again),)
    told = SurmiseAnswered(guess, asked.said, key)
    return told, *judged(_answered(job, told), job.reads.taken, settled=key)


def _answered(job: Job, data: SurmiseAnswered) -> Job:
    """The head as it was answered to be; read again, its pair is as if it had not been taken."""
    if data.next is not None:
        # What the gauge's zero may have done is one of the guesses: it stays in the riddle.
        story = unread(job.head.story, len(job.reads.taken))
        return replace(leave(job, data.next), head=replace(job.head, story=story))
    if data.key == USE.key:
        return replace(job, head=job.head.taking(data.guess))
    return replace(job, head=replace(job.head, named=None))


def _detail(job: Job, data: SurmiseAnswered) -> tuple[Said, ...]:
    return data.question, said("row-surmise", key=data.key)


STAGE = Stage(
    "surmise",
    shows=Shows("square", question, answers),
    commands={"answer": Handler(_answer)},
    took={
        SurmiseAnswered: Took(
            _answered, undoable=True, told=said("surmise-was-answered"), detail=_detail
        )
    },
    # The pair is read: what it says does not hang on the zero any more.
    heeds_zero=False,
)
