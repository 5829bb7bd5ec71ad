"""The bolts are pulled up, one by one where the machine's file names them."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.decide import moving
from daq.audit.facts import axis_of
from daq.audit.folding import go, leave
from daq.audit.held.tightening import Bolts
from daq.audit.stage import HISTORY, WATCHED, Handler, Shows, Stage, Took, always
from daq.audit.state import Job
from daq.audit.views.common import LEAVE_BOLTS
from daq.audit.views.figures import limit
from daq.audit.views.step import Action, Clamp, PullUp, Wording
from daq.squaring.story import Happened, Story
from daq.words import Said, said


def _says(job: Job) -> Wording:
    spec = job.setup.machine.axis(axis_of(job))
    ahead = job.ahead
    if ahead is not None and ahead.bolt is not None and ahead.part is not None:
        pull = said("pull-up", bolt=ahead.bolt, part=ahead.part)
        return Wording(pull, said("pull-up-limit", limit=limit(job, spec.tighten.limit)))
    return Wording(said("tighten", bolts=spec.bolts), said("tighten-how"))


def _buttons(job: Job) -> list[Action]:
    bolt = job.ahead.bolt if job.ahead is not None else None
    again = []
    if job.bolts.over_mm is not None and job.bolts.steps and job.bolts.bolt != bolt:
        put_right = said("put-right-again", bolt=job.bolts.bolt)
        again.append(Action("bolt", put_right, {"bolt": job.bolts.bolt}))
    if bolt is None:
        return [Action("tightened", said("all-tight"), primary=True), *again]
    pulled = Action("bolt", said("bolt-pulled-up", bolt=bolt), {"bolt": bolt}, primary=True)
    return [pulled, *again, Action("tightened", said("all-tight"))]


def _hands(job: Job) -> PullUp | Clamp:
    if job.ahead is not None and job.ahead.bolt is not None:
        return PullUp(job.axis, job.ahead.bolt, job.ahead.part)
    return Clamp("tighten", job.axis)


def _cautions(job: Job) -> tuple[Said, ...]:
    return (said("no-extension"),)


def _halt(job: Job) -> tuple[Said, Said | None]:
    return said("halt-tightening"), LEAVE_BOLTS


def _bolt(job: Job, data: e.BoltPulled) -> Job:
    """One more step of the bolts."""
    before = data.reading.mean_mm - data.since_face_mm
    over_mm = data.shift_face_mm if data.over else None
    return replace(
        go(job, data.next, data.said),
        bolts=Bolts(data.bolt, data.step, before, data.reading.mean_mm, over_mm),
        gauge=replace(job.gauge, lifted=False),
    )


def _tightened(job: Job, data: e.Tightened) -> Job:
    """The axis is tight; since it was loosened there was no sweep that could prove anything."""
    happened: Story = (Happened("tightened", data.axis),)
    # An adjuster may have been turned since the check: what tightening did is not known.
    before = job.tightening.before if job.step == "tighten" else {}
    if job.step != "tighten":
        # Cracked bolts let the head drop, and nothing was read since.
        happened = (Happened("moved", data.axis), *happened)
    return replace(
        leave(job, data.next, job.message if job.is_told("bolt-over") else None),
        loose=job.loose - {data.axis},
        gauge=replace(job.gauge, lifted=False),
        reads=job.reads.anew(),
        tightening=replace(job.tightening, before=before, reread_mm=None),
        head=job.head.then(*happened),
    )


STAGES = (
    Stage(
        "tighten",
        shows=Shows("square", _says, _buttons, _hands, _cautions, _halt, lowered=always),
        commands={
            "bolt": Handler(moving.bolt, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.BoltPulled: Took(_bolt), e.Tightened: Took(_tightened)},
    ),
)
