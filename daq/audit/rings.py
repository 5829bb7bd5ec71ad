"""Which of the shop's rings lies on the table, how the arm is clamped: as a card tells it."""

from dataclasses import replace
from typing import Literal

from daq.audit.input import Refused
from daq.audit.state import Job
from daq.checks.sweep.rings import Laid
from daq.checks.sweep.spindle import SPINDLE, Clamped
from daq.settings import quoted

Mark = Literal["", "front", "right", "back", "left"]


def lies_now(job: Job, mark: Mark) -> Laid | None:
    """The ring that was laid, as its mark points now; None where nobody said."""
    laid = job.sweeps.laid
    return replace(laid, mark=mark) if laid is not None and mark else None


def lies(job: Job, ring: str, mark: Mark) -> Laid | None:
    """The ring that was named, as its mark points, with what is known of it; None where unsaid.

    Raises:
        Refused: the shop has no ring of that name.
    """
    named = {each.key: each for each in job.setup.rings}
    if ring and ring not in named:
        raise Refused("no-such-ring", found=quoted(ring), allowed=", ".join(named) or "-")
    if not (ring and mark):
        return None
    told = job.sweeps.taught.get(ring)
    known = named[ring] if told is None else replace(named[ring], wedge=told.now)
    return Laid(known, mark)


def clamped(job: Job, mark: Mark) -> Clamped | None:
    """The arm as it is clamped; None where nobody said where the spindle's mark points.

    Raises:
        Refused: the machine's file names no mark, or two gauges are read on a bar.
    """
    setup = job.setup
    if not mark:
        return None
    if not setup.machine.spindle_mark or setup.second_gauge is not None:
        raise Refused("no-spindle-mark")
    told = job.sweeps.taught.get(SPINDLE)
    if told is not None or setup.rise is None:
        return Clamped(mark, told.now if told is not None else None)
    changes = setup.machine.uncertainty.spindle_changes
    return Clamped(mark, setup.rise.grown(changes, setup.day))
