"""Every type of event and what it carries.

An event carries what was shown when it was made. Fields are millimetres on the
gauge's own face where they end in `face_mm`, pushed-in millimetres where they end
in `pushed_mm`. What stands in `said` is shown in words; a text is a person's own, or
a name out of the shop's files. Changing a type's fields means a new version in `codec`.
"""

from dataclasses import dataclass

from daq.audit.attested import AuditAttested as AuditAttested
from daq.audit.clock_events import ClockStepped as ClockStepped
from daq.audit.closing_events import Abandoned as Abandoned
from daq.audit.closing_events import Addendum as Addendum
from daq.audit.closing_events import AnswerKept as AnswerKept
from daq.audit.closing_events import HandedOver as HandedOver
from daq.audit.closing_events import MadeSafe as MadeSafe
from daq.audit.closing_events import PutAside as PutAside
from daq.audit.closing_events import ReportAmended as ReportAmended
from daq.audit.closing_events import Signed as Signed
from daq.audit.decide_parts import Decidable
from daq.audit.gauge_events import GaugeBack as GaugeBack
from daq.audit.gauge_events import GaugeChecked as GaugeChecked
from daq.audit.gauge_events import GaugeFault as GaugeFault
from daq.audit.gauge_events import GaugeNoted as GaugeNoted
from daq.audit.gauge_events import Zeroed as Zeroed
from daq.audit.move_events import BaseRead as BaseRead
from daq.audit.move_events import BoltPulled as BoltPulled
from daq.audit.move_events import BroughtCloser as BroughtCloser
from daq.audit.move_events import CheckDone as CheckDone
from daq.audit.move_events import Loosened as Loosened
from daq.audit.move_events import Moved as Moved
from daq.audit.move_events import OffScale as OffScale
from daq.audit.move_events import Parked as Parked
from daq.audit.move_events import StopDoubted as StopDoubted
from daq.audit.move_events import Tightened as Tightened
from daq.audit.parts import (
    Added,
    Anew,
    AxisResult,
    Budget,
    Effect,
    Flaw,
    Next,
    Point,
    Purpose,
    StopAt,
    Turned,
    Whole,
)
from daq.audit.reasons import Reason
from daq.audit.record_events import SamplesLetGo as SamplesLetGo
from daq.audit.rounds import Chosen
from daq.audit.setup import AuditSetup
from daq.checks.sweep.by_mark import Taught
from daq.checks.sweep.rings import Laid
from daq.checks.sweep.slow_turn.fit import SlowTurn
from daq.checks.sweep.spindle import Clamped
from daq.squaring.learned import Learned
from daq.squaring.surmise import Guess
from daq.words import Axis, Both, Reading, Said, Unit


@dataclass(frozen=True)
class AuditOpened:
    """An audit begins; everything it will need is in here.

    `check`: what is checked, None for the head against its table.
    """

    short: str
    reason: Reason
    setup: AuditSetup
    check: Chosen | None = None
    next: Next = Next("prepare")  # noqa: RUF009 - frozen


@dataclass(frozen=True)
class Prepared:
    """The preparation card was read and the number on the gauge confirmed.

    `learned`: what the head's answers start from when its ram or turret was moved since:
    what was learned before is void. `touched`: gauge or head were, while the service was off;
    nothing read before holds for where they stand now, and the audit goes on at `anew`.
    `cracked`: the bolts of its axis are loose since then. `laid`: which of the shop's named rings
    lies on the table, and where its mark points, if that was said; `clamped`: the same of the arm.
    """

    serial_number: str
    learned: Learned | None = None
    touched: bool = False
    anew: Anew | None = None
    cracked: bool = False
    next: Next = Next("touch-free")  # noqa: RUF009 - frozen
    laid: Laid | None = None
    clamped: Clamped | None = None


@dataclass(frozen=True)
class Restarted:
    """The service was off in the middle of this audit: what happened meanwhile is not known.

    No base and no half-read sweep or pair outlives it. `anew`: the lock, the gauge and its
    zero are asked about first; None where nothing is to be read any more.
    """

    said: Said | None
    anew: Anew | None
    next: Next


@dataclass(frozen=True)
class FreeRead:
    """The gauge with its contact in the air: its unit, free reading and noise.

    Read again in the middle of an audit it shows whether the gauge was zeroed: `points`
    are then what the positions read in the zero of now; `restart`: readings under way
    were of the old one. `streams`: numbers come by themselves, several while a hand moves it.
    """

    reading: Reading
    unit: Unit
    pushed_mm: float
    spread_mm: float
    streams: bool
    points: tuple[Point, ...]
    restart: bool
    said: Said | None
    next: Next


