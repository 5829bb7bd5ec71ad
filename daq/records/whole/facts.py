"""Who and when, with what, in which condition: what the head of an audit's page says."""

from collections.abc import Iterator
from datetime import UTC, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from daq.audit.events import Signed
from daq.audit.gauge_setup import GaugeSetup
from daq.audit.held.table import TABLE, TableReady
from daq.audit.measurand import condition
from daq.audit.shop_papers import UTC as NO_ZONE
from daq.audit.shop_papers import Tool, the_tool
from daq.audit.views.figures import WIDE, length
from daq.audit.views.not_safe import listed
from daq.audit.views.remarks import opened_for
from daq.audit.views.table import kept
from daq.records.record import AuditRecord
from daq.words import Person, Said, Stamp, Text, said
from daq.words.certified import Certified
from daq.words.setup import Fact


def zone_of(record: AuditRecord) -> ZoneInfo | None:
    """The shop's zone as its file said it at opening; None where it named none, or none known."""
    key = record.opened.setup.shop.time_zone
    try:
        return None if key == NO_ZONE else ZoneInfo(key)
    except (ZoneInfoNotFoundError, ValueError):
        return None


def utc(stamp: Stamp) -> str:
    """When that was, UTC."""
    return f"{_at(stamp):%Y-%m-%d %H:%M:%S}"


def local(stamp: Stamp, zone: ZoneInfo | None) -> str:
    """The same by the clock on the shop's wall; nothing where its zone is not known."""
    return "" if zone is None else f"{_at(stamp).astimezone(zone):%Y-%m-%d %H:%M:%S %Z}"


def when(stamp: Stamp, zone: ZoneInfo | None) -> Said:
    """Both, and that no time server had set the clock, if none had."""
    here, sure = local(stamp, zone) or "none", "yes" if stamp.utc_trusted else "no"
    return said("record-when", utc=utc(stamp), local=here, sure=sure)


def _at(stamp: Stamp) -> datetime:
    return datetime.fromtimestamp(stamp.utc_us / 1_000_000, UTC)


def facts(record: AuditRecord) -> tuple[Fact, ...]:
    """All that is known, in the order it is read."""
    return (*_machine(record), *_people(record), *_tools(record), *_state(record))


def _machine(record: AuditRecord) -> Iterator[Fact]:
    setup = record.opened.setup
    told: tuple[tuple[str, Said, Text], ...] = (
        ("asset", said("file-asset"), setup.machine.asset),
        ("place", said("file-place"), setup.machine.place),
        ("customer", said("file-customer"), setup.machine.customer or setup.shop.customer),
        ("reason", said("fact-reason"), _reason(record)),
    )
    yield from (Fact(key, say, value) for key, say, value in told if value)


def _reason(record: AuditRecord) -> Said:
    job = record.job
    return opened_for(job.check, job.reason, squared=job.moves.squaring_asked)


def _people(record: AuditRecord) -> Iterator[Fact]:
    zone = zone_of(record)
    yield Fact("opened", said("fact-opened"), when(record.rows[0].event.stamp, zone))
    closed = record.closed
    if closed is None:
        return
    then = when(closed.event.stamp, zone)
    data = closed.data
    if not isinstance(data, Signed):
        yield Fact("given-up", said("fact-given-up"), then)
        return
    by = said("record-by", by=Person(data.done_by), when=then)
    yield Fact("signed", said("fact-signed"), by)
    if data.reviewed_by:
        yield Fact("reviewed", said("fact-reviewed"), said("row-by", by=Person(data.reviewed_by)))
    written = (
        ("last-good", said("fact-last-good"), data.last_good),
        ("disposition", said("fact-disposition"), data.disposition),
        ("note", said("fact-note"), data.note),
    )
    yield from (Fact(key, say, value) for key, say, value in written if value)


def _tools(record: AuditRecord) -> Iterator[Fact]:
    setup = record.opened.setup
    for gauge in setup.gauges:
        named = said("gauge-known", name=gauge.name, number=gauge.serial_number)
        yield Fact("gauge", said("file-gauge"), said("record-papers", of=named, are=_papers(gauge)))
    laid = record.job.sweeps.laid
    if laid is not None:
        named = said("name", name=laid.ring.say)
        are = _certified(laid.ring)
        yield Fact("ring", said("fact-ring"), said("record-papers", of=named, are=are))
    card = record.job.own.get(TABLE)
    if isinstance(card, TableReady):
        if card.wrench:
            yield _tool(the_tool(setup.tools, "wrench", card.wrench))
        if card.thermometer:
            yield _tool(the_tool(setup.tools, "thermometer", card.thermometer))


def _tool(tool: Tool) -> Fact:
    named = said("a-tool", tool=tool.kind, number=tool.number)
    are = _certified(tool)
    return Fact(tool.kind, said("fact-tool"), said("record-papers", of=named, are=are))


def _papers(gauge: GaugeSetup) -> Said:
    """What the gauge's papers said on the day the audit was opened."""
    told = _paper(gauge.certificate, gauge.laboratory, gauge.calibrated_on, gauge.calibration_due)
    if gauge.checked_on is not None:
        passed = "yes" if gauge.check_passed else "no"
        told.append(said("record-checked-on", day=gauge.checked_on, passed=passed))
    return listed(told) if told else said("no-papers")


def _certified(of: Certified) -> Said:
    day, due = (None if each is None else each.isoformat() for each in (of.calibrated_on, of.due))
    told = _paper(of.certificate, of.laboratory, day, due)
    return listed(told) if told else said("no-papers")


def _paper(
    certificate: str, laboratory: str, calibrated_on: str | None, due: str | None
) -> list[Said]:
    told = []
    if certificate:
        told.append(said("certificate-is", number=certificate))
    if laboratory:
        told.append(said("laboratory-is", name=laboratory))
    if calibrated_on:
        told.append(said("calibrated-on", day=calibrated_on))
    if due:
        told.append(said("good-until", day=due))
    return told


def _state(record: AuditRecord) -> Iterator[Fact]:
    job, machine = record.job, record.opened.setup.machine
    yield Fact("condition", said("head-condition"), condition(job))
    if job.check is None:
        across = length(machine.diameter, job.gauge.unit, WIDE)
        yield Fact("across", said("fact-across"), across)
    for number, each in enumerate(kept(job)):
        yield Fact(f"card-{number}", said("fact-card"), each)
