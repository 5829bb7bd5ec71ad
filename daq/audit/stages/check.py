"""A pair check: the axis is read across, before its bolts are tightened and after."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving, opening, sweeping
from daq.audit.stage import HISTORY, SETTLED, Handler, Stage, Took

STAGES = (
    Stage(
        "check",
        commands={
            "take": Handler(moving.take, SETTLED, moving.place),
            "tightened": Handler(moving.tightened, HISTORY),
            "touch": Handler(opening.touch),
            "stop-here": Handler(sweeping.stop_here),
            "again": Handler(sweeping.again),
        },
        took={e.CheckDone: Took(moves.checked, undoable=True)},
    ),
)
