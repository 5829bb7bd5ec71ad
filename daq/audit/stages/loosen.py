"""One axis's bolts are cracked."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving
from daq.audit.stage import HISTORY, WATCHED, Handler, Stage, Took

STAGES = (
    Stage(
        "loosen",
        commands={
            "loosened": Handler(moving.loosened, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.Loosened: Took(moves.loosened)},
    ),
)
