"""A question about the parked reading or an early stop, to be answered first."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import as_seen
from daq.audit.folding import go, leave, seen_at, values
from daq.audit.held.move import Parked
from daq.audit.parts import ON_PURPOSE, TURN_ON, Answer
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.stages.question import decide
from daq.audit.state import Job
from daq.audit.views.common import heed_turning, stop_turning, tight_now
from daq.audit.views.step import Action, Wording
from daq.squaring.story import Happened, then
from daq.words import Said, said


def _says(job: Job) -> Wording:
    say = job.asked.question.said if job.asked is not None else None
    loose = job.axis is not None and job.axis in job.loose
    return Wording(say, said("hands-off-until") if loose else said("turn-nothing-until"))


def _buttons(job: Job) -> list[Action]:
    answers = job.asked.question.answers if job.asked else ()
    all_of = [_answer(each) for each in answers]
    # Whether it was zeroed is to be known before anything else is done.
    return all_of if job.zero_asked is not None else [*all_of, *tight_now(job)]


def _answer(one: Answer) -> Action:
    """A button of its own where the gauge has to be read as it stands now."""
    if one.key == ON_PURPOSE:
        return Action("stopped", one.said, {"on_purpose": True})
    return Action("answer", one.said, {"key": one.key}, primary=one.usual)


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
        story = (*story[: job.head.swept_from], *as_seen(data.points))
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
        parked=Parked(job.base, data.stop) if data.stop and job.base else None,
        reads=replace(job.reads.anew(), why=data.why or ""),
        head=replace(job.head, story=story),
    )


STAGES = (
    Stage(
        "question",
        shows=Shows("square", _says, _buttons, cautions=_cautions, halt=_halt),
        commands={
            "answer": Handler(decide.answer),
            "stopped": "move",
            "tightened": "tighten",
        },
        took={e.Answered: Took(_answered, undoable=True)},
    ),
)
