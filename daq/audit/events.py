"""Every type of event and what it carries.

An event carries what was shown when it was made. Fields are millimetres on the
gauge's own face where they end in `face_mm`, pushed-in millimetres where they end
in `pushed_mm`. Changing a type's fields means a new version and an upcast in `codec`.
"""

from dataclasses import dataclass
from typing import Literal

from daq.audit.gauge_events import GaugeBack as GaugeBack
from daq.audit.gauge_events import GaugeChecked as GaugeChecked
from daq.audit.gauge_events import GaugeFault as GaugeFault
from daq.audit.gauge_events import GaugeNoted as GaugeNoted
from daq.audit.parts import (
    AxisResult,
    Finding,
    Next,
    Point,
    Purpose,
    Question,
    StopAt,
)
from daq.audit.setup import AuditSetup, Reason
from daq.words import Axis, Reading


@dataclass(frozen=True)
class AuditOpened:
    """An audit begins; everything it will need is in here."""

    short: str
    reason: Reason
    setup: AuditSetup


@dataclass(frozen=True)
class Prepared:
    """The preparation card was read and the number on the gauge confirmed."""

    serial_number: str


@dataclass(frozen=True)
class FreeRead:
    """The gauge with its contact in the air: its unit, free reading and noise.

    Read again in the middle of an audit it shows whether the gauge was zeroed: `points`
    are then what the positions read in the zero of now; `restart`: readings under way
    were of the old one.
    """

    reading: Reading
    unit: Literal["mm", "in"]
    pushed_mm: float
    spread_mm: float
    points: tuple[Point, ...]
    restart: bool
    say: str
    next: Next


@dataclass(frozen=True)
class Pushed:
    """The contact was pushed by hand; `ok` when the number moved the way the file says."""

    ok: bool
    excursion_face_mm: float
    say: str
    next: Next


@dataclass(frozen=True)
class ReadingTaken:
    """A reading at a position, in a sweep or a pair check.

    `second`: what the other gauge of a two-gauge bar read at the same take.
    """

    reading: Reading
    pushed_mm: float
    preload_mm: float | None
    say: str
    second: Reading | None = None


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
    next: Next


@dataclass(frozen=True)
class Parked:
    """The parked reading: the base of the stop-at, or a question instead. `say`: of its preload."""

    axis: Axis
    reading: Reading
    pushed_mm: float
    expected_pushed_mm: float
    question: Question | None
    stop: StopAt | None
    say: str
    next: Next


@dataclass(frozen=True)
class Answered:
    """A question was answered; what follows from the answer.

    `sweep`: the latest sweep with its labels put right; `why`: why another is wanted.
    """

    question: str
    key: str
    why: str
    sweep: SweepDone | None
    free_pushed_mm: float | None
    points: tuple[Point, ...]
    side: AxisResult
    nod: AxisResult
    stop: StopAt | None
    next: Next


@dataclass(frozen=True)
class Zeroed:
    """The gauge was zeroed: everything remembered shifts, the stop-at is void.

    With `resume` set it may as well have been lifted off the surface (it reads the same
    in the air): nothing shifts until the free reading, taken again, tells. `lost_face_mm`
    is what the parked spot read just before, when a base is to be carried over.
    """

    before_face_mm: float
    after_face_mm: float
    lost_face_mm: float | None
    resume: Next | None
    restart: bool
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

    `before_tightening_mm`: the difference to compare with once the bolts are tight.
    `side_slack_mm`, `nod_slack_mm`: how far the other axis has moved since each axis
    was last read, as a difference on the sweep; it widens what counts as agreement.
    """

    axis: Axis
    points: tuple[Point, ...]
    side: AxisResult
    nod: AxisResult
    shift_mm: float | None
    before_tightening_mm: float | None
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
class TouchWanted:
    """The free reading is to be taken again; then the audit goes on at `resume`."""

    resume: Next
    next: Next


@dataclass(frozen=True)
class StopHere:
    """No more moves, although an axis is out: the audit is to report what is."""

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


Data = (
    AuditOpened | Prepared | FreeRead | Pushed | ReadingTaken | SweepDone | Parked | Answered
    | Zeroed | BaseRead | Loosened | Moved | CheckDone | Tightened | SweepWanted | TouchWanted
    | StopHere | Cleared | GaugeChecked
    | Signed | Abandoned | Voided | GaugeNoted
    | GaugeFault | GaugeBack
)  # fmt: skip
