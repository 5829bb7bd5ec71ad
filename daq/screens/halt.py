"""What each stage says while there is no number: whoever acts on one must stop.

The screens show it in place of the instruction, of the stop-at and of the way to it, as long
as nothing live comes, and by themselves: a page that has lost its line can ask nobody.
"""

from daq.audit.stages import STAGES
from daq.audit.state import Job
from daq.audit.views.shapes import Halt
from daq.words import said

_ON = said("halt-goes-on")


def halt(job: Job) -> Halt | None:
    """What to do at this stage while there is no number; None where it asks for none."""
    found = STAGES[job.step].shows.halt(job)
    if found is None:
        return None
    say, hands = found
    return Halt(say, _ON if hands is None else said("and-then", first=hands, next=_ON))
