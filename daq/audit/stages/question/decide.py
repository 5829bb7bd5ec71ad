"""What follows from the answer to the question a parked reading or an early stop raised."""

from dataclasses import dataclass, replace

from daq.audit.anytime.zero import answered
from daq.audit.events import Answered, Data, SweepDone
from daq.audit.facts import as_one, as_seen, axis_of, points, result_like
from daq.audit.head import standing
from daq.audit.input import Input, Refused
from daq.audit.next_move import after_sweep, sweep_next
from daq.audit.parts import ON_PURPOSE, TURN_ON, AxisResult, Next
from daq.audit.stages.park.decide import began_at, ready, stop_for
from daq.audit.stages.sweep.reduce import on_the_work
from daq.audit.state import Job
from daq.settings import quoted
from daq.squaring import parked
from daq.squaring.story import Happened, Seen, Story, then
from daq.words import Axis, Both, Position


@dataclass(frozen=True)
class AnswerChosen:
    """The payload of `answer`."""

    key: str


def answer(job: Job, given: Input) -> tuple[Data, ...]:
    """What follows from the answer to the question on the screen."""
    key = given.payload(AnswerChosen).key
    asked = job.asked
    if asked is None or (job.base is None and asked.zeroed is None):
        raise Refused("nothing-asked")
    question = asked.question
    if key not in [a.key for a in question.answers]:
        allowed = ", ".join(a.key for a in question.answers)
        raise Refused("no-such-answer", found=quoted(key), allowed=allowed)
    if asked.zeroed is not None:
        return answered(job, key)
    same = Answered(
        question=question.said.code,
        key=key,
        why=None,
        sweep=None,
        free_pushed_mm=job.gauge.free_pushed_mm,
        points=points(dict(job.circle.known)),
        results=Both.of(job.axes.results.__getitem__),
        stop=None,
        next=Next("park", job.axis),
        whole=job.axes.whole,
    )
    if key == TURN_ON:
        return (replace(same, stop=job.stop, next=Next("move", job.axis)),)
    if key == ON_PURPOSE:
        raise Refused("stop-answered-not-pressed")
    if key == "sweep-again":
        return (replace(same, why=question.said, next=sweep_next(job)),)
    if key == "check-again":
        return (replace(same, next=Next("check", job.axis)),)
    if key == "other-way":
        return (_other_way(job, same),)
    if key == "zeroed":
        return (_zero_admitted(job, same),)
    if key == "set-anew":
        # Lower or higher than before, but it would read the same in the air.
        free_mm = job.gauge.free_pushed_mm
        return (replace(_zero_admitted(job, same), free_pushed_mm=free_mm),)
    return (same,)


def _other_way(job: Job, same: Answered) -> Answered:
    """The spots beside the first exchange their readings; that axis's difference changes sign."""
    axis = axis_of(job)
    flipped = result_like(job, axis, -job.axes.results[axis].d_mm, job.axes.results[axis])
    known = points(parked.relabel(job.circle.known, began_at(job)))
    sweep = _relabelled(job.sweeps.done[-1], axis, flipped, began_at(job))
    sweep = replace(
        sweep, whole=as_one(job, sweep.results), effects=on_the_work(job, sweep.results)
    )
    results = same.results.put(axis, flipped)
    whole = as_one(job, results)
    changed = replace(same, points=known, results=results, sweep=sweep, whole=whole)
    follows = after_sweep(job, results)
    if follows != Next("park", axis):
        return replace(changed, next=follows)
    return _carry_on(job, changed, job.head.story[: job.head.swept_from])


def _relabelled(sweep: SweepDone, axis: Axis, flipped: AxisResult, start: Position) -> SweepDone:
    swept = parked.relabel({p.position: p.pushed_mm for p in sweep.points}, start)
    return replace(
        sweep,
        points=points(swept),
        results=sweep.results.put(axis, flipped),
        slopes=sweep.slopes.put(axis, -sweep.slopes[axis]),
    )


def _zero_admitted(job: Job, same: Answered) -> Answered:
    """Every remembered value shifts by what this spot shifted; differences stand."""
    base = job.base
    if base is None or base.position is None:
        raise Refused("not-parked")
    shift = job.setup.gauge.pushed(base.mean_mm) - job.circle.known[base.position]
    known = {p: m + shift for p, m in job.circle.known.items()}
    free = None if job.gauge.free_pushed_mm is None else job.gauge.free_pushed_mm + shift
    changed = replace(same, points=points(known), free_pushed_mm=free)
    return _carry_on(job, changed, then(job.head.story, Happened("zeroed")))


def _carry_on(job: Job, changed: Answered, before: Story) -> Answered:
    """The stop-at after all, from what was true before and what is remembered now."""
    base = job.base
    if base is None or base.position is None:
        raise Refused("not-parked")
    told = as_seen(changed.points) if changed.sweep is not None else ()
    seen = Seen(base.position, job.setup.gauge.pushed(base.mean_mm))
    put_right = replace(
        job,
        head=replace(job.head, story=before),
        axes=replace(job.axes, results=changed.results),
    )
    at = standing(put_right, (*told, seen))
    return replace(
        changed, stop=stop_for(put_right, base.position, base.mean_mm, at), next=ready(job)
    )
