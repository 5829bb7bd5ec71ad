"""The answer to a question, as it comes."""

from dataclasses import dataclass

from daq.audit.input import Input, Refused
from daq.audit.questions import PRESS_AGAIN, Question
from daq.audit.state import Job
from daq.settings import quoted


@dataclass(frozen=True)
class AnswerChosen:
    """The payload of `answer`."""

    key: str


def chosen(question: Question, given: Input) -> str:
    """Return the key of the answer that was given.

    Raises:
        Refused: it is none of the question's.
    """
    key = given.payload(AnswerChosen).key
    if key not in [answer.key for answer in question.answers]:
        allowed = ", ".join(answer.key for answer in question.answers)
        raise Refused("no-such-answer", found=quoted(key), allowed=allowed)
    return key


def is_to_come_back(job: Job) -> bool:
    """Whether a turn went too far and is to be brought back: hands stay on the adjuster."""
    answers = job.asked.question.answers if job.asked is not None else ()
    return any(answer.key == PRESS_AGAIN for answer in answers)
