"""The one instruction of each stage: a title, a sentence or two, and notes."""

from dataclasses import replace

from daq.audit.stages import STAGES
from daq.audit.state import Job
from daq.audit.views.by_kind import as_it_was
from daq.audit.views.places import at, next_place
from daq.audit.views.step import Wording
from daq.words import said


def instruction(job: Job) -> Wording:
    """The instruction for the stage the audit stands at."""
    shows = STAGES[job.step].shows
    usual = shows.says(job)
    return _down_again(job, usual) if job.gauge.lifted and shows.lowered(job) else usual


def _down_again(job: Job, usual: Wording) -> Wording:
    """After a touch test in mid-audit: what was read before counts on the gauge as it was set."""
    place = next_place(job)
    title = said("down-again-at", at=at(place)) if place else said("down-again")
    then = said("and-then", first=usual.title or "", next=usual.detail or "")
    return replace(usual, title=title, detail=said("and-then", first=as_it_was(job), next=then))
