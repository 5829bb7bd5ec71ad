"""What a reading was made with, and how machine and table stood meanwhile."""

import math
from collections.abc import Iterator
from datetime import date

from daq.audit.gauge_setup import GaugeSetup
from daq.audit.held.table import TABLE, TICKS, TableReady
from daq.audit.measurand import condition
from daq.audit.shop_papers import Tool, the_tool
from daq.audit.stages.angled import SetBack
from daq.audit.stages.crashed import BoltsTried
from daq.audit.stages.levelled import Levelled
from daq.audit.state import Job
from daq.audit.views.remarks import SET_BACK
from daq.audit.views.table import kept, tick
from daq.checks.sweep.rings import NamedRing
from daq.records.record import AuditRecord
from daq.report.data import Instrument, Role
from daq.words import Figure, Said, said
from daq.words.certified import Certified


def conditions(record: AuditRecord) -> tuple[Said, ...]:
    """Return what is known of table, quill, knee, ram, locks, warmth and bolts, a sentence each."""
    return tuple(_conditions(record, record.job))


def _conditions(record: AuditRecord, job: Job) -> Iterator[Said]:
    stated = condition(job)
    yield said("paper-condition", condition=stated)
    table = job.own.get(TABLE)
    if isinstance(table, TableReady):
        done = tuple(tick(job, each) for each in TICKS if each not in table.not_done)
        if done:
            yield said("paper-table", done=done)
    yield from kept(job)
    yield said("paper-ram", angle=Figure(math.degrees(job.setup.machine.ram_angle), 1))
    for row in record.rows:
        if row.voided_by is not None:
            continue
        if isinstance(row.data, BoltsTried):
            bolts = tuple(said("name", name=each) for each in row.data.moved)
            yield said("paper-bolts-loose", bolts=bolts) if bolts else said("paper-bolts-tight")
        if isinstance(row.data, SetBack):
            yield SET_BACK
        if isinstance(row.data, Levelled):
            yield said("paper-levelled")


def instruments(record: AuditRecord) -> tuple[Instrument, ...]:
    """Return every gauge, ring, torque wrench and thermometer that was used, with its papers."""
    return tuple(_instruments(record.job))


def _instruments(job: Job) -> Iterator[Instrument]:
    setup, day = job.setup, job.setup.day
    yield _gauge("gauge", setup.gauge, day)
    if setup.second_gauge is not None:
        yield _gauge("second-gauge", setup.second_gauge, day)
    if job.sweeps.laid is not None:
        yield _ring(job.sweeps.laid.ring, day)
    table = job.own.get(TABLE)
    if isinstance(table, TableReady):
        if table.wrench:
            yield _tool(the_tool(setup.tools, "wrench", table.wrench), day)
        if table.thermometer:
            yield _tool(the_tool(setup.tools, "thermometer", table.thermometer), day)


def _gauge(role: Role, gauge: GaugeSetup, day: str) -> Instrument:
    return Instrument(
        role=role,
        name=gauge.name,
        number=gauge.serial_number,
        certificate=gauge.certificate,
        laboratory=gauge.laboratory,
        calibrated_on=gauge.calibrated_on or "",
        due=gauge.calibration_due,
        overdue=bool(day) and gauge.calibration_due < day,
    )


def _ring(ring: NamedRing, day: str) -> Instrument:
    return _certified("ring", ring.say, ring.key, ring, day)


def _tool(tool: Tool, day: str) -> Instrument:
    return _certified(tool.kind, tool.say, tool.number, tool, day)


def _certified(role: Role, name: str, number: str, papers: Certified, day: str) -> Instrument:
    return Instrument(
        role=role,
        name=name,
        number=number,
        certificate=papers.certificate,
        laboratory=papers.laboratory,
        calibrated_on=_iso(papers.calibrated_on),
        due=_iso(papers.due),
        overdue=papers.due is not None and bool(day) and papers.due.isoformat() < day,
    )


def _iso(day: date | None) -> str:
    return "" if day is None else day.isoformat()
