"""What a machine keeps of each signed audit: a few numbers, enough for its trend."""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, Literal, TypeVar

from daq.audit.closing_events import Handed
from daq.audit.events import Addendum, Signed, SweepDone
from daq.audit.parts import AxisResult, AxisShift, Verdict
from daq.audit.pivots import PivotKnown, pivots
from daq.audit.reasons import REASONS, Reason
from daq.audit.setup import AuditSetup
from daq.checks.sweep.terms import Seat
from daq.metrology.charts import Sums
from daq.metrology.rule import Limits, Rule
from daq.words import Axis, Both, Said, Stamp, Word

A = TypeVar("A", "SignedAudit", "Checked")

WORDS: Final[dict[Verdict, Word]] = {
    "conforms": "in",
    "does-not-conform": "out",
    "cannot-be-decided": "close",
    "nothing-moved": "in",
    "look-closer": "out",
}
"""A report's verdict in one of the screens' words."""


@dataclass(frozen=True)
class SignedAudit:
    """One signed audit. `seq` is the row of its signature, `day` its date (UTC, ISO).

    Everything in mm is across this audit's sweep, `diameter_mm`. `as_found` is None when
    the head was off the gauge's scale; `off_scale` then says how far. `word`: how it was
    left, by the rule it was judged by. `limits`: what each error was
    allowed to be. `shifts`: what each tightening did, in the order they were made.
    `previous`: the row of the signature before it on this machine, None for the first.
    `done_by` signed it, after it went through the hands `handed`; `later`: how many addenda it has.
    `pivots`: where they were known to act as it began.
    """

    audit: str
    short: str
    seq: int
    utc_us: int
    utc_trusted: bool
    day: str
    reason: Reason
    diameter_mm: float
    as_found: Both[AxisResult] | None
    as_left: Both[AxisResult]
    word: Word
    moves: int
    limits: Both[Limits]
    pivots: Both[PivotKnown]
    shifts: tuple[AxisShift, ...] = ()
    off_scale: Said | None = None
    previous: int | None = None
    done_by: str = ""
    handed: tuple[Handed, ...] = ()
    later: int = 0

    def shifted(self, axis: Axis) -> tuple[float, ...]:
        """What each tightening of one axis did to it, mm across the sweep."""
        return tuple(each.shift_mm for each in self.shifts if each.axis == axis)


@dataclass(frozen=True)
class LaterRow:
    """An addendum to a signed audit, with its row and its date; fields as in `SignedAudit`."""

    seq: int
    day: str
    utc_trusted: bool
    what: Addendum


KEPT_LATER: Final = 5
"""So many of the latest addenda to one audit are shown with it; the others are on record."""


@dataclass(frozen=True)
class AddedSince:
    """What was added to a signed audit: `count` rows, the `latest` of them in their order."""

    count: int = 0
    latest: tuple[LaterRow, ...] = ()

    def then(self, row: LaterRow) -> "AddedSince":
        """The same with one more."""
        return AddedSince(self.count + 1, (*self.latest, row)[-KEPT_LATER:])


@dataclass(frozen=True)
class Checked:
    """The latest signature of a check that is none of the head; fields as in `SignedAudit`."""

    audit: str
    short: str
    seq: int
    utc_trusted: bool
    day: str
    word: Word
    later: int = 0


@dataclass(frozen=True)
class LastGood:
    """The latest audit that ended in "conforms", and its day; fields as in `Checked`."""

    short: str
    day: str
    utc_trusted: bool


@dataclass(frozen=True)
class Swept:
    """The head's last signed sweep, practice or not, as left; its fields are as in `SignedAudit`.

    `sweep`: the one that shows how the head was left, read by the gauge of that `serial_number` on
    the `seat`, with the ram at its file's `ram_angle`. `since`: what may have moved the head after
    it, in an audit that ended without one; "doubted": a morning check said to look closer.
    """

    audit: str
    short: str
    seq: int
    day: str
    diameter_mm: float
    as_left: Both[AxisResult]
    rule: Rule
    sweep: SweepDone
    serial_number: str
    seat: Seat
    ram_angle: float
    since: Literal["", "moved", "crash", "doubted"] = ""


