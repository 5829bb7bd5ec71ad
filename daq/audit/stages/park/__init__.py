"""The gauge is parked where it sees the move; the base of the stop-at is read.

`choose`: which axis is moved first, which is left alone; `decide`: whether the spot reads as the
sweep left it, the question it raises, the stop-at; `fold`: what that changes in the audit;
`shows`: what the screens show meanwhile.
"""

from daq.audit.anytime import wish
from daq.audit.events import BaseRead, Parked
from daq.audit.stage import SETTLED, Handler, Stage, Took
from daq.audit.stages.park.choose import (
    AxisLeft,
    FirstChosen,
    axis_left,
    first,
    first_chosen,
    leave_alone,
    told_first,
    told_left,
)
from daq.audit.stages.park.decide import place, take
from daq.audit.stages.park.fold import base, parked
from daq.audit.stages.park.shows import SHOWS
from daq.words import said

STAGES = (
    Stage(
        "park",
        shows=SHOWS,
        commands={
            "take": Handler(take, SETTLED, place),
            "tightened": "tighten",
            "touch": Handler(wish.touch),
            "stop-here": Handler(wish.stop_here),
            "again": Handler(wish.again),
            "first": Handler(first),
            "leave-alone": Handler(leave_alone),
        },
        took={
            Parked: Took(parked, undoable=True),
            BaseRead: Took(base),
            FirstChosen: Took(
                first_chosen, undoable=True, told=said("other-axis-is-first"), detail=told_first
            ),
            AxisLeft: Took(
                axis_left, undoable=True, told=said("axis-was-left-alone"), detail=told_left
            ),
        },
    ),
)
