"""What each step says while there is no number: whoever acts on one must stop.

The screens show it in place of the instruction, of the stop-at and of the way to it, as long
as nothing live comes, and by themselves: a page that has lost its line can ask nobody.
"""

from daq.audit.parts import Step
from daq.audit.state import Job
from daq.audit.views.shapes import Halt
from daq.words import Said, said

_WAIT = said("halt-wait")
_STOP = said("halt-stop")
_TURN_NOTHING = said("halt-turn-nothing")
_LEAVE_BOLTS = said("halt-leave-bolts")

HALTS: dict[Step, tuple[Said, Said | None]] = {
    "touch-free": (_WAIT, None),
    "touch-push": (_WAIT, None),
    "as-found": (_WAIT, _TURN_NOTHING),
    "park": (_WAIT, _TURN_NOTHING),
    "loosen": (_STOP, _LEAVE_BOLTS),
    "move": (said("halt-turning"), said("halt-hands-off")),
    "check": (_STOP, _TURN_NOTHING),
    "tighten": (said("halt-tightening"), _LEAVE_BOLTS),
    "stations": (_WAIT, _TURN_NOTHING),
    "final": (_WAIT, _TURN_NOTHING),
}
"""Steps that look at no number go on without one."""

_ON = said("halt-goes-on")


def halt(job: Job) -> Halt | None:
    """What to do at this step while there is no number; None where it asks for none."""
    # Asked in the middle of a move, hands are on the adjuster still.
    step = "move" if job.step == "question" and job.stop is not None else job.step
    if step not in HALTS:
        return None
    say, hands = HALTS[step]
    if job.stop is not None and job.stop.shim is not None and step == "move":
        say, hands = _STOP, said("halt-leave-shim")
    return Halt(say, _ON if hands is None else said("and-then", first=hands, next=_ON))
