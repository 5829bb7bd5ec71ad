"""The bolts are pulled up, one by one where the machine's file names them."""

from daq.audit import events as e
from daq.audit import move_changes as moves
from daq.audit.decide import moving
from daq.audit.stage import HISTORY, WATCHED, Handler, Shows, Stage, Took, always
from daq.audit.state import Job
from daq.audit.views.common import LEAVE_BOLTS, axis_of
from daq.audit.views.figures import limit
from daq.audit.views.step import Action, Clamp, PullUp, Wording
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
    if job.bolt_over_mm is not None and job.bolt_steps and job.bolt != bolt:
        put_right = said("put-right-again", bolt=job.bolt)
        again.append(Action("bolt", put_right, {"bolt": job.bolt}))
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


STAGES = (
    Stage(
        "tighten",
        shows=Shows("square", _says, _buttons, _hands, _cautions, _halt, lowered=always),
        commands={
            "bolt": Handler(moving.bolt, WATCHED),
            "tightened": Handler(moving.tightened, HISTORY),
        },
        took={e.BoltPulled: Took(moves.bolt), e.Tightened: Took(moves.tightened)},
    ),
)
