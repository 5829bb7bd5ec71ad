"""One axis's bolts are cracked."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import certain
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.reading import move_of, watched
from daq.audit.reading_order import both_at_once
from daq.audit.stage import WATCHED, Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import cracking, nip_back
from daq.audit.views.common import LEAVE_BOLTS, STOP, other_bolts, spec_of
from daq.audit.views.step import Action, Clamp, Wording
from daq.audit.views.to_go import to_go
from daq.words import AXES, Said, said


def loosened(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The bolts were cracked: the drop is recorded and the stop-at does not move with it."""
    given.payload(Nothing)
    stop = move_of(job)
    reading = watched(job, given, stop.position)
    drop = reading.mean_mm - stop.base_face_mm
    return (e.Loosened(stop.axis, reading, drop, Next("move", stop.axis), both_at_once(job)),)


def _bolts(job: Job) -> Said | str:
    """What is cracked: the bolts of one axis, or of both."""
    axes = job.setup.machine.axes
    if both_at_once(job):
        return said("both-bolts", side=axes.side.bolts, nod=axes.nod.bolts)
    return spec_of(job).bolts


def _says(job: Job) -> Wording:
    bolts = _bolts(job)
    move = certain(job.stop)
    nip = nip_back(spec_of(job))
    how = said("crack-by-hand", nip=nip) if move.by_hand else said("crack-enough", nip=nip)
    others = () if both_at_once(job) else (other_bolts(job),)
    notes = (*others, *((said("behind-the-head"),) if job.axis == "nod" else ()))
    return Wording(said("crack", bolts=bolts), how, notes, to_go(job, move).warnings)


def _buttons(job: Job) -> list[Action]:
    return [Action("loosened", said("cracked", bolts=_bolts(job)), primary=True)]


def _hands(job: Job) -> Clamp:
    return Clamp("loosen", job.axis, both_at_once(job))


def _cautions(job: Job) -> tuple[Said, ...]:
    axes = job.setup.machine.axes
    return cracking(*axes.values()) if both_at_once(job) else cracking(spec_of(job))


def _loosened(job: Job, data: e.Loosened) -> Job:
    """An axis is loose; proofs taken so far prove nothing any more."""
    return replace(
        go(job, data.next),
        loose=frozenset(AXES) if data.both else job.loose | {data.axis},
        sweeps=job.sweeps.spoilt(loosened=True),
        parked=job.parked and replace(job.parked, cracked_face_mm=data.reading.mean_mm),
    )


STAGES = (
    Stage(
        "loosen",
        shows=Shows("square", _says, _buttons, _hands, _cautions, just((STOP, LEAVE_BOLTS))),
        commands={"loosened": Handler(loosened, WATCHED), "tightened": "tighten"},
        took={e.Loosened: Took(_loosened)},
    ),
)
