"""A full sweep, of the head as found or as the proof of how it is left.

`decide`: each reading, and a head off the gauge's scale; `flicks`: the arm tried before the
first; `slow_turn`: one that never stands still; `reduce`: what a whole sweep comes to;
`done`: what follows from it; `drift`: one that did not come back, asked about; `ram`: one that
fits a swung ram (`ram_asked`); `fold`: what it changes in the audit; `shows`: what the
screens show meanwhile.
"""

from daq.audit.anytime import wish
from daq.audit.events import OffScale, SweepDone
from daq.audit.stage import HISTORY, PASSED, SETTLED, Handler, Stage, Took
from daq.audit.stages.sweep import drift, flicks, fold, ram, slow_turn
from daq.audit.stages.sweep.decide import off_scale, place, take
from daq.audit.stages.sweep.shows import AS_FOUND, FINAL
from daq.words import said

_COMMANDS = {
    "take": Handler(take, SETTLED, place, whole=flicks.asked),
    "off-scale": Handler(off_scale, HISTORY),
    "slow-turn": Handler(slow_turn.turned, PASSED),
    "touch": Handler(wish.touch),
    "again": Handler(wish.again),
}

STAGES = (
    Stage(
        "as-found",
        shows=AS_FOUND,
        commands=_COMMANDS,
        took={
            SweepDone: Took(fold.swept),
            OffScale: Took(fold.off_scale, undoable=True),
            flicks.Flicked: Took(flicks.took, told=said("arm-was-flicked"), detail=flicks.detail),
        },
    ),
    Stage("final", shows=FINAL, commands=_COMMANDS),
    drift.FOUND,
    drift.LEFT,
    ram.STAGE,
)
