"""The question whether the ram is swung, where a proving sweep fits nothing else as well."""

from dataclasses import dataclass

from daq.audit.events import OfStage
from daq.audit.guess import angle, way
from daq.audit.parts import Next
from daq.audit.questions import Answer
from daq.squaring.surmise import Guess
from daq.words import Said, said

USE = Answer("use", said("answer-use-it"))
KNOCKED = Answer("knocked", said("answer-was-knocked"))
NOT_SURE = Answer("not-sure", said("answer-not-sure"))


@dataclass(frozen=True)
class RamAsked(OfStage):
    """The sweep does not fit what was done, unless the ram is swung: it waits."""

    guess: Guess
    said: Said
    next: Next


def asked(guess: Guess) -> RamAsked:
    """Ask whether it is swung as far as is likely."""
    say = said("is-ram-swung", angle=angle(guess), way=way(guess))
    return RamAsked(guess, say, Next("final-ram"))
