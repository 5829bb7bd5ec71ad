"""What speaks against a gauge, and against the dates a verdict rests on: one place judges it.

It is judged from a gauge's papers, its latest check, and a clock's day; nobody reads either here.
"""

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from daq.audit.clock_events import ClockStepped
from daq.audit.history import day_of
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.words import Said, said


@dataclass(frozen=True)
class GaugePapers:
    """A gauge as people know it, its days as ISO dates; `failed`: that of its latest check."""

    gauge: str
    due: str
    calibrated: str | None = None
    failed: str | None = None


def named(name: str, serial_number: str) -> str:
    """The gauge as people know it: its name and the number on its housing."""
    return f"{name} ({serial_number})"


def said_against(papers: GaugePapers, today: str, *, sure: bool) -> tuple[Said, ...]:
    """Return what speaks against a gauge today.

    The last day on which the calibration is due still counts as good. A calibration still to
    come is doubted only by a clock that is `sure`: a Pi without one starts in the past.
    """
    found: list[Said] = []
    if sure and papers.calibrated is not None and papers.calibrated > today:
        found.append(said("calibrated-ahead", gauge=papers.gauge, day=papers.calibrated))
    if papers.due < today:
        found.append(said("calibration-overdue", gauge=papers.gauge, day=papers.due))
    if papers.failed is not None:
        found.append(said("check-was-failed", gauge=papers.gauge, day=papers.failed))
    return tuple(found)


def speaks_against(job: Job) -> tuple[Said, ...]:
    """Return every fact for which signing an open audit's verdict asks a reason; none in practice.

    The day, and whether its clock is sure, are those of the latest step: whoever signs sees them.
    A clock that was set is one where it changes what is to be said of a gauge.
    """
    if not REASONS[job.reason].kept:
        return ()
    today, sure = day_of(job.since), job.since.utc_trusted
    found = [fact for papers in _papers(job) for fact in said_against(papers, today, sure=sure)]
    step = job.meanwhile.step
    if step is not None and _changes(job, step):
        found.append(_was_set(step))
    return tuple(found)


def noted(job: Job) -> tuple[Said, ...]:
    """Return what is only noted with a verdict: dates that are good as the clock stands.

    A Pi that no time server reaches is never sure of its clock, and asks nobody why.
    """
    if not REASONS[job.reason].kept:
        return ()
    found: list[Said] = []
    if not job.since.utc_trusted:
        found.append(said("clock-not-sure", today=day_of(job.since)))
    step = job.meanwhile.step
    if step is not None and not _changes(job, step):
        found.append(_was_set(step))
    return tuple(found)


def _papers(job: Job) -> Iterator[GaugePapers]:
    """Those of every gauge of an audit, its latest check among them."""
    for gauge in job.setup.gauges:
        check = job.meanwhile.checks.get(gauge.key)
        failed = gauge.checked_on if gauge.check_passed is False else None
        if check is not None and check.serial_number == gauge.serial_number:
            failed = None if check.passed else check.day
        known = named(gauge.name, gauge.serial_number)
        yield GaugePapers(known, gauge.calibration_due, gauge.calibrated_on, failed)


def _changes(job: Job, step: ClockStepped) -> bool:
    """Whether a gauge's papers are good on the one side of a step and not on the other."""
    sure = job.since.utc_trusted
    before, after = (_day_and_time(us)[0] for us in (step.before_us, step.after_us))
    return any(
        said_against(papers, before, sure=sure) != said_against(papers, after, sure=sure)
        for papers in _papers(job)
    )


def _was_set(step: ClockStepped) -> Said:
    before, after = (" ".join(_day_and_time(us)) for us in (step.before_us, step.after_us))
    return said("clock-set-meanwhile", before=before, after=after)


def _day_and_time(utc_us: int) -> tuple[str, str]:
    moment = datetime.datetime.fromtimestamp(utc_us // 1_000_000, datetime.UTC)
    return moment.strftime("%Y-%m-%d"), moment.strftime("%H:%M:%S")
