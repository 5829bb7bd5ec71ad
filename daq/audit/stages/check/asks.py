"""What is asked where a pair does not fit, and how it may be answered."""

from collections.abc import Sequence

from daq.audit.guess import LIKELY, angle, is_named, is_ram, way
from daq.audit.questions import Answer, Question
from daq.audit.state import Job
from daq.squaring.surmise import Guess, Kind
from daq.words import Said, said

USE = Answer("use", said("answer-use-it"))
KNOCKED = Answer("knocked", said("answer-was-knocked"))
READ_AGAIN = Answer("check-again", said("answer-check-again"))
_ASKED: dict[Kind, Said] = {
    "exchanged": said("were-spots-exchanged"),
    "other-way": said("were-spots-exchanged"),
    "zeroed": said("was-it-zeroed"),
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
        asked = said("is-ram-swung", angle=angle(first), way=way(first))
        return Question(asked, (USE, KNOCKED, READ_AGAIN))
    asks = _ASKED.get(first.kind)
    if asks is None or first.share < LIKELY:
        return None
    return Question(asks, (READ_AGAIN, KNOCKED))
