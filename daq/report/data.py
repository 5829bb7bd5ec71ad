"""What a report says, as codes, numbers and texts: the JSON report, and what all others show.

Lengths are mm and never rounded; beside them stand the texts that are shown. Moments are ISO 8601
with their distance from UTC, days ISO dates. A text is in the report's language; "" for nothing.
A field's name or meaning changes only with another `SCHEMA`.
"""

from dataclasses import dataclass
from typing import Final, Literal

from daq.audit.parts import Purpose, Verdict
from daq.audit.reasons import Reason
from daq.report.figures import ShownResult
from daq.report.number import ReportAnchor
from daq.report.readings import ReadingLine
from daq.words import Both, Word

SCHEMA: Final = "headsweep-report-1"
"""The form of a JSON report."""

Status = Literal["signed", "given-up", "draft"]
"""A report of an audit that is not signed is a draft, and marked so on every page."""


Role = Literal["gauge", "second-gauge", "ring", "wrench", "thermometer"]


@dataclass(frozen=True)
class Issue:
    """Which report of the audit it is. `replaces`: the number of the one before, "" for the first.

    `with_addenda`: how many were added after the signature. `issued`: "" for a draft.
    """

    number: str
    replaces: str
    because: str
    issued: str
    with_addenda: int


@dataclass(frozen=True)
class ShopPart:
    """Who made it; `method` and `revision`: by which instruction of theirs."""

    name: str
    address: str
    method: str
    revision: str
    paper: Literal["A4", "Letter"]
    time_zone: str


@dataclass(frozen=True)
class MachinePart:
    """The machine: its key in the shop's files, its name, number, place, and whose it is."""

    key: str
    name: str
    asset: str
    place: str
    customer: str


@dataclass(frozen=True)
class WhenDone:
    """When it was opened and signed (or given up), "" where it was not.

    `clock_set`: by a clock that a time server had set.
    """

    opened: str
    done: str
    clock_set: bool


@dataclass(frozen=True)
class Instrument:
    """Something that was measured with, and its papers as of the day it was used.

    `due`: the last day its calibration is good for; `overdue`: that day was past.
    """

    role: Role
    name: str
    number: str
    certificate: str
    laboratory: str
    calibrated_on: str
    due: str
    overdue: bool


@dataclass(frozen=True)
class FoundAndLeft:
    """One thing as found beside as left; of a check that changes nothing only `as_left`.

    `key`: "side", "nod", or "" of another check. `tolerance`: what was allowed when the audit was
    opened, in the words of the machine's file.
    """

    key: str
    name: str
    tolerance: str
    as_found: ShownResult | None
    as_left: ShownResult | None


@dataclass(frozen=True)
class RuleSaid:
    """The decision rule; None in the JSON where nothing was judged."""

    name: Literal["simple", "guarded"]
    coverage: float
    together: Literal["each", "jointly", "vector"]
    share: float
    say: str


@dataclass(frozen=True)
class Past:
    """What was found out means for the work since `last_good`; who decided on it, by name.

    Not `asked` where the head was found in, or nothing is to be concluded from how it was found.
    """

    asked: bool
    last_good: str
    disposition: str
    decided_by: str


@dataclass(frozen=True)
class Signature:
    """Who stands for it. `proved`: by their PIN; `row`: of the ledger, in which that stands."""

    role: Literal["done", "reviewed"]
    name: str
    proved: bool
    row: int
    at: str


@dataclass(frozen=True)
class SweepPart:
    """A full sweep, or another check's round. `why`: the reason it was taken again.

    `return_error_mm`: how far the first spot read off when it was read again at the end.
    """

    number: int
    row: int
    purpose: Purpose | None
    why: str
    usable: bool
    as_found: bool
    as_left: bool
    taken_back_by: int | None
    words: tuple[Word, ...]
    return_error_mm: float | None
    findings: tuple[str, ...]
    results: tuple[str, ...]


@dataclass(frozen=True)
class TermPart:
    """One part of an uncertainty: what it is, where it comes from; standard uncertainty, mm."""

    name: str
    note: str
    u_mm: float
    dof: float | None
    cancels: bool


@dataclass(frozen=True)
class BudgetPart:
    """The uncertainty of one result, term by term, the largest first."""

    of: str
    sweep: int
    terms: tuple[TermPart, ...]
    u_mm: float
    dof: float | None
    k: float
    expanded_mm: float
    coverage: float


@dataclass(frozen=True)
class RowPart:
    """A row of the ledger that belongs to the audit, told in words.

    `let_go_by`: the row by which the samples behind it were let go, by the shop's own policy.
    """

    row: int
    hash: str
    at: str
    type: str
    what: str
    detail: tuple[str, ...]
    by: str
    taken_back_by: int | None
    sound: bool
    let_go_by: int | None


@dataclass(frozen=True)
class AddendumPart:
    """What somebody added after the signature."""

    row: int
    at: str
    kind: str
    text: str
    by: str


@dataclass(frozen=True)
class ReportData:
    """A report on one audit.

    `unread`: why there is nothing as found, such as that the head was off the gauge's scale.
    `scope`: what it relates to and what it says nothing of. `config`: SHA-256 of the files that
    the audit was opened with.
    """

    schema: str
    made_by: str
    title: str
    status: Status
    practice: bool
    audit: str
    short: str
    check: str
    reason: Reason
    reason_say: str
    issue: Issue
    anchor: ReportAnchor
    shop: ShopPart
    machine: MachinePart
    done: WhenDone
    measurand: str
    conditions: tuple[str, ...]
    instruments: tuple[Instrument, ...]
    results: tuple[FoundAndLeft, ...]
    unread: str
    verdict: Verdict | None
    verdict_say: str
    rule: RuleSaid | None
    moves: int
    shifts_mm: Both[float | None]
    past: Past
    signatures: tuple[Signature, ...]
    remarks: tuple[str, ...]
    note: str
    sweeps: tuple[SweepPart, ...]
    budgets: tuple[BudgetPart, ...]
    readings: tuple[ReadingLine, ...]
    rows: tuple[RowPart, ...]
    addenda: tuple[AddendumPart, ...]
    scope: tuple[str, ...]
    config: str
