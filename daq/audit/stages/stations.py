"""A check besides the sweep is read, station by station, in its table's order."""

import math
from dataclasses import dataclass, replace
from typing import cast

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.chosen import options_of, table_of
from daq.audit.facts import station_next, unit_of
from daq.audit.folding import foremost, go
from daq.audit.head import repeatability
from daq.audit.input import Input, Refused, Take, head_only
from daq.audit.parts import Flaw, Next, ReadAt, Step
from daq.audit.reading import check_contact, check_travel, orders, preload_told
from daq.audit.rounds import Chosen, Measure, Round
from daq.audit.stage import SETTLED, Handler, Shows, Stage, Took, half_read, just
from daq.audit.state import Job
from daq.audit.tapping import tap
from daq.audit.views import rounds as shown
from daq.audit.views.afterwards import face, known, measures
from daq.audit.views.afterwards import read as told_reading
from daq.audit.views.by_kind import contact_down
from daq.audit.views.common import WAIT_TURNING_NOTHING
from daq.audit.views.step import Wording
from daq.checks.kinds import kind
from daq.checks.outcome import Gauging, Result, reduce
from daq.checks.station import Taken
from daq.words import Command, Reading, Said, Shown, Word, said


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
    event = taken(job, given)
    readings = (*job.reads.taken, event.reading)
    if len(readings) < len(job.ahead.stations):
        return (event,)
    done = came_to(job, job.check, readings)
    return event, Measured(done, Next(_onto(done)))


def _onto(done: Round) -> Step:
    if not done.usable:
        return "stations"
    return "clear" if done.tap is None else "tap"


def place(job: Job, command: Command) -> ReadAt:
    """The station that a take is for; it must be the next one."""
    asked, station = Input(command).payload(Take), station_next(job)
    head_only(job, position=asked.position)
    if asked.station != station.key:
        raise Refused("other-station", next=station.name)
    return station


def taken(job: Job, given: Input) -> StationRead:
    """One reading; refused in the air and at the end of the gauge's travel."""
    station, reading = place(job, given.command), given.reading(None)
    check_contact(job, reading)
    check_travel(job, reading)
    pushed_mm = job.setup.gauge.pushed(reading.mean_mm)
    in_mm = pushed_mm - (job.gauge.free_pushed_mm or 0.0)
    told = preload_told(job, in_mm, station.name)
    return StationRead(station.key, reading, pushed_mm, in_mm, told)


def came_to(job: Job, check: Chosen, readings: tuple[Reading, ...]) -> Round:
    """What the readings of a whole round come to, judged by the shop's rule."""
    found = reduce(
        kind(check.kind),
        options_of(check),
        unit_of(job),
        _taken(job, check, readings),
        _gauging(job, readings),
        # Together is what both axes of a head are: a check's figures are judged one by one.
        replace(job.setup.machine.verdict, together="each"),
    )
    results = tuple(_measure(result) for result in found.results)
    findings = tuple(Flaw(f.said, f.blocking and not _again(job, f.said)) for f in found.findings)
    usable, word = not any(finding.blocking for finding in findings), _worst(results)
    askew = bool(check.ends) and usable and word != "in"
    return Round(
        number=len(job.rounds) + 1,
        why=job.reads.why,
        results=results,
        findings=findings,
        usable=usable,
        word=word,
        tap=tap(job, check, readings) if askew else None,
    )


def _taken(job: Job, check: Chosen, readings: tuple[Reading, ...]) -> list[Taken]:
    sequence = table_of(job, check).sequence
    return [
        Taken(station.key, job.setup.gauge.pushed(reading.mean_mm), at)
        for station, reading, at in zip(sequence, readings, orders(readings), strict=True)
    ]


def _gauging(job: Job, readings: tuple[Reading, ...]) -> Gauging:
    gauge, doubts, repeats = job.setup.gauge, job.setup.machine.uncertainty, repeatability(job)
    root_3, seen = math.sqrt(3.0), gauge.measured
    local_mm = doubts.local(gauge.max_error, gauge.resolution)
    checked = seen is not None and doubts.local_error is None and gauge.span_error is not None
    rubs_mm = None if seen is None else seen.friction_mm
    rubs_mm = doubts.friction if rubs_mm is None else rubs_mm
    return Gauging(
        resolution_mm=gauge.resolution,
        sd_mm=repeats.sd_mm,
        sd_dof=repeats.dof,
        scatter_mm=min(reading.sd_mm for reading in readings),
        local_mm=(gauge.span_error or 0.0) if checked else local_mm,
        scale=doubts.scale,
        friction_mm=root_3 * repeats.without(rubs_mm / root_3),
        local_checked=checked,
        measured=seen,
    )


