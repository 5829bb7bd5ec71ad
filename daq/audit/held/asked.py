"""A question that is open."""

from dataclasses import dataclass

from daq.audit.events import Zeroed
from daq.audit.parts import Question


@dataclass(frozen=True)
class Asked:
    """What is asked; `zeroed`: what follows if the gauge was zeroed, where that is the question."""

    question: Question
    zeroed: Zeroed | None = None
