"""A question about the parked reading or an early stop, to be answered first."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import answering, moving
from daq.audit.parts import ON_PURPOSE, Answer
from daq.audit.stage import HISTORY, WATCHED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.common import heed_turning, stop_turning, tight_now
from daq.audit.views.step import Action, Wording
from daq.words import Said, said


def _says(job: Job) -> Wording:
    say = job.question.said if job.question is not None else None
    loose = job.axis is not None and job.axis in job.loose
    return Wording(say, said("hands-off-until") if loose else said("turn-nothing-until"))


def _buttons(job: Job) -> list[Action]:
    answers = job.question.answers if job.question else ()
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


STAGES = (
    Stage(
        "question",
        shows=Shows("square", _says, _buttons, cautions=_cautions, halt=_halt),
        commands={
            "answer": Handler(answering.answer),
            "stopped": Handler(moving.stopped, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.Answered: Took(moves.answered, undoable=True)},
    ),
)
