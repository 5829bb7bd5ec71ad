"""The bolts are pulled up, one by one where the machine's file names them."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving
from daq.audit.stage import HISTORY, WATCHED, Handler, Stage, Took

STAGES = (
    Stage(
        "tighten",
        commands={
            "bolt": Handler(moving.bolt, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.BoltPulled: Took(moves.bolt), e.Tightened: Took(moves.tightened)},
    ),
)
