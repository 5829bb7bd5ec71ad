"""Which of the shop's rings lies on the table, and where its mark points: asked once, if any."""

from typing import Literal

from daq.audit.input import Refused
from daq.audit.state import Job
from daq.audit.views.step import Choice, Field
from daq.checks.sweep.rings import Laid
from daq.settings import quoted
from daq.words import FOUR_POSITIONS, said


def ring_fields(job: Job) -> tuple[Field, ...]:
    """What the preparation card asks; nothing where the shop names no ring.

    Where a mark points is never taken for granted: wrong by half a turn, it doubles the wedge.
    """
    machine, rings = job.setup.machine, job.setup.rings
    if not rings or not machine.seat_turns or job.check is not None:
        return ()
    which = tuple(
        Choice(ring.key, said("ring-marked", ring=ring.say, mark=ring.mark)) for ring in rings
    )
    points = tuple(Choice(p, said("told-place", place=p)) for p in FOUR_POSITIONS)
    return (
        Field("ring", said("which-ring"), "choice", False, which, machine.ring),
        Field("mark", said("mark-points"), "choice", False, points),
    )


def lies(job: Job, ring: str, mark: Literal["", "front", "right", "back", "left"]) -> Laid | None:
    """The ring that was named, as its mark points; None where either was not said.

    Raises:
        Refused: the shop has no ring of that name.
    """
    named = {each.key: each for each in job.setup.rings}
    if ring and ring not in named:
        raise Refused("no-such-ring", found=quoted(ring), allowed=", ".join(named) or "-")
    return Laid(named[ring], mark) if ring and mark else None
