"""The head is brought closer by scale or square: off the gauge's scale."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import sweeping
from daq.audit.stage import Handler, Stage, Took

STAGES = (
    Stage(
        "closer",
        commands={"closer": Handler(sweeping.closer)},
        took={e.BroughtCloser: Took(moves.closer)},
    ),
)
