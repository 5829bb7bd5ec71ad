"""A question on the screen, and the buttons that answer it."""

from daq.audit.state import Job
from daq.audit.views.step import Action, Wording
from daq.words import said


def question(job: Job) -> Wording:
    """What is asked; nothing is touched meanwhile."""
    say = job.asked.question.said if job.asked is not None else None
    loose = job.axis is not None and job.axis in job.loose
    return Wording(say, said("hands-off-until") if loose else said("turn-nothing-until"))


def answers(job: Job) -> list[Action]:
    """A button for each answer."""
    given = job.asked.question.answers if job.asked is not None else ()
    return [Action("answer", one.said, {"key": one.key}, primary=one.usual) for one in given]
