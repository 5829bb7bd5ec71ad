"""One axis's bolts are cracked."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import axis_of, certain
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.reading import move_of, watched
from daq.audit.stage import WATCHED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.common import CLEAR, CRACK, LEAVE_BOLTS, STOP, other_bolts
from daq.audit.views.left import left
from daq.audit.views.step import Action, Clamp, Wording
from daq.words import Said, said


def _says(job: Job) -> Wording:
    bolts = job.setup.machine.axis(axis_of(job)).bolts
    move = certain(job.stop)
    how = said("crack-by-hand") if move.by_hand else said("crack-enough")
    return Wording(said("crack", bolts=bolts), how, (other_bolts(job),), left(job, move).warnings)


def _buttons(job: Job) -> list[Action]:
    bolts = "" if job.axis is None else job.setup.machine.axis(job.axis).bolts
    return [Action("loosened", said("cracked", bolts=bolts), primary=True)]


def _hands(job: Job) -> Clamp:
    return Clamp("loosen", job.axis)


def _cautions(job: Job) -> tuple[Said, ...]:
    return CRACK, CLEAR


def _halt(job: Job) -> tuple[Said, Said | None]:
    return STOP, LEAVE_BOLTS


def _loosened(job: Job, data: e.Loosened) -> Job:
    """An axis is loose; proofs taken so far prove nothing any more."""
    return replace(
        go(job, data.next),
        loose=job.loose | {data.axis},
        sweeps=job.sweeps.spoilt(loosened=True),
        parked=job.parked and replace(job.parked, cracked_face_mm=data.reading.mean_mm),
    )


def loosened(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The bolts were cracked: the drop is recorded and the stop-at does not move with it."""
    given.payload(Nothing)
    stop = move_of(job)
    reading = watched(job, given, stop.position)
    drop = reading.mean_mm - stop.base_face_mm
    return (e.Loosened(stop.axis, reading, drop, Next("move", stop.axis)),)


STAGES = (
    Stage(
        "loosen",
        shows=Shows("square", _says, _buttons, _hands, _cautions, _halt),
        commands={
            "loosened": Handler(loosened, WATCHED),
            "tightened": "tighten",
        },
        took={e.Loosened: Took(_loosened)},
    ),
)
