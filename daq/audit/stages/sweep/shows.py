"""What the screens show during a sweep."""

from dataclasses import replace

from daq.audit.reading_order import is_quick, unread_places
from daq.audit.stage import Shows, half_read, just
from daq.audit.stages.sweep.flicks import asked
from daq.audit.stages.sweep.slow_turn import slowly
from daq.audit.state import Job
from daq.audit.views.by_kind import contact_down
from daq.audit.views.common import (
    NOSE,
    WAIT_TURNING_NOTHING,
    again,
    swing,
    take,
    touch,
    turn_to,
)
from daq.audit.views.places import at, to
from daq.audit.views.step import Action, ByHand, Swing, Wording
from daq.words import Position, in_a_row, said


def _says(job: Job) -> Wording:
    place = unread_places(job)[0]
    if slowly(job):
        full = said("proving-sweep") if job.sweeps.loosened else said("first-sweep")
        how = in_a_row((full, said("slow-turn-how")))
        return Wording(said("slow-turn-do"), how, (contact_down(job),))
    if not job.reads.taken and not job.gauge.lifted:
        full = said("proving-sweep") if job.sweeps.loosened else said("first-sweep")
        return Wording(turn_to(job, place), full)
    if not job.reads.taken:
        flick = (said("flick-first"),) if asked(job) else ()
        tight = (said("all-still-tight"), *flick)
        return Wording(said("down-at", at=at(place)), contact_down(job), tight)
    if len(job.reads.taken) == len(job.setup.plan.positions):
        back = said("turn-on", to=to(place)) if is_quick(job) else said("turn-back", to=to(place))
        return Wording(back, said("take-again-there"))
    return Wording(said("turn-until-at", at=at(place)), said("take"))


def _buttons(job: Job) -> list[Action]:
    first, *others = unread_places(job)
    # A sweep compared with the one before may be given up for one that stands alone.
    alone = [again(job)] if job.reads.turned else []
    if slowly(job):
        still = Action("take", said("stands-at", at=at(first)), {"position": first})
        done = Action("slow-turn", said("slow-turn-done"), primary=True)
        return [done, still, *_off_scale(job, first), touch(), *alone]
    rest = [Action("take", said("stands-at", at=at(p)), {"position": p}) for p in others]
    return [take(first), *rest, *_off_scale(job, first), touch(), *alone]


def _off_scale(job: Job, first: Position) -> list[Action]:
    if job.sweeps.loosened and job.sweeps.latest is not None:
        return []
    # Also when the head was set back or brought closer, but not close enough.
    sure = said("off-scale-now") if job.sweeps.loosened else said("off-scale-found")
    say = said("off-scale-record", at=at(first))
    return [Action("off-scale", say, {"position": first}, confirm=sure)]


def _hands(job: Job) -> Swing | ByHand:
    if slowly(job):
        return ByHand("slow-turn")
    return replace(swing(job), flick=asked(job))


_NOSE, _HALT = just((NOSE,)), just(WAIT_TURNING_NOTHING)

AS_FOUND, FINAL = (
    Shows(part, _says, _buttons, _hands, _NOSE, _HALT, lowered=half_read)
    for part in ("as-found", "final")
)
