"""Which of the shop's rings lies on the table, how the arm is clamped: asked once, if at all."""

from dataclasses import replace
from typing import Literal

from daq.audit.input import Refused
from daq.audit.state import Job
from daq.audit.views.step import Choice, Field
from daq.checks.sweep.rings import Laid
from daq.checks.sweep.spindle import SPINDLE, Clamped
from daq.settings import quoted
from daq.words import FOUR_POSITIONS, said

Mark = Literal["", "front", "right", "back", "left"]


def mark_fields(job: Job) -> tuple[Field, ...]:
    """What the preparation card asks; nothing where the files name neither a ring nor a mark.

    Where a mark points is never taken for granted: wrong by half a turn, it doubles what was
    to be left out.
    """
    if job.check is not None:
        return ()
    machine, rings = job.setup.machine, job.setup.rings
    points = tuple(Choice(p, said("told-place", place=p)) for p in FOUR_POSITIONS)
    fields: list[Field] = []
    if rings and machine.seat_turns:
        which = tuple(
            Choice(ring.key, said("ring-marked", ring=ring.say, mark=ring.mark)) for ring in rings
        )
        fields.append(Field("ring", said("which-ring"), "choice", False, which, machine.ring))
        fields.append(Field("mark", said("mark-points"), "choice", False, points))
    # The differences of a bar's two gauges hold nothing of the rise.
    if machine.spindle_mark and job.setup.second_gauge is None:
        where = said("spindle-mark-points", mark=machine.spindle_mark)
        fields.append(Field("spindle", where, "choice", False, points))
    return tuple(fields)


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
