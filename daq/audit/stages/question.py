"""A question about the parked reading or an early stop, to be answered first."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import answering, moving
from daq.audit.stage import HISTORY, WATCHED, Handler, Stage, Took

STAGES = (
    Stage(
        "question",
        commands={
            "answer": Handler(answering.answer),
            "stopped": Handler(moving.stopped, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.Answered: Took(moves.answered, undoable=True)},
    ),
)