@dataclass(frozen=True)
class Pushed:
    """The contact was pushed by hand; `ok` when the number moved as the file says, and came back.

    `away_face_mm`: how far from the free reading it stayed.
    """

    ok: bool
    excursion_face_mm: float
    said: Said
    next: Next
    away_face_mm: float = 0.0


@dataclass(frozen=True)
class ReadingTaken:
    """A reading at a position, in a sweep or a pair check. `said`: of its preload.

    `second`: what the other gauge of a two-gauge bar read at the same take.
    """

    reading: Reading
    pushed_mm: float
    preload_mm: float | None
    said: Said | None
    second: Reading | None = None


@dataclass(frozen=True)
class SweepDone:
    """A full sweep, reduced. Not `usable` when a finding blocks it.

    `turned`: it was taken with the ring, or the arm in the spindle, turned half round after
    the sweep before; the results are then those of both. `added`: what is known to lie in
    the readings besides the lean; it stays known for later sweeps over the surface as it
    lies. `parked_adds_mm`: the differences as the parked gauge reads them, less the results.
    `elsewhere`: the head does not stand where everything before it left it, `backwards`: it does
    if this axis answered the other way round. `whole`: the lean
    judged as one vector, where the shop judges it so. `effects`: what it does to the work.
    `decidable`: what can be decided with this gauge, ring and radius, and what would help.
    `taught`: what it teaches of the named ring's wedge, or of the spindle's rise;
    `differs`: what it would teach, were that not against what was known: why is asked next.
    Not `returned`, the first spot was not read again: it could change nothing of the verdict.
    `slow`: what a slow turn showed, where nothing was read standing still.
    """

    number: int
    purpose: Purpose
    why: str | Said
    center_pushed_mm: float
    slopes: Both[float]
    return_error_mm: float
    spare_mm: float | None
    points: tuple[Point, ...]
    findings: tuple[Flaw, ...]
    usable: bool
    results: Both[AxisResult]
    next: Next
    turned: Turned = ""
    parked_adds_mm: Both[float] = Both(0.0, 0.0)  # noqa: RUF009 - frozen
    added: tuple[Added, ...] = ()
    budgets: Both[Budget] | None = None
    whole: Whole | None = None
    elsewhere: bool = False
    effects: tuple[Effect, ...] = ()
    decidable: Decidable | None = None
    taught: Taught | None = None
    differs: Taught | None = None
    guesses: tuple[Guess, ...] = ()
    used: Guess | None = None
    backwards: Axis | None = None
    returned: bool = True
    slow: SlowTurn | None = None

    @property
    def more_mm(self) -> float:
        """What a point is in doubt of beyond a reading's scatter: of a slow turn only."""
        return 0.0 if self.slow is None else self.slow.of_point_mm


@dataclass(frozen=True)
class Answered:
    """A question was answered; what follows from the answer.

    `sweep`: the latest sweep with its labels put right; `why`: why another is wanted.
    """

    question: str
    key: str
    why: Said | None
    sweep: SweepDone | None
    free_pushed_mm: float | None
    points: tuple[Point, ...]
    results: Both[AxisResult]
    stop: StopAt | None
    next: Next
    whole: Whole | None = None


@dataclass(frozen=True)
class SweepWanted:
    """Another full sweep on purpose, and why; `turned`: with what turned half round first.

    `anew`: the arm was out already, so the machine is prepared first. `laid`: the named
    ring, as its mark was told to point for it.
    """

    why: str | Said
    next: Next
    turned: Turned = ""
    anew: Anew | None = None
    laid: Laid | None = None


@dataclass(frozen=True)
class ResponseUpdated:
    """How this head answers, learned from everything read of it so far."""

    learned: Learned


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

    next: Next = Next("sign")  # noqa: RUF009 - frozen


@dataclass(frozen=True)
class OfStage:
    """What a stage's own file derives its events from; an event that leads on has `next`."""


@dataclass(frozen=True)
class Voided:
    """The last step was taken back, or what the service noticed was denied.

    What it wrote stays in the ledger, marked by this.
    """

    voids: tuple[int, ...]


Data = (
    AuditOpened | Prepared | FreeRead | Pushed | ReadingTaken | SweepDone | Parked | Answered
    | Zeroed | BaseRead | Loosened | Moved | CheckDone | Tightened | SweepWanted | TouchWanted
    | StopHere | Cleared | GaugeChecked | BoltPulled | OffScale | BroughtCloser | ResponseUpdated
    | Signed | Abandoned | Voided | GaugeNoted | StopDoubted | Addendum | HandedOver
    | ReportAmended
    | GaugeFault | GaugeBack | Restarted | MadeSafe | PutAside | AnswerKept | ClockStepped
    | SamplesLetGo | AuditAttested
    | OfStage
)  # fmt: skip
