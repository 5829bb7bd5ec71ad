"""What the screens show while the gauge is parked."""

from daq.audit.facts import certain, shown_face
from daq.audit.reading_order import both_at_once
from daq.audit.stage import Shows, just
from daq.audit.stages.park.choose import choices
from daq.audit.state import Job
from daq.audit.views.by_kind import out_of_the_way, support_first
from daq.audit.views.common import (
    NOSE,
    WAIT_TURNING_NOTHING,
    again,
    other_bolts,
    round_by,
    spec_of,
    stop_here,
    swing,
    take,
    tight_now,
    touch,
    turned,
)
from daq.audit.views.figures import with_unit
from daq.audit.views.places import at, next_place, still_out
from daq.audit.views.step import Action, Wording
from daq.audit.views.whole import notes
from daq.words import Said, said

BIG_NOD_MM = {"plunger": 1.0, "lever": 0.2}
"""A nod that moves the head at the parked spot by more than a contact is usually pushed in."""


def _says(job: Job) -> Wording:
    place = at(certain(next_place(job)))
    if job.base is not None:
        return Wording(said("read-again-at", at=place), said("touch-nothing"))
    name = spec_of(job).say.lower()
    tight = said("bolts-as-they-are") if job.loose else said("bolts-still-tight")
    title, detail = said("park-at", at=place), said("park-next", axis=name, bolts=tight)
    still = still_out(job)
    if still:
        title, detail = (
            said("out-go-on", out=still, onward=_onward(job)),
            said("park-take", park=title, bolts=tight),
        )
    others = () if both_at_once(job) else (other_bolts(job),)
    return Wording(title, detail, (*notes(job), *others, *round_by(job, next_place(job))))


def _onward(job: Job) -> Said:
    """How the axis goes on; a turn by hand that is to show something may go back."""
    kind = spec_of(job).adjust.kind
    if job.is_told("led-astray"):
        return said("try-a-turn")
    if kind == "shim":
        asked = any(axis == job.axis for axis, _ in job.moves.shims)
        return said("another-shim") if asked else said("a-shim")
    return said("push-further") if kind == "hand" else said("turn-further")


def _buttons(job: Job) -> list[Action]:
    first = take(next_place(job))
    if job.loose:
        return [first, *tight_now(job), touch()]
    return [first, touch(), *choices(job), again(job), *turned(job), stop_here()]


def _cautions(job: Job) -> tuple[Said, ...]:
    """What must be done before the parked reading: done after it, it would spoil the base."""
    cracked = job.setup.machine.axes.values() if both_at_once(job) else (spec_of(job),)
    held = () if job.loose else support_first(*cracked)
    fall_mm = job.ahead.nod_mm if job.ahead is not None else 0.0
    if fall_mm <= BIG_NOD_MM[job.setup.gauge.kind]:
        return (*held, NOSE)
    big = out_of_the_way(job, with_unit(shown_face(job, fall_mm)))
    return (*held, big, said("falling-head"), NOSE)


_HALT = just(WAIT_TURNING_NOTHING)

SHOWS = Shows("square", _says, _buttons, swing, _cautions, _HALT, lowered=just(True))
