"""One line of the list of audits: what a row says of its audit, copied; nothing is computed anew.

A name of a person is an id in here, so that a name put right changes everywhere.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any, Final, Literal, cast
from zoneinfo import ZoneInfo

from daq.audit.events import (
    Abandoned,
    Addendum,
    AuditOpened,
    Data,
    GaugeChecked,
    HandedOver,
    ReportAmended,
    Signed,
    Voided,
)
from daq.audit.parts import AxisResult, Verdict
from daq.audit.reasons import REASONS, Reason
from daq.audit.setup import GaugeSetup
from daq.audit.stages.aside import Rested, TakenUp
from daq.metrology.budget import coverage_factor
from daq.words import Both, Event, Said, Unit, Word

State = Literal["open", "at-rest", "signed", "given-up"]

SQUARING: Final = "squaring"
"""The kind of an audit of the head; that of another check is its own key."""


@dataclass(frozen=True, slots=True)
class WrittenAt:
    """A row and when it was written; `sure`: of a clock that a time server had set."""

    row: int
    utc_us: int
    sure: bool


@dataclass(frozen=True, slots=True)
class Came:
    """What one axis came to, mm across the sweep; `doubt_mm`: the expanded uncertainty, 95 %."""

    word: Word
    error_mm: float
    limit_mm: float
    doubt_mm: float


@dataclass(frozen=True, slots=True)
class Used:
    """A gauge that an audit was bound to; `calibrated_on`: by its papers, an ISO date."""

    key: str
    name: str
    number: str
    calibrated_on: str | None


@dataclass(frozen=True, slots=True)
class AuditLine:
    """One audit. `kind`: "squaring" or the check's; `check`: what that is called.

    `day`: an ISO date in the shop's `zone`, that of its signature or end, while it is open of its
    opening. `done_by`, `reviewed_by`, `opened_by`: ids of people, "" where nobody was named;
    `hands`: those it went through, `added_by`: who added to it since. `taken_back`: how many of
    its rows were. `report`: which report of it is the latest, 0 while it is not signed. What came
    out of it is None until it is signed, and where it could not be told.
    """

    audit: str
    short: str
    machine: str
    name: str
    kind: str
    check: Said | None
    reason: Reason
    practice: bool
    unit: Unit
    opened: WrittenAt
    zone: str
    day: str
    gauges: tuple[Used, ...]
    opened_by: str = ""
    state: State = "open"
    closed: WrittenAt | None = None
    verdict: Verdict | None = None
    as_found: Both[Came] | None = None
    as_left: Both[Came] | None = None
    moves: int = 0
    done_by: str = ""
    reviewed_by: str = ""
    hands: tuple[str, ...] = ()
    added_by: tuple[str, ...] = ()
    taken_back: int = 0
    addenda: int = 0
    report: int = 0

    @property
    def people(self) -> frozenset[str]:
        """The ids of everybody who had to do with it."""
        named = (self.opened_by, self.done_by, self.reviewed_by, *self.hands, *self.added_by)
        return frozenset(named) - {""}


def opened(event: Event, data: AuditOpened) -> AuditLine:
    """An audit as it begins."""
    setup, asker = data.setup, event.cause.get("asker") or {}
    return AuditLine(
        audit=event.audit,
        short=data.short,
        machine=event.machine,
        name=setup.machine.name,
        kind=SQUARING if data.check is None else data.check.kind,
        check=None if data.check is None else data.check.name,
        reason=data.reason,
        practice=not REASONS[data.reason].kept,
        unit=setup.machine.unit,
        opened=_when(event),
        zone=setup.shop.time_zone,
        day=_day(event, setup.shop.time_zone),
        gauges=tuple(map(_used, setup.gauges)),
        opened_by=str(asker.get("person", "")),
    )


def then(line: AuditLine, event: Event, data: Data) -> AuditLine:
    """The line after one more row of its audit, of a type in `FOLDED`."""
    return FOLDED[type(data)](line, event, data)


def _signed(line: AuditLine, event: Event, data: Signed) -> AuditLine:
    ended = _ended(line, event, data)
    return replace(
        ended,
        state="signed",
        report=1,
        verdict=data.verdict,
        as_found=None if data.as_found is None else data.as_found.map(_came),
        as_left=None if data.as_left is None else data.as_left.map(_came),
        moves=data.moves,
        done_by=data.done_by,
        reviewed_by=data.reviewed_by,
    )


def _ended(line: AuditLine, event: Event, _: Data) -> AuditLine:
    return replace(line, state="given-up", closed=_when(event), day=_day(event, line.zone))


def _added(line: AuditLine, _: Event, data: Addendum) -> AuditLine:
    by = tuple(dict.fromkeys((*line.added_by, data.done_by)))
    return replace(line, addenda=line.addenda + 1, added_by=by, report=line.report + 1)


def _handed(line: AuditLine, _: Event, data: HandedOver) -> AuditLine:
    return replace(line, hands=tuple(dict.fromkeys((*line.hands, data.left_by, data.taken_by))))


def _voided(line: AuditLine, _: Event, data: Voided) -> AuditLine:
    return replace(line, taken_back=line.taken_back + len(data.voids))


_Change = Callable[[AuditLine, Event, Any], AuditLine]
FOLDED: Final[Mapping[type, _Change]] = {
    Signed: _signed,
    Abandoned: _ended,
    Addendum: _added,
    HandedOver: _handed,
    ReportAmended: lambda line, _, data: replace(line, report=data.nth),
    Voided: _voided,
    Rested: lambda line, _, __: replace(line, state="at-rest"),
    TakenUp: lambda line, _, __: replace(line, state="open"),
}
"""What the rows of an audit that its line follows change of it."""

TYPES: Final = tuple(
    sorted(each.__name__ for each in cast("tuple[type, ...]", (AuditOpened, GaugeChecked, *FOLDED)))
)
"""The types of the only rows that the list is made of."""


def _when(event: Event) -> WrittenAt:
    return WrittenAt(event.seq, event.stamp.utc_us, event.stamp.utc_trusted)


def _day(event: Event, zone: str) -> str:
    moment = datetime.fromtimestamp(event.stamp.utc_us / 1e6, UTC)
    try:
        return moment.astimezone(ZoneInfo(zone)).date().isoformat()
    except (KeyError, OSError, ValueError):  # a zone that this computer does not know
        return moment.date().isoformat()


def _used(gauge: GaugeSetup) -> Used:
    return Used(gauge.key, gauge.name, gauge.serial_number, gauge.calibrated_on)


def _came(result: AxisResult) -> Came:
    doubt_mm = coverage_factor(result.dof) * result.u_mm
    return Came(result.word, result.error_mm, result.limit_mm, doubt_mm)
