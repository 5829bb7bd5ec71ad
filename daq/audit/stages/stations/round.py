"""A check besides the sweep: a reading at each station in its order, and what a round came to."""

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import cast

from daq.audit.chosen import options_of, table_of
from daq.audit.facts import station_next, unit_of
from daq.audit.head import repeatability
from daq.audit.input import Input, Refused, Take, head_only
from daq.audit.parts import Flaw, ReadAt
from daq.audit.reading import check_contact, check_travel, preload
from daq.audit.rounds import Chosen, Measure, Round
from daq.audit.state import Job
from daq.checks.kinds import kind
from daq.checks.outcome import Gauging, Result, reduce
from daq.checks.station import Taken
from daq.words import Command, Reading, Said, Shown, Word


@dataclass(frozen=True)
class StationReading:
    """A reading at a station, with its preload; `said`: of that."""

    station: str
    reading: Reading
    pushed_mm: float
    preload_mm: float
    said: Said | None


def place(job: Job, command: Command) -> ReadAt:
    """The station that a take is for; it must be the next one."""
    asked, station = Input(command).payload(Take), station_next(job)
    head_only(job, position=asked.position)
    if asked.station != station.key:
        raise Refused("other-station", next=station.name)
    return station


def taken(job: Job, given: Input) -> StationReading:
    """One reading; refused in the air and at the end of the gauge's travel."""
    station, reading = place(job, given.command), given.reading(None)
    check_contact(job, reading)
    check_travel(job, reading)
    pushed_mm = job.setup.gauge.pushed(reading.mean_mm)
    in_mm = pushed_mm - (job.gauge.free_pushed_mm or 0.0)
    told = preload(job, in_mm, station.name)
    return StationReading(station.key, reading, pushed_mm, in_mm, told)


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
    return Round(
        number=len(job.rounds) + 1,
        why=job.reads.why,
        results=results,
        findings=findings,
        usable=not any(finding.blocking for finding in findings),
        word=_worst(results),
    )


def _taken(job: Job, check: Chosen, readings: tuple[Reading, ...]) -> list[Taken]:
    """Each reading with the seconds since the first; their count when the clock was broken."""
    times = [(r.mid_ns - readings[0].mid_ns) / 1e9 for r in readings]
    if not all(before < after for before, after in pairwise(times)):
        times = [float(i) for i in range(len(readings))]
    sequence = table_of(job, check).sequence
    return [
        Taken(station.key, job.setup.gauge.pushed(reading.mean_mm), at)
        for station, reading, at in zip(sequence, readings, times, strict=True)
    ]


def _gauging(job: Job, readings: tuple[Reading, ...]) -> Gauging:
    gauge, doubts, repeats = job.setup.gauge, job.setup.machine.uncertainty, repeatability(job)
    return Gauging(
        resolution_mm=gauge.resolution,
        sd_mm=repeats.sd_mm,
        sd_dof=repeats.dof,
        scatter_mm=min(reading.sd_mm for reading in readings),
        local_mm=doubts.local(gauge.max_error),
        scale=doubts.scale,
        friction_mm=doubts.friction,
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
    if judged is None:
        return measure
    return replace(
        measure,
        word=judged.word,
        guard_mm=judged.guard_mm,
        probability=judged.probability,
        good_enough=judged.good_enough,
        basis=judged.basis,
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
