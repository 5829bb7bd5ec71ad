"""A sweep that does not come back as far as it may: whether the drift is a steady one, asked once.

Where nothing else speaks against the sweep. The fit takes a steady drift out; said to be one, the
sweep stands with what is in doubt of it, and so does each later one that drifts as fast.
"""

from dataclasses import dataclass, replace

from daq.audit.asked import chosen
from daq.audit.events import Data, OfStage, SweepDone
from daq.audit.facts import certain, narrowest, unit_of
from daq.audit.folding import go
from daq.audit.held.move import Asked
from daq.audit.held.sweeps import ReadSoFar
from daq.audit.input import Input
from daq.audit.parts import Next
from daq.audit.questions import Answer, Question
from daq.audit.reading import orders
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.stages.sweep.done import finished
from daq.audit.stages.sweep.reduce import reduce, return_limit
from daq.audit.state import Job
from daq.audit.views.afterwards import fine
from daq.audit.views.asking import answers, question
from daq.checks.sweep.steady import Walked
from daq.words import Figure, Said, said

ANEW = Answer("sweep-again", said("answer-sweep-anew"))
STEADY = Answer("steady", said("answer-steady"))


@dataclass(frozen=True)
class DriftAsked(OfStage):
    """The return reading is past its limit, and all else fits a drift: the sweep waits."""

    walked: Walked
    said: Said
    next: Next


@dataclass(frozen=True)
class DriftJudged(OfStage):
    """Whether it is steady, by whoever stands there: how fast, mm/s, or None where it is not."""

    mm_per_s: float | None


def asked(job: Job, done: SweepDone, reads: ReadSoFar) -> DriftAsked | None:
    """The question about a sweep, if only its return reading speaks against it.

    Past the tolerance itself too little would be left of it: then something did move.
    """
    against = [flaw.code for flaw in done.findings if flaw.blocking]
    if against != ["return-error"] or abs(done.return_error_mm) > narrowest(job):
        return None
    walked = _walked(done, reads)
    say = walked.asked(return_limit(job), unit_of(job))
    return DriftAsked(walked, say, Next(f"{job.sweeps.purpose}-drift"))


def _walked(done: SweepDone, reads: ReadSoFar) -> Walked:
    return Walked(done.return_error_mm, orders(reads.taken)[-1])


def _answered(job: Job, given: Input) -> tuple[Data, ...]:
    """The sweep as it was read, its drift taken for what it was said to be."""
    steady = chosen(certain(job.asked).question, given) == STEADY.key
    reads = job.reads
    walked = _walked(reduce(job, reads.taken, reads.seconds), reads)
    judged = DriftJudged(walked.mm_per_s if steady else None)
    after = _judged(job, judged)
    return judged, *finished(after, reduce(after, reads.taken, reads.seconds))


def _asked(job: Job, data: DriftAsked) -> Job:
    return replace(go(job, data.next), asked=Asked(Question(data.said, (STEADY, ANEW))))


def _judged(job: Job, data: DriftJudged) -> Job:
    """So fast a drift is steady for the rest of the audit; one that is not says nothing of it."""
    if data.mm_per_s is None:
        return job
    return replace(job, sweeps=replace(job.sweeps, steady_mm_s=data.mm_per_s))


def _asked_detail(job: Job, data: DriftAsked) -> tuple[Said, ...]:
    """What was asked, how far it walked and in how long."""
    walked = fine(job, data.walked.mm)
    return (data.said, said("row-walked", by=walked, seconds=Figure(data.walked.seconds, 0)))


def _judged_detail(job: Job, data: DriftJudged) -> tuple[Said, ...]:
    """How fast, where it was said to be steady."""
    if data.mm_per_s is None:
        return (said("row-not-steady"),)
    return (said("row-steady", by=fine(job, 60.0 * data.mm_per_s)),)


FOUND, LEFT = (
    Stage(
        f"{part}-drift",
        shows=Shows(part, question, answers),
        commands={"answer": Handler(_answered)},
        took={
            DriftAsked: Took(_asked, told=said("drift-was-asked-about"), detail=_asked_detail),
            DriftJudged: Took(_judged, told=said("drift-was-judged"), detail=_judged_detail),
        }
        if part == "as-found"
        else {},
    )
    for part in ("as-found", "final")
)
