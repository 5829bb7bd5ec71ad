"""A full sweep, of the head as found or as the proof of how it is left."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.facts import as_seen, wanted
from daq.audit.folding import begun, go, leave, values
from daq.audit.held.sweeps import Reads
from daq.audit.stage import HISTORY, SETTLED, Handler, Shows, Stage, Took
from daq.audit.stages.sweep import decide
from daq.audit.state import Job
from daq.audit.views.common import (
    again,
    nose,
    preload,
    swing,
    take,
    touch,
    turn_to,
    wait_turning_nothing,
)
from daq.audit.views.places import at, to
from daq.audit.views.step import Action, Wording
from daq.squaring.story import Happened, then
from daq.words import said


def _says(job: Job) -> Wording:
    place = wanted(job)[0]
    if not job.reads.taken and not job.gauge.lifted:
        full = said("proving-sweep") if job.sweeps.loosened else said("first-sweep")
        return Wording(turn_to(job, place), full)
    if not job.reads.taken:
        down = said("down-pushed-in", at=at(place), preload=preload(job))
        return Wording(down, said("tight-take"))
    if len(job.reads.taken) == len(job.setup.plan.positions):
        return Wording(said("turn-back", to=to(place)), said("take-again-there"))
    return Wording(said("turn-until-at", at=at(place)), said("take"))


def _buttons(job: Job) -> list[Action]:
    first, *others = wanted(job)
    # A sweep compared with the one before may be given up for one that stands alone.
    alone = [again(job)] if job.reads.turned else []
    rest = [Action("take", said("stands-at", at=at(p)), {"position": p}) for p in others]
    if job.sweeps.loosened and not (job.sweeps.off_scale and job.sweeps.latest is None):
        return [take(first), *rest, touch(), *alone]
    # Once more when the head was brought closer, but not close enough.
    sure = said("off-scale-now") if job.sweeps.loosened else said("off-scale-found")
    say = said("off-scale-record", at=at(first))
    off = Action("off-scale", say, {"position": first}, confirm=sure)
    return [take(first), *rest, off, touch(), *alone]


def _begun(job: Job) -> bool:
    return bool(job.reads.taken)


def _shows(part: str) -> Shows:
    return Shows(part, _says, _buttons, swing, nose, wait_turning_nothing, lowered=_begun)


def _swept(job: Job, data: e.SweepDone) -> Job:
    """The head stands as this sweep read it."""
    first = next(iter(sorted(data.findings, key=lambda finding: not finding.blocking)), None)
    after = replace(
        leave(job, data.next, first.said if first else None),
        sweeps=replace(job.sweeps, done=(*job.sweeps.done, data)),
        tightening=replace(job.tightening, reread_mm=None),
    )
    if not data.usable:
        return replace(after, circle=replace(job.circle, shown={}))
    # The gauge may have drifted since the last reading; what turned brings its own slope.
    elsewhere = bool(data.turned) or data.apart
    before = then(job.head.story, Happened("unknown" if elsewhere else "zeroed"))
    story = (*before, *as_seen(data.points))
    return replace(
        after,
        head=replace(
            job.head, story=story, swept_from=len(before), swept_to=len(story), slack_mm={}
        ),
        sweeps=replace(
            after.sweeps,
            disturbed=False,
            part_mm=data.part_mm,
            parts=data.parts,
        ),
        circle=replace(job.circle, known=values(data.points)),
        axes=replace(job.axes, results=data.results, whole=data.whole),
        reads=Reads(),
    )


def _off_scale(job: Job, data: e.OffScale) -> Job:
    """The head as found is beyond what the gauge can read."""
    sweeps = replace(job.sweeps, off_scale=(*job.sweeps.off_scale, data))
    return replace(begun(go(job, data.next)), sweeps=sweeps)


COMMANDS = {
    "take": Handler(decide.take, SETTLED, decide.place),
    "off-scale": Handler(decide.off_scale, HISTORY),
    "touch": Handler(wish.touch),
    "again": Handler(wish.again),
}

STAGES = (
    Stage(
        "as-found",
        shows=_shows("as-found"),
        commands=COMMANDS,
        took={
            e.SweepDone: Took(_swept),
            e.OffScale: Took(_off_scale, undoable=True),
        },
    ),
    Stage("final", shows=_shows("final"), commands=COMMANDS),
)
