"""What the screens show of a pair check."""

from daq.audit.facts import axis_of, certain
from daq.audit.stage import Shows, just
from daq.audit.state import Job
from daq.audit.views.common import (
    NOSE,
    STOP,
    TURN_NOTHING,
    again,
    round_by,
    stop_here,
    swing,
    take,
    tight_now,
    touch,
    turn_to,
)
from daq.audit.views.places import next_place
from daq.audit.views.step import Action, Wording
from daq.words import OTHER, Position, Said, said


def _says(job: Job) -> Wording:
    place: Position = certain(next_place(job))
    return Wording(turn_to(job, place), _why_check(job), round_by(job, place))


def _why_check(job: Job) -> Said:
    axis = axis_of(job)
    spec = job.setup.machine.axis(axis)
    if job.ahead is not None and job.ahead.worked == OTHER[axis]:
        return said("check-other", axis=spec.say.lower())
    if axis in job.loose:
        return said("check-before-tightening")
    return said("check-tight", bolts=spec.bolts)


def _buttons(job: Job) -> list[Action]:
    first = take(next_place(job))
    worked = job.ahead.worked if job.ahead is not None else None
    if job.loose or worked == job.axis:
        return [first, *tight_now(job), touch()]
    return [first, touch(), again(job), stop_here()]


_HALT = just((STOP, TURN_NOTHING))

SHOWS = Shows("square", _says, _buttons, swing, just((NOSE,)), _HALT, lowered=just(True))
