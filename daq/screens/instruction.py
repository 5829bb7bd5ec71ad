"""The one instruction of each stage: a title, a sentence or two, and notes."""

from dataclasses import replace

from daq.audit.stages import STAGES
from daq.audit.state import Job
from daq.audit.views.by_kind import as_it_was, contact_down
from daq.audit.views.places import at, next_place
from daq.audit.views.step import Wording
from daq.words import said


def instruction(job: Job) -> Wording:
    """The instruction for the stage the audit stands at."""
    shows = STAGES[job.step].shows
    usual = shows.says(job)
    return _down_again(job, usual) if job.gauge.lifted and shows.lowered(job) else usual


def _down_again(job: Job, usual: Wording) -> Wording:
    """After a touch test in mid-audit: what was read before counts on the gauge as it was set.

    Where arm and gauge were away, by hands that set a shim or between two sittings, it is set anew.
    """
    place, how = next_place(job), "anew" if job.gauge.put_on else "as-it-was"
    title = said("down-again-at", at=at(place), set=how) if place else said("down-again", set=how)
    down = contact_down(job) if job.gauge.put_on else as_it_was(job)
    then = said("and-then", first=usual.title or "", next=usual.detail or "")
    return replace(usual, title=title, detail=said("and-then", first=down, next=then))
