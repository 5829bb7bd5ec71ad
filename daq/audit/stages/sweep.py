"""A full sweep, of the head as found or as the proof of how it is left."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.changes import again, stop_here, swept, touch
from daq.audit.decide import opening, sweeping
from daq.audit.stage import HISTORY, SETTLED, Handler, Stage, Took

COMMANDS = {
    "take": Handler(sweeping.take, SETTLED, sweeping.place),
    "off-scale": Handler(sweeping.off_scale, HISTORY),
    "touch": Handler(opening.touch),
    "again": Handler(sweeping.again),
}

STAGES = (
    Stage(
        "as-found",
        commands=COMMANDS,
        took={
            e.SweepDone: Took(swept),
            e.SweepWanted: Took(again),
            e.StopHere: Took(stop_here),
            e.TouchWanted: Took(touch),
            e.OffScale: Took(moves.off_scale, undoable=True),
        },
    ),
    Stage("final", commands=COMMANDS),
)
