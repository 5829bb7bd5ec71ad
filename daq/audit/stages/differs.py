"""What was turned is not as it was known to be: a person says why, before anything is learned."""

from dataclasses import dataclass, replace
from typing import Literal

from daq.audit.events import Data, OfStage
from daq.audit.facts import certain, first_read
from daq.audit.folding import begun, go
from daq.audit.held.sweeps import ReadSoFar, Sweeps
from daq.audit.input import Input
from daq.audit.next_move import after_sweep
from daq.audit.parts import AxisResult, Next, Whole
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.step import Action, Wording
from daq.squaring.story import Happened
from daq.words import Both, Said, said

Why = Literal["misread", "changed", "not-half"]


@dataclass(frozen=True)
class SayWhy:
    """The payload of `differs`."""

    why: Why


@dataclass(frozen=True)
class Differed(OfStage):
    """Why what was turned is not as it was known to be.

    "misread": its mark, or nobody knows: nothing is learned, and where the mark points is no
    longer taken for known. "changed": it is learned anew from this audit. "not-half": it was not
    turned just half round, so that the two sweeps are no pair: `again` says why another is wanted,
    and `results`, `whole` are those of the sweep before.
    """

    why: Why
    next: Next
    again: Said | None = None
    results: Both[AxisResult] | None = None
    whole: Whole | None = None


def answer(job: Job, given: Input) -> tuple[Data, ...]:
    """What follows from it."""
    why = given.payload(SayWhy).why
    done = certain(job.sweeps.latest)
    if why != "not-half":
        return (Differed(why, after_sweep(job, done.results)),)
    before = certain(_unpaired(job).latest)
    again = said("not-half-round", turned=done.turned)
    return (Differed(why, first_read(job), again, before.results, before.whole),)


def _says(job: Job) -> Wording:
    # By how much stands in the sweep's own message.
    return Wording(said("differs-why", of=certain(job.sweeps.latest).turned))


def _buttons(job: Job) -> list[Action]:
    of = certain(job.sweeps.latest).turned
    # Of the three it alone changes nothing that is known: an early press does no harm.
    misread = Action("differs", said("was-misread"), {"why": "misread"}, primary=True)
    changed = Action("differs", said("was-changed", of=of), {"why": "changed"})
    no_pair = Action("differs", said("was-not-half", of=of), {"why": "not-half"})
    return [misread, changed, no_pair]


def _differed(job: Job, data: Differed) -> Job:
    sweeps, done = job.sweeps, certain(job.sweeps.latest)
    if data.why == "changed":
        return replace(go(job, data.next), sweeps=sweeps.knowing(certain(done.differs)))
    lost = replace(sweeps, laid=None) if done.turned == "ring" else replace(sweeps, clamped=None)
    if data.why == "misread":
        return replace(go(job, data.next), sweeps=lost)
    alone = replace(lost, done=_unpaired(job).done, added=(), parked_adds_mm={})
    after = replace(
        begun(go(job, data.next)),
        sweeps=alone,
        reads=ReadSoFar(why=data.again or ""),
        head=job.head.then(Happened("unknown")),
    )
    results = certain(data.results)
    return replace(after, axes=replace(job.axes, results=results, whole=data.whole))


def _unpaired(job: Job) -> Sweeps:
    """The sweeps without the pair: the latest one counts no more."""
    *before, last = job.sweeps.done
    return replace(job.sweeps, done=(*before, replace(last, usable=False)))


def _detail(job: Job, data: Differed) -> tuple[Said, ...]:
    """What was answered, and why another sweep is wanted."""
    answer = said("row-differs", why=data.why)
    return (answer,) if data.again is None else (answer, data.again)


STAGES = (
    Stage(
        "differs",
        shows=Shows("square", _says, _buttons),
        commands={"differs": Handler(answer)},
        took={
            Differed: Took(
                _differed, undoable=True, told=said("said-why-it-differs"), detail=_detail
            )
        },
    ),
)
