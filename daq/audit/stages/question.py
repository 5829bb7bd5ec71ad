"""A question about the parked reading or an early stop, to be answered first."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.anytime.zero import answered
from daq.audit.asked import chosen, is_to_come_back
from daq.audit.facts import as_one, as_seen, axis_of, began_at, points, result_like
from daq.audit.folding import go, leave, seen_at, values
from daq.audit.head import on_the_work, standing
from daq.audit.held.move import MoveBase
from daq.audit.input import Input, Refused
from daq.audit.next_move import after_sweep, sweep_next
from daq.audit.parts import AxisResult, Next
from daq.audit.questions import ON_PURPOSE, PRESS_AGAIN, TURN_ON, Answer
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.stop_at import ready, stop_for
from daq.audit.views.asking import question
from daq.audit.views.common import heed_turning, stop_turning, tight_now
from daq.audit.views.step import Action, ByHand, Do, Wording
from daq.audit.views.to_go import turn
from daq.squaring import whereabouts
from daq.squaring.story import Happened, Seen, Story, then
from daq.words import Axis, Both, Position, Said


def answer(job: Job, given: Input) -> tuple[e.Data, ...]:
    """What follows from the answer to the question on the screen."""
    asked = job.asked
    if asked is None or (job.base is None and asked.zeroed is None):
        raise Refused("nothing-asked")
    key = chosen(asked.question, given)
    if asked.zeroed is not None:
        return answered(job, key)
    same = e.Answered(
        question=asked.question.said.code,
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
    if key in (ON_PURPOSE, PRESS_AGAIN):
        raise Refused("stop-answered-not-pressed")
    if key == "sweep-again":
        return (replace(same, why=asked.question.said, next=sweep_next(job)),)
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


def _other_way(job: Job, same: e.Answered) -> e.Answered:
    """The spots beside the first exchange their readings; that axis's difference changes sign."""
    axis = axis_of(job)
    flipped = result_like(job, axis, -job.axes.results[axis].d_mm, job.axes.results[axis])
    known = points(whereabouts.relabel(job.circle.known, began_at(job)))
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


def _relabelled(
    sweep: e.SweepDone, axis: Axis, flipped: AxisResult, start: Position
) -> e.SweepDone:
    swept = whereabouts.relabel({p.position: p.pushed_mm for p in sweep.points}, start)
    return replace(
        sweep,
        points=points(swept),
        results=sweep.results.put(axis, flipped),
        slopes=sweep.slopes.put(axis, -sweep.slopes[axis]),
    )


def _zero_admitted(job: Job, same: e.Answered) -> e.Answered:
    """Every remembered value shifts by what this spot shifted; differences stand."""
    base = job.base
    if base is None or base.position is None:
        raise Refused("not-parked")
    shift = job.setup.gauge.pushed(base.mean_mm) - job.circle.known[base.position]
    known = {p: m + shift for p, m in job.circle.known.items()}
    free = None if job.gauge.free_pushed_mm is None else job.gauge.free_pushed_mm + shift
    changed = replace(same, points=points(known), free_pushed_mm=free)
    return _carry_on(job, changed, then(job.head.story, Happened("zeroed")))


def _carry_on(job: Job, changed: e.Answered, before: Story) -> e.Answered:
    """The stop-at after all, from what was true before and what is remembered now."""
    base = job.base
    if base is None or base.position is None:
        raise Refused("not-parked")
    sweep = changed.sweep
    told = () if sweep is None else as_seen(changed.points, sweep)
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


def _says(job: Job) -> Wording:
    asks = question(job)
    if job.stop is not None and is_to_come_back(job):
        return Wording(asks.title, job.stop.approach)
    return asks


def _buttons(job: Job) -> list[Action]:
    answers = job.asked.question.answers if job.asked else ()
    all_of = [_button(each) for each in answers]
    # Whether it was zeroed is to be known before anything else is done.
    return all_of if job.zero_asked is not None else [*all_of, *tight_now(job)]


def _button(one: Answer) -> Action:
    """A button of its own where the gauge has to be read as it stands now."""
    if one.key in (ON_PURPOSE, PRESS_AGAIN):
        meant = {"on_purpose": True} if one.key == ON_PURPOSE else {}
        return Action("stopped", one.said, meant, primary=one.usual)
    return Action("answer", one.said, {"key": one.key}, primary=one.usual)


def _hands(job: Job) -> Do:
    back = job.stop is not None and is_to_come_back(job)
    return turn(job, job.stop) if back and job.stop is not None else ByHand("nothing")


def _cautions(job: Job) -> tuple[Said, ...]:
    # Asked in the middle of a move, hands are on the adjuster still.
    return heed_turning(job) if job.stop is not None else ()


def _halt(job: Job) -> tuple[Said, Said | None] | None:
    return stop_turning(job) if job.stop is not None else None


def _answered(job: Job, data: e.Answered) -> Job:
    """What is remembered stands as the answer left it."""
    if data.key == TURN_ON:
        return replace(go(job, data.next), asked=None)
    story, sweeps = job.head.story, job.sweeps
    if data.sweep is not None:
        sweeps = replace(sweeps, done=(*sweeps.done[:-1], data.sweep))
        before = story[: job.head.swept_from]
        story = (*before, *as_seen(data.points, data.sweep))
    if data.key in ("zeroed", "set-anew"):
        story = then(story, Happened("zeroed"))
    if data.stop is not None and job.base is not None:
        place = job.base.position
        told = [p for p in data.points if p.position == place]
        story = (
            (*story, *seen_at(place, job.setup.gauge.pushed(job.base.mean_mm))) if told else story
        )
    return replace(
        leave(job, data.next),
        sweeps=sweeps,
        gauge=replace(job.gauge, free_pushed_mm=data.free_pushed_mm),
        circle=replace(
            job.circle,
            known=values(data.points),
            shown={p.position: job.setup.gauge.face(p.pushed_mm) for p in data.points},
        ),
        axes=replace(job.axes, results=data.results, whole=data.whole),
        parked=MoveBase(job.base, data.stop) if data.stop and job.base else None,
        reads=replace(job.reads.anew(), why=data.why or ""),
        head=replace(job.head, story=story),
    )


STAGES = (
    Stage(
        "question",
        shows=Shows("square", _says, _buttons, _hands, _cautions, _halt),
        commands={"answer": Handler(answer), "stopped": "move", "tightened": "tighten"},
        took={e.Answered: Took(_answered, undoable=True)},
    ),
)
