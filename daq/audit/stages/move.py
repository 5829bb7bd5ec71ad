"""The adjuster is turned until the gauge reads the stop-at."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving
from daq.audit.stage import HISTORY, WATCHED, Handler, Stage, Took

STAGES = (
    Stage(
        "move",
        commands={
            "stopped": Handler(moving.stopped, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={
            e.StopDoubted: Took(moves.doubted, undoable=True),
            e.Moved: Took(moves.moved, undoable=True),
        },
    ),
)
