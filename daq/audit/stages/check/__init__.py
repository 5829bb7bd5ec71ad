"""A pair check: the axis is read across, before its bolts are tightened and after.

`decide`: what the pair says of its axis, whether it fits what was done, what it teaches;
`seems`: what is said of one that does not, `asks`: what is asked, `asked`: the answer;
`fold`: what it changes in the audit; `shows`: what the screens show meanwhile.
"""

from daq.audit.anytime import wish
from daq.audit.events import CheckDone
from daq.audit.stage import SETTLED, Handler, Stage, Took
from daq.audit.stages.check import asked
from daq.audit.stages.check.decide import place, take
from daq.audit.stages.check.fold import checked
from daq.audit.stages.check.shows import SHOWS

STAGES = (
    Stage(
        "check",
        shows=SHOWS,
        commands={
            "take": Handler(take, SETTLED, place),
            "tightened": "tighten",
            "touch": Handler(wish.touch),
            "stop-here": Handler(wish.stop_here),
            "again": Handler(wish.again),
        },
        took={CheckDone: Took(checked, undoable=True)},
    ),
    asked.STAGE,
)
