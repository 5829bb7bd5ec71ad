"""A check besides the sweep is read, station by station, in its table's order."""

from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.folding import go
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.rounds import Round
from daq.audit.stage import SETTLED, Handler, Shows, Stage, Took
from daq.audit.stages.stations import round
from daq.audit.state import Job
from daq.audit.views import rounds as shown
from daq.audit.views.common import preload, wait_turning_nothing
from daq.audit.views.step import Wording
from daq.words import Reading, Said, said


@dataclass(frozen=True)
class StationRead(e.OfStage):
    """A reading at a station. `said`: of its preload."""

    station: str
    reading: Reading
    pushed_mm: float
    preload_mm: float
    said: Said | None


@dataclass(frozen=True)
class Measured(e.OfStage):
    """Every station was read: what that came to."""

    round: Round
    next: Next


def take(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The reading at the next station; the last one is what the others are reduced with."""
    if job.check is None or job.ahead is None:
        raise Refused("not-this-step", step=job.step, asked=given.command.kind)
    one = round.taken(job, given)
    event = StationRead(one.station, one.reading, one.pushed_mm, one.preload_mm, one.said)
    readings = (*job.reads.taken, one.reading)
    if len(readings) < len(job.ahead.stations):
        return (event,)
    done = round.came_to(job, job.check, readings)
    return event, Measured(done, Next("clear" if done.usable else "stations"))


def read(job: Job, data: StationRead) -> Job:
    """One more reading of the round."""
    gauge = replace(job.gauge, lifted=False)
    return replace(job, reads=job.reads.then(data.reading), gauge=gauge, message=data.said)


def measured(job: Job, data: Measured) -> Job:
    """The round is whole; one that is blocked is begun again."""
    first = next(iter(sorted(data.round.findings, key=lambda found: not found.blocking)), None)
    return replace(
        go(job, data.next, first.said if first else None),
        reads=replace(job.reads.anew(), why="" if data.round.usable else job.reads.why),
        rounds=(*job.rounds, data.round),
    )


def _says(job: Job) -> Wording:
    if shown.sets_on(job):
        return Wording(shown.next_at(job), said("contact-on", preload=preload(job)))
    back = shown.comes_back(job)
    return Wording(shown.next_at(job), said("take-again-there") if back else said("take"))


def _cautions(job: Job) -> tuple[Said, ...]:
    return job.check.cautions if job.check is not None else ()


def _begun(job: Job) -> bool:
    return bool(job.reads.taken)


STAGES = (
    Stage(
        "stations",
        shows=Shows(
            "stations",
            _says,
            shown.actions,
            hands=shown.come,
            cautions=_cautions,
            halt=wait_turning_nothing,
            lowered=_begun,
        ),
        commands={
            "take": Handler(take, SETTLED, round.place),
            "touch": Handler(wish.touch),
            "again": Handler(wish.again),
        },
        took={
            StationRead: Took(read, undoable=True, told=said("station-was-read")),
            Measured: Took(measured, told=said("check-was-finished")),
        },
    ),
)
