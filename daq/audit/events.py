"""Every type of event, what it carries, and how it is read back.

An event carries what was shown when it was made. Fields are millimetres on the
gauge's own face where they end in `face_mm`, pushed-in millimetres where they end
in `pushed_mm`. Changing a type's fields means a new version and an upcast here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from daq.audit.parts import (
    AxisResult,
    Finding,
    Next,
    Point,
    Purpose,
    Question,
    StopAt,
    Word,
)
from daq.audit.setup import AuditSetup, Reason
from daq.settings import build, plain
from daq.words import Axis, Event, Reading


@dataclass(frozen=True)
class AuditOpened:
    """An audit begins; everything it will need is in here."""

    short: str
    reason: Reason
    setup: AuditSetup
    engine: str


@dataclass(frozen=True)
class Prepared:
    """The preparation card was read and the number on the gauge confirmed."""

    serial_number: str


@dataclass(frozen=True)
class FreeRead:
    """The gauge with its contact in the air: its unit, free reading and noise."""

    reading: Reading
    unit: Literal["mm", "in"]
    pushed_mm: float
    spread_mm: float


@dataclass(frozen=True)
class Pushed:
    """The contact was pushed by hand; `ok` when the number moved the way the file says."""

    ok: bool
    excursion_face_mm: float
    say: str


@dataclass(frozen=True)
class ReadingTaken:
    """A reading at a position, in a sweep or a pair check."""

    reading: Reading
    pushed_mm: float
    preload_mm: float | None
    say: str


@dataclass(frozen=True)
class SweepDone:
    """A full sweep, reduced. Not `usable` when a finding blocks it."""

    number: int
    purpose: Purpose
    why: str
    center_pushed_mm: float
    side_slope: float
    nod_slope: float
    return_error_mm: float
    spare_mm: float | None
    points: tuple[Point, ...]
    findings: tuple[Finding, ...]
    usable: bool
    side: AxisResult
    nod: AxisResult
    word: Word
    next: Next


@dataclass(frozen=True)
class Parked:
    """The parked reading: the base of the stop-at, or a question instead."""

    axis: Axis
    reading: Reading
    pushed_mm: float
    expected_pushed_mm: float
    question: Question | None
    stop: StopAt | None
    next: Next


@dataclass(frozen=True)
class Answered:
    """A question was answered; what follows from the answer."""

    question: str
    key: str
    points: tuple[Point, ...]
    side: AxisResult
    nod: AxisResult
    stop: StopAt | None
    next: Next


@dataclass(frozen=True)
class Zeroed:
    """The gauge was zeroed or preset: everything remembered shifts, the stop-at is void."""

    before_face_mm: float
    after_face_mm: float
    free_pushed_mm: float | None
    points: tuple[Point, ...]
    say: str
    next: Next


@dataclass(frozen=True)
class BaseRead:
    """The parked spot read again after a zero; `stop` counts from the new zero."""

    axis: Axis
    reading: Reading
    pushed_mm: float
    stop: StopAt
    next: Next


@dataclass(frozen=True)
class Loosened:
    """The axis's bolts were cracked. `drop_face_mm` is what the number did; the stop-at stays."""

    axis: Axis
    reading: Reading
    drop_face_mm: float
    next: Next


@dataclass(frozen=True)
class Moved:
    """The adjuster was turned. `past_face_mm`: reading minus stop-at."""

    axis: Axis
    reading: Reading
    past_face_mm: float
    next: Next


@dataclass(frozen=True)
class CheckDone:
    """A pair check. `shift_mm`: how tightening changed the difference, if that came between.

    `side_slack_mm`, `nod_slack_mm`: how far the other axis has moved since each axis
    was last read, as a difference on the sweep; it widens what counts as agreement.
    """

    axis: Axis
    points: tuple[Point, ...]
    side: AxisResult
    nod: AxisResult
    shift_mm: float | None
    side_slack_mm: float
    nod_slack_mm: float
    next: Next


@dataclass(frozen=True)
class Tightened:
    """The axis's bolts are tight again."""

    axis: Axis
    next: Next


@dataclass(frozen=True)
class SweepWanted:
    """Another full sweep on purpose, and why."""

    why: str
    next: Next


@dataclass(frozen=True)
class Cleared:
    """The arm is out and the wrench is off the drawbar."""


@dataclass(frozen=True)
class Signed:
    """The verdict, signed. The audit is closed."""

    done_by: str
    reviewed_by: str
    note: str
    last_good: str
    disposition: str
    verdict: Literal["conforms", "does not conform"]
    as_found: tuple[AxisResult, AxisResult]
    as_left: tuple[AxisResult, AxisResult]
    moves: int


@dataclass(frozen=True)
class Abandoned:
    """The audit is closed without a verdict."""

    why: str


@dataclass(frozen=True)
class Voided:
    """The last step was taken back. What it wrote stays in the ledger, marked by this."""

    voids: tuple[int, ...]


@dataclass(frozen=True)
class GaugeFault:
    """The bound gauge stopped giving readings."""

    code: str
    say: str


@dataclass(frozen=True)
class GaugeBack:
    """The bound gauge gives readings again."""

    run: str


Data = (
    AuditOpened | Prepared | FreeRead | Pushed | ReadingTaken | SweepDone | Parked | Answered
    | Zeroed | BaseRead | Loosened | Moved | CheckDone | Tightened | SweepWanted | Cleared
    | Signed | Abandoned | Voided | GaugeFault | GaugeBack
)  # fmt: skip

VERSION = 1
TYPES: Mapping[str, type[Data]] = {cls.__name__: cls for cls in Data.__args__}


class UnknownEvent(ValueError):
    """The ledger holds an event this release cannot read."""


def encode(data: Data) -> tuple[str, int, dict[str, Any]]:
    """An event's type name, version and JSON-ready data."""
    return type(data).__name__, VERSION, plain(data)


def decode(event: Event) -> Data:
    """The typed data of a committed event.

    Raises:
        UnknownEvent: its type or version is not one this release knows.
    """
    cls = TYPES.get(event.type)
    if cls is None or event.v != VERSION:
        known = ", ".join(sorted(TYPES))
        raise UnknownEvent(
            f"ledger row {event.seq}: found {event.type} version {event.v}; "
            f"this release reads version {VERSION} of {known}"
        )
    return build(cls, event.data, f"ledger row {event.seq}", quantities="plain")
