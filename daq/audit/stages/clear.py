"""The arm comes out, the wrench off the drawbar."""

from daq.audit import events as e
from daq.audit.changes import cleared
from daq.audit.decide import closing, sweeping
from daq.audit.stage import Handler, Stage, Took

STAGES = (
    Stage(
        "clear",
        commands={"cleared": Handler(closing.cleared), "again": Handler(sweeping.again)},
        took={e.Cleared: Took(cleared)},
    ),
)
