"""Where marks point, of a ring and of the spindle: asked once, if at all."""

from typing import Final

from daq.audit.state import Job
from daq.audit.views.step import Choice, Field
from daq.words import FOUR_POSITIONS, said

_POINTS: Final = tuple(Choice(p, said("told-place", place=p)) for p in FOUR_POSITIONS)


def mark_fields(job: Job) -> tuple[Field, ...]:
    """What the preparation card asks; nothing where the files name neither a ring nor a mark.

    Where a mark points is never taken for granted: wrong by half a turn, it doubles what was
    to be left out.
    """
    if job.check is not None:
        return ()
    machine, rings = job.setup.machine, job.setup.rings
    fields: list[Field] = []
    if rings and machine.seat_turns:
        which = tuple(
            Choice(ring.key, said("ring-marked", ring=ring.say, mark=ring.mark)) for ring in rings
        )
        fields.append(Field("ring", said("which-ring"), "choice", False, which, machine.ring))
        fields.append(Field("mark", said("mark-points"), "choice", False, _POINTS))
    # The differences of a bar's two gauges hold nothing of the rise.
    if machine.spindle_mark and job.setup.second_gauge is None:
        where = said("spindle-mark-points", mark=machine.spindle_mark)
        fields.append(Field("spindle", where, "choice", False, _POINTS))
    return tuple(fields)


def mark_now(job: Job) -> tuple[Field, ...]:
    """Where the named ring's mark points as it is swept once more; as it did, if it lies so."""
    laid = job.sweeps.laid
    if laid is None:
        return ()
    say = said("ring-mark-now", mark=laid.ring.mark)
    return (Field("mark", say, "choice", False, _POINTS, "" if job.reads.turned else laid.mark),)
