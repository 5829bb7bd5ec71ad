"""The answer to a question, as it comes."""

from dataclasses import dataclass

from daq.audit.input import Input, Refused
from daq.audit.questions import Question
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