def _measure(result: Result) -> Measure:
    quantity, judged = result.quantity, result.judged
    measure = Measure(
        name=quantity.name,
        value_mm=quantity.value_mm,
        limit_mm=quantity.limit_mm,
        doubt_mm=result.budget.expanded_mm,
        budget=result.budget,
        over_mm=quantity.over_mm,
        toward_deg=quantity.toward_deg,
        toward_doubt_deg=result.toward_doubt_deg,
    )
    noticed, shows = result.noticed, result.quantity.shows
    if noticed is not None and shows is not None:
        word: Word = "out" if noticed.moved else "in"
        return replace(measure, word=word, sees_mm=noticed.sees_mm / shows)
    if judged is None:
        return measure
    return replace(
        measure,
        word=judged.word,
        guard_mm=judged.guard_mm,
        probability=judged.probability,
        good_enough=judged.good_enough,
        basis=judged.basis,
        ruling=judged.ruling,
    )


def _worst(results: tuple[Measure, ...]) -> Word:
    words = {result.word for result in results}
    return "out" if "out" in words else "close" if "close" in words else "in"


def _again(job: Job, told: Said) -> bool:
    """Whether the round before showed the same misfit: then what is read has that form itself.

    A drift is none of these: what moves once may move again.
    """
    if told.code != "do-not-fit" or not job.rounds or job.rounds[-1].usable:
        return False
    before = [found.said for found in job.rounds[-1].findings if found.code == told.code]
    found_mm, allowed_mm = _mm(told, "found"), _mm(told, "allowed")
    return any(abs(found_mm - _mm(each, "found")) <= allowed_mm for each in before)


def _mm(told: Said, name: str) -> float:
    return cast(Shown, told.of[name]).mm


def read(job: Job, data: StationRead) -> Job:
    """One more reading of the round."""
    gauge = job.gauge.down()
    return replace(job, reads=job.reads.then(data.reading), gauge=gauge, message=data.said)


def measured(job: Job, data: Measured) -> Job:
    """The round is whole; one that is blocked is begun again."""
    return replace(
        go(job, data.next, foremost(data.round.findings)),
        reads=replace(job.reads.anew(), why="" if data.round.usable else job.reads.why),
        rounds=(*job.rounds, data.round),
    )


_FROM_ONE_SIDE = ("move-table", "move-along-jaw")
"""Where play in the table's screw would be read, too."""


def _says(job: Job) -> Wording:
    if shown.sets_on(job):
        return Wording(shown.next_at(job), contact_down(job), shown.before(job))
    at = shown.next_at(job)
    how = said("take-from-one-side") if at.code in _FROM_ONE_SIDE else said("take")
    how = said("take-again-there") if shown.comes_back(job) else how
    return Wording(at, how, shown.before(job))


def _cautions(job: Job) -> tuple[Said, ...]:
    return job.check.cautions if job.check is not None else ()


def _read_detail(job: Job, data: StationRead) -> tuple[Said, ...]:
    """Where, and what was read there."""
    named = [
        each.name for each in (job.ahead.stations if job.ahead else ()) if each.key == data.station
    ]
    at = named[0] if named else said("name", name=data.station)
    preload = said("row-preload", by=face(job, data.preload_mm))
    return known(said("row-station", at=at), told_reading(job, data.reading), preload, data.said)


def _round_detail(job: Job, data: Measured) -> tuple[Said, ...]:
    """What it came to."""
    return measures(job, data.round)


STAGES = (
    Stage(
        "stations",
        shows=Shows(
            "stations",
            _says,
            shown.actions,
            hands=shown.come,
            cautions=_cautions,
            halt=just(WAIT_TURNING_NOTHING),
            lowered=half_read,
        ),
        commands={
            "take": Handler(take, SETTLED, place),
            "touch": Handler(wish.touch),
            "again": Handler(wish.again),
        },
        took={
            StationRead: Took(
                read, undoable=True, told=said("station-was-read"), detail=_read_detail
            ),
            Measured: Took(measured, told=said("check-was-finished"), detail=_round_detail),
        },
    ),
)
