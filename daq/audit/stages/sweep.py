"""A full sweep, of the head as found or as the proof of how it is left."""

from daq.audit import changes
from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import opening, sweeping
from daq.audit.facts import wanted
from daq.audit.stage import HISTORY, SETTLED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.common import (
    again,
    nose,
    swing,
    take,
    touch,
    turn_to,
    wait_turning_nothing,
)
from daq.audit.views.figures import with_unit
from daq.audit.views.places import at, to
from daq.audit.views.step import Action, Wording
from daq.units import MM_PER_INCH
from daq.words import Said, Shown, said


def _says(job: Job) -> Wording:
    place = wanted(job)[0]
    if not job.taken and not job.lifted:
        full = said("proving-sweep") if job.loosened else said("first-sweep")
        return Wording(turn_to(job, place), full)
    if not job.taken:
        down = said("down-pushed-in", at=at(place), preload=_preload(job))
        return Wording(down, said("tight-take"))
    if len(job.taken) == len(job.setup.plan.positions):
        return Wording(said("turn-back", to=to(place)), said("take-again-there"))
    return Wording(said("turn-until-at", at=at(place)), said("take"))


def _preload(job: Job) -> Said:
    """A plunger about a millimetre, a lever within its 0.1 to 0.25: common practice, no source."""
    if job.setup.gauge.kind == "lever":
        inch, metric = Shown(0.008 * MM_PER_INCH, "in", 3), Shown(0.2, "mm", 1)
    else:
        inch, metric = Shown(0.050 * MM_PER_INCH, "in", 3), Shown(1.0, "mm", 0)
    return with_unit(inch if job.unit == "in" else metric)


def _buttons(job: Job) -> list[Action]:
    first, *others = wanted(job)
    # A sweep compared with the one before may be given up for one that stands alone.
    alone = [again()] if job.turned else []
    rest = [Action("take", said("stands-at", at=at(p)), {"position": p}) for p in others]
    if job.loosened and not (job.off_scale and job.latest is None):
        return [take(first), *rest, touch(), *alone]
    # Once more when the head was brought closer, but not close enough.
    sure = said("off-scale-now") if job.loosened else said("off-scale-found")
    say = said("off-scale-record", at=at(first))
    off = Action("off-scale", say, {"position": first}, confirm=sure)
    return [take(first), *rest, off, touch(), *alone]


def _begun(job: Job) -> bool:
    return bool(job.taken)


def _shows(part: str) -> Shows:
    return Shows(part, _says, _buttons, swing, nose, wait_turning_nothing, lowered=_begun)


COMMANDS = {
    "take": Handler(sweeping.take, SETTLED, sweeping.place),
    "off-scale": Handler(sweeping.off_scale, HISTORY),
    "touch": Handler(opening.touch),
    "again": Handler(sweeping.again),
}

STAGES = (
    Stage(
        "as-found",
        shows=_shows("as-found"),
        commands=COMMANDS,
        took={
            e.SweepDone: Took(changes.swept),
            e.SweepWanted: Took(changes.again),
            e.StopHere: Took(changes.stop_here),
            e.TouchWanted: Took(changes.touch),
            e.OffScale: Took(moves.off_scale, undoable=True),
        },
    ),
    Stage("final", shows=_shows("final"), commands=COMMANDS),
)
