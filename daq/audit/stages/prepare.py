"""The preparation card: locked out, the gauge confirmed."""

from daq.audit import events as e
from daq.audit.changes import prepared
from daq.audit.decide import opening
from daq.audit.stage import Handler, Stage, Took

STAGES = (
    Stage(
        "prepare",
        commands={"prepared": Handler(opening.prepared)},
        took={e.Prepared: Took(prepared, undoable=True)},
        heeds_zero=False,
    ),
)
