"""The gauge is parked where it sees the move; the base of the stop-at is read."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving, opening, parking, sweeping
from daq.audit.stage import HISTORY, SETTLED, Handler, Stage, Took

STAGES = (
    Stage(
        "park",
        commands={
            "take": Handler(parking.take, SETTLED, parking.place),
            "tightened": Handler(moving.tightened, HISTORY),
            "touch": Handler(opening.touch),
            "stop-here": Handler(sweeping.stop_here),
            "again": Handler(sweeping.again),
        },
        took={e.Parked: Took(moves.parked, undoable=True), e.BaseRead: Took(moves.base)},
    ),
)
