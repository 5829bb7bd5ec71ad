"""A question on the screen, and the buttons that answer it."""

from daq.audit.state import Job
from daq.audit.views.step import Action, Wording
from daq.words import Said, said


def question(job: Job) -> Wording:
    """What is asked; nothing is touched meanwhile."""
    say = job.asked.question.said if job.asked is not None else None
    loose = job.axis is not None and job.axis in job.loose
    return Wording(_at_large(say), said("hands-off-until") if loose else said("turn-nothing-until"))


def _at_large(say: Said | None) -> Said | None:
    """A question in nine words at most: what is longer stands in full beside its answers."""
    match say:
        case Said("went-other-way"):
            return said("at-large-other-way")
        case Said("spot-like-another", of):
            return said("at-large-like-another", other=of["other"])
        case Said("drift-asked"):
            return said("at-large-drift")
    return say


def answers(job: Job) -> list[Action]:
    """A button for each answer."""
    given = job.asked.question.answers if job.asked is not None else ()
    return [Action("answer", one.said, {"key": one.key}, primary=one.usual) for one in given]
