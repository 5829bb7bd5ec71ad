"""What speaks against a gauge, and against the dates a verdict rests on: one place judges it.

It is judged from a gauge's papers, its latest check, and a clock's day; nobody reads either here.
"""

import datetime
from dataclasses import dataclass

from daq.audit.history import day_of
from daq.audit.state import Job
from daq.words import Said, said


@dataclass(frozen=True)
class Papers:
    """A gauge as people know it, its days as ISO dates; `failed`: that of its latest check."""

    gauge: str
    due: str
    calibrated: str | None = None
    failed: str | None = None


def named(name: str, serial_number: str) -> str:
    """The gauge as people know it: its name and the number on its housing."""
    return f"{name} ({serial_number})"


def said_against(papers: Papers, today: str, *, sure: bool) -> tuple[Said, ...]:
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
    """Return every fact for which signing an open audit's verdict asks a reason.

    The day, and whether its clock is sure, are those of the latest step: whoever signs sees them.
    """
    today, sure = day_of(job.since), job.since.utc_trusted
    found: list[Said] = []
    for gauge in job.setup.gauges:
        known = named(gauge.name, gauge.serial_number)
        check = job.meanwhile.checks.get(gauge.key)
        failed = gauge.checked_on if gauge.check_passed is False else None
        if check is not None and check.serial_number == gauge.serial_number:
            failed = None if check.passed else check.day
        papers = Papers(known, gauge.calibration_due, gauge.calibrated_on, failed)
        against = said_against(papers, today, sure=sure)
        found += against
        if not sure and all(each.code != "calibration-overdue" for each in against):
            found.append(said("due-not-judged", gauge=known, day=papers.due, today=today))
    step = job.meanwhile.step
    if step is not None:
        before, after = (_day_and_time(us) for us in (step.before_us, step.after_us))
        found.append(said("clock-set-meanwhile", before=before, after=after))
    return tuple(found)


def _day_and_time(utc_us: int) -> str:
    moment = datetime.datetime.fromtimestamp(utc_us // 1_000_000, datetime.UTC)
    return moment.strftime("%Y-%m-%d %H:%M:%S")
