"""The touch test: the contact hangs free, then is pushed by hand."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit import opening
from daq.audit.folding import begun, go, values
from daq.audit.stage import HISTORY, SETTLED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.common import WAIT
from daq.audit.views.step import Action, Hands, Wording
from daq.squaring.story import Happened
from daq.words import Said, said


def _free_says(job: Job) -> Wording:
    if job.resume is not None:
        return Wording(said("lift-contact"), said("lift-contact-why"))
    return Wording(said("hang-free"), said("hang-free-take"))


def _push_says(job: Job) -> Wording:
    return Wording(said("push-contact"), said("push-contact-why"))


def _free_buttons(job: Job) -> list[Action]:
    return [Action("take", said("take-free"), primary=True)]


def _push_buttons(job: Job) -> list[Action]:
    return [Action("pushed", said("pushed"), primary=True)]


def _free_hands(job: Job) -> Hands:
    return Hands("free")


def _push_hands(job: Job) -> Hands:
    return Hands("push")


def _cautions(job: Job) -> tuple[Said, ...]:
    return said("swing-clear"), said("pedal-clear")


def _halt(job: Job) -> tuple[Said, Said | None]:
    return WAIT, None


def _free(job: Job, data: e.FreeRead) -> Job:
    """The free reading stands; after a zero everything remembered has shifted."""
    gauge = replace(
        job.gauge,
        unit=data.unit,
        free_pushed_mm=data.pushed_mm,
        spread_mm=data.spread_mm,
        lifted=True,
        zeroed=job.gauge.zeroed or job.resume is not None,
    )
    after = replace(
        go(job, data.next, data.said),
        gauge=gauge,
        circle=replace(job.circle, known=values(data.points)),
        resume=None,
    )
    if job.resume is not None:
        after = replace(after, head=job.head.then(Happened("zeroed")))
    return begun(after) if data.restart else after


def _pushed(job: Job, data: e.Pushed) -> Job:
    """The gauge is alive and counts the right way, or not."""
    return replace(go(job, data.next), anew=None) if data.ok else go(job, data.next, data.said)


STAGES = (
    Stage(
        "touch-free",
        shows=Shows("prepare", _free_says, _free_buttons, _free_hands, _cautions, _halt),
        commands={"take": Handler(opening.free_reading, SETTLED)},
        took={e.FreeRead: Took(_free, undoable=True)},
        heeds_zero=False,
    ),
    Stage(
        "touch-push",
        shows=Shows("prepare", _push_says, _push_buttons, _push_hands, halt=_halt),
        commands={"pushed": Handler(opening.pushed, HISTORY)},
        took={e.Pushed: Took(_pushed)},
        heeds_zero=False,
    ),
)