def done(
    audit: str,
    short: str,
    seq: int,
    stamp: Stamp,
    reason: Reason,
    setup: AuditSetup,
    signed: Signed,
) -> SignedAudit:
    """Return what stays of an audit of the head, from its signature and what it was opened with."""
    assert signed.as_left is not None
    return SignedAudit(
        audit=audit,
        short=short,
        seq=seq,
        utc_us=stamp.utc_us,
        utc_trusted=stamp.utc_trusted,
        day=day_of(stamp),
        reason=reason,
        diameter_mm=setup.machine.diameter,
        as_found=signed.as_found,
        as_left=signed.as_left,
        word=WORDS[signed.verdict],
        moves=signed.moves,
        limits=Both.of(setup.machine.limits),
        shifts=signed.shifts,
        off_scale=signed.off_scale,
        previous=setup.previous,
        done_by=signed.done_by,
        handed=signed.handed,
        pivots=pivots(setup.learned, setup.machine),
    )


OVER_MM: Final = 300.0
"""The length every error is given over: the one tolerances of spindles are stated for."""

KEPT: Final = 100
"""So many of the latest signed audits are kept; two years of one a week."""

Kind = Literal["as_found", "as_left", "tightening"]
KINDS: Final[tuple[Kind, ...]] = ("as_found", "as_left", "tightening")


def counted(done: SignedAudit, kind: Kind, axis: Axis) -> tuple[float, ...]:
    """The values that count toward the limits of one series, mm over `OVER_MM`.

    As found, an audit does that counts by its reason.
    """
    scale = OVER_MM / done.diameter_mm
    if kind == "tightening":
        return tuple(each * scale for each in done.shifted(axis))
    if kind == "as_left":
        return (done.as_left[axis].error_mm * scale,)
    if done.as_found is None or not REASONS[done.reason].counts:
        return ()
    return (done.as_found[axis].error_mm * scale,)


@dataclass(frozen=True)
class AxisSums:
    """What the values of one axis's series have come to."""

    as_found: Sums = field(default_factory=Sums)
    as_left: Sums = field(default_factory=Sums)
    tightening: Sums = field(default_factory=Sums)

    def after(self, audits: Iterable[SignedAudit], axis: Axis) -> "AxisSums":
        """The same with more audits."""
        sums = {kind: getattr(self, kind) for kind in KINDS}
        for done in audits:
            sums = {kind: each.after(counted(done, kind, axis)) for kind, each in sums.items()}
        return AxisSums(**sums)


NO_SUMS: Final = Both(AxisSums(), AxisSums())


def sums_after(sums: Both[AxisSums], audits: Sequence[SignedAudit]) -> Both[AxisSums]:
    """Each axis's with more audits."""
    return Both.of(lambda axis: sums[axis].after(audits, axis))


@dataclass(frozen=True)
class History:
    """A machine's signed audits, practice left out: the `latest` ones, at most `KEPT`, and what
    the `older` ones before them, that many, came to, their `sums`."""

    latest: tuple[SignedAudit, ...] = ()
    older: int = 0
    sums: Both[AxisSums] = NO_SUMS

    @property
    def audits(self) -> int:
        """How many there are in all."""
        return self.older + len(self.latest)

    def before(self, shown: int = 0) -> Both[AxisSums]:
        """What each axis's values come to before the latest so many audits."""
        return sums_after(self.sums, self.latest[: len(self.latest) - shown])

    def then(self, done: SignedAudit) -> "History":
        """The history with one more signed audit; practice is none."""
        if not REASONS[done.reason].kept:
            return self
        latest = (*self.latest, done)
        if len(latest) <= KEPT:
            return replace(self, latest=latest)
        return History(latest[1:], self.older + 1, sums_after(self.sums, latest[:1]))


def noted(audits: Iterable[A], audit: str) -> tuple[A, ...]:
    """The audits, the one named with one more addendum."""
    return tuple(
        replace(each, later=each.later + 1) if each.audit == audit else each for each in audits
    )


def day_of(stamp: Stamp) -> str:
    """Return a stamp's date, UTC, ISO."""
    return datetime.datetime.fromtimestamp(stamp.utc_us / 1e6, datetime.UTC).date().isoformat()
