"""What is asked where a pair does not fit, and how it may be answered."""

from collections.abc import Sequence

from daq.audit.guess import LIKELY, is_named, is_ram, swung
from daq.audit.questions import Answer, Question
from daq.audit.state import Job
from daq.squaring.surmise import Guess, Kind
from daq.words import said

USE = Answer("use", said("answer-use-it"))
KNOCKED = Answer("knocked", said("answer-was-knocked"))
READ_AGAIN = Answer("check-again", said("answer-check-again"))
_ASKED: dict[Kind, str] = {
    "exchanged": "were-spots-exchanged",
    "other-way": "were-spots-exchanged",
    "zeroed": "was-it-zeroed",
}
"""What is asked about besides a ram; read once more it shows, or does not."""


def question(job: Job, guesses: Sequence[Guess]) -> Question | None:
    """What is to be asked before anything is made of it; None where that is plain.

    What was asked about once already and comes again is not asked about.
    """
    first = guesses[0]
    if is_named(job, first):
        return None
    if is_ram(first):
        return Question(swung("is-ram-swung", first), (USE, KNOCKED, READ_AGAIN))
    code = _ASKED.get(first.kind)
    if code is None or first.share < LIKELY:
        return None
    return Question(said(code), (READ_AGAIN, KNOCKED))
