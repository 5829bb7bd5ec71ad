"""What the trend of a machine says: how it was found, how it was left, what tightening did.

Every length is over the same `over_mm`, so that audits at different radii compare; above
zero the right (side) or the front (nod) is low.
"""

from dataclasses import dataclass

from daq.words.both import Both
from daq.words.choices import Unit, Word
from daq.words.reliability import ReliabilityView
from daq.words.said import Text


@dataclass(frozen=True, slots=True)
class Smoothed:
    """An EWMA's value at one point and its limits there, mm; `outside`: beyond one of them."""

    value_mm: float
    low_mm: float
    high_mm: float
    outside: bool


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One value of one signed audit; `seq` is the row of its signature.

    `allowed_low_mm`, `allowed_high_mm`: the tolerance it was judged by, and `word` how; all
    three are None of a tightening's shift. `counts`: the series' limits are computed with
    it; `outside`: it lies beyond one of them. `smoothed`: None while there are no limits,
    and of a point that does not count. `sure`: a time server had set the clock that dated it.
    `hands`: through whose hands the audit went, the last those who signed it; `addenda`: what was
    added to it since.
    """

    audit: str
    short: str
    seq: int
    day: str
    reason: str
    value_mm: float
    allowed_low_mm: float | None
    allowed_high_mm: float | None
    word: Word | None
    counts: bool
    outside: bool
    smoothed: Smoothed | None
    sure: bool = True
    hands: tuple[Text, ...] = ()
    addenda: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class TrendLimits:
    """Where a series keeps itself: its middle and its limits, mm.

    `sd_mm`: the standard deviation from one value to the next, from the mean moving range.
    `smoothed_low_mm`, `smoothed_high_mm`: what the EWMA's limits widen to; `weight`: the
    EWMA's, of the newest value.
    """

    center_mm: float
    low_mm: float
    high_mm: float
    sd_mm: float
    smoothed_low_mm: float
    smoothed_high_mm: float
    weight: float


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An audit that gives a series no point, and why."""

    audit: str
    short: str
    seq: int
    day: str
    say: Text
    sure: bool = True


@dataclass(frozen=True, slots=True)
class TrendSeries:
    """One number over a machine's signed audits, oldest first; `say`: what it shows, in words.

    `points` are those of the audits shown, `limits` those that all of them make.
    """

    points: tuple[TrendPoint, ...]
    limits: TrendLimits | None
    left_out: tuple[LeftOut, ...]
    say: Text


@dataclass(frozen=True, slots=True)
class PivotPoint:
    """How far from the spindle an axis's pivot acts, as known when an audit began, mm.

    `doubt_mm`: its standard uncertainty; `audits`: learned from so many, of which none means that
    the machine's file says it. `audit`, `short` and `day` are None of what is known now.
    """

    audit: str | None
    short: str | None
    day: str | None
    value_mm: float
    doubt_mm: float
    audits: int


@dataclass(frozen=True, slots=True)
class AxisTrend:
    """One axis: its error as found and as left, the shift of each tightening, and its pivot.

    `pivots`: oldest first, the last one what is known now; above zero it lies away from the place
    where the gauge is parked.
    """

    as_found: TrendSeries
    as_left: TrendSeries
    tightening: TrendSeries
    pivots: tuple[PivotPoint, ...] = ()


@dataclass(frozen=True, slots=True)
class AuditDue:
    """When the next audit is due; days are ISO dates.

    `every_days` and `day` are None where the shop agreed no interval, `last_day` where no
    audit was signed yet. `days_left` is below zero when overdue.
    """

    last_day: str | None
    every_days: int | None
    day: str | None
    days_left: int | None
    overdue: bool
    say: Text


@dataclass(frozen=True, slots=True)
class CheckDue:
    """One check of a machine, and when it is due: `check` as `open` takes it, "" for squaring.

    `audit`, `short` and `word`: the one signed last and how it came out; None where none was.
    `looks`: it only asks whether the head moved: "in" says that nothing did, "out" to look closer.
    `addenda`: how many things were added to that audit since it was signed.
    """

    check: str
    say: Text
    audit: str | None
    short: str | None
    word: Word | None
    due: AuditDue
    looks: bool = False
    addenda: int = 0


@dataclass(frozen=True, slots=True)
class TrendView:
    """A machine's trend: `audits` signed ones, each axis, and when the next is due.

    `unit`: what its file is told in; lengths here are mm all the same.

    `checks`: the other checks that the machine's file offers.

    `reliability`: what all its verdicts were worth, whichever are shown.

    `more`: what to ask for as `before` to be shown the audits before these; None: there are none.
    """

    over_mm: float
    unit: Unit
    audits: int
    axes: Both[AxisTrend]
    due: AuditDue
    checks: tuple[CheckDue, ...]
    reliability: ReliabilityView
    more: int | None
