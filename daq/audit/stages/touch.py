"""The touch test: the contact hangs free, then is pushed by hand."""

from daq.audit import events as e
from daq.audit.changes import free, pushed
from daq.audit.decide import opening
from daq.audit.stage import HISTORY, SETTLED, Handler, Stage, Took

STAGES = (
    Stage(
        "touch-free",
        commands={"take": Handler(opening.free_reading, SETTLED)},
        took={e.FreeRead: Took(free, undoable=True)},
        heeds_zero=False,
    ),
    Stage(
        "touch-push",
        commands={"pushed": Handler(opening.pushed, HISTORY)},
        took={e.Pushed: Took(pushed)},
        heeds_zero=False,
    ),
)
