"""What a machine keeps of each signed audit: a few numbers, enough for its trend."""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from daq.audit.events import Signed
from daq.audit.parts import AxisResult, AxisShift, Verdict, Word
from daq.audit.setup import AuditSetup, Reason
from daq.metrology.charts import Sums
from daq.metrology.rule import Limits
from daq.words import Axis, Said, Stamp

WORDS: Final[dict[Verdict, Word]] = {
    "conforms": "in",
    "does-not-conform": "out",
    "cannot-be-decided": "close",
}
"""A report's verdict in one of the screens' words."""


@dataclass(frozen=True)
class Done:
    """One signed audit. `seq` is the row of its signature, `day` its date (UTC, ISO).

    Everything in mm is across this audit's sweep, `diameter_mm`. `as_found` is empty when
    the head was off the gauge's scale; `off_scale` then says how far. `word`: how it was
    left, by the rule it was judged by. `side_limits`, `nod_limits`: what each error was
    allowed to be. `shifts`: what each tightening did, in the order they were made.
    `previous`: the row of the signature before it on this machine, None for the first.
    """

    audit: str
    short: str
    seq: int
    utc_us: int
    utc_trusted: bool
    day: str
    reason: Reason
    diameter_mm: float
    as_found: tuple[AxisResult, ...]
    as_left: tuple[AxisResult, ...]
    word: Word
    moves: int
    side_limits: Limits
    nod_limits: Limits
    shifts: tuple[AxisShift, ...] = ()
    off_scale: Said | None = None
    previous: int | None = None

    def found(self, axis: Axis) -> AxisResult | None:
        """One axis as it was found, None when it was not read."""
        return self.as_found[_AT[axis]] if self.as_found else None

    def left(self, axis: Axis) -> AxisResult:
        """One axis as it was left."""
        return self.as_left[_AT[axis]]

    def limits(self, axis: Axis) -> Limits:
        """What one axis's error was allowed to be."""
        return self.side_limits if axis == "side" else self.nod_limits

    def shifted(self, axis: Axis) -> tuple[float, ...]:
        """What each tightening of one axis did to it, mm across the sweep."""
        return tuple(each.shift_mm for each in self.shifts if each.axis == axis)


@dataclass(frozen=True)
class Checked:
    """The latest signature of a check that is none of the head; its fields are as in `Done`."""

    audit: str
    short: str
    seq: int
    utc_trusted: bool
    day: str
    word: Word


_AT: Final[dict[Axis, int]] = {"side": 0, "nod": 1}


def done(
    audit: str,
    short: str,
    seq: int,
    stamp: Stamp,
    reason: Reason,
    setup: AuditSetup,
    signed: Signed,
) -> Done:
    """Return what stays of an audit, from its signature and what it was opened with."""
    return Done(
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
        side_limits=setup.machine.limits("side"),
        nod_limits=setup.machine.limits("nod"),
        shifts=signed.shifts,
        off_scale=signed.off_scale,
        previous=setup.previous,
    )


OVER_MM: Final = 300.0
"""The length every error is given over: the one tolerances of spindles are stated for."""

KEPT: Final = 100
"""So many of the latest signed audits are kept; two years of one a week."""

Kind = Literal["as_found", "as_left", "tightening"]
KINDS: Final[tuple[Kind, ...]] = ("as_found", "as_left", "tightening")


def counted(done: Done, kind: Kind, axis: Axis) -> tuple[float, ...]:
    """The values that count toward the limits of one series, mm over `OVER_MM`.

    As found, an audit after angled work does not: the head was swung on purpose. Nor does one
    after a crash: its cause is known, and limits made with it would hide the next.
    """
    scale = OVER_MM / done.diameter_mm
    if kind == "tightening":
        return tuple(each * scale for each in done.shifted(axis))
    if kind == "as_left":
        return (done.left(axis).error_mm * scale,)
    found = done.found(axis)
    if found is None or done.reason in ("after-angled-work", "crash"):
        return ()
    return (found.error_mm * scale,)


@dataclass(frozen=True)
class AxisSums:
    """What the values of one axis's series have come to."""

    as_found: Sums = field(default_factory=Sums)
    as_left: Sums = field(default_factory=Sums)
    tightening: Sums = field(default_factory=Sums)

    def after(self, audits: Iterable[Done], axis: Axis) -> "AxisSums":
        """The same with more audits."""
        sums = {kind: getattr(self, kind) for kind in KINDS}
        for done in audits:
            sums = {kind: each.after(counted(done, kind, axis)) for kind, each in sums.items()}
        return AxisSums(**sums)


@dataclass(frozen=True)
class History:
    """A machine's signed audits, practice left out: the `latest` ones, at most `KEPT`, and what
    the `older` ones before them, that many, came to."""

    latest: tuple[Done, ...] = ()
    older: int = 0
    side: AxisSums = field(default_factory=AxisSums)
    nod: AxisSums = field(default_factory=AxisSums)

    @property
    def audits(self) -> int:
        """How many there are in all."""
        return self.older + len(self.latest)

    def before(self, axis: Axis, shown: int = 0) -> AxisSums:
        """What one axis's values come to before the latest so many audits."""
        known = self.side if axis == "side" else self.nod
        return known.after(self.latest[: len(self.latest) - shown], axis)

    def then(self, done: Done) -> "History":
        """The history with one more signed audit; practice is none."""
        if done.reason == "practice":
            return self
        latest = (*self.latest, done)
        if len(latest) <= KEPT:
            return replace(self, latest=latest)
        return History(
            latest[1:],
            self.older + 1,
            self.side.after(latest[:1], "side"),
            self.nod.after(latest[:1], "nod"),
        )


def day_of(stamp: Stamp) -> str:
    """Return a stamp's date, UTC, ISO."""
    return datetime.datetime.fromtimestamp(stamp.utc_us / 1e6, datetime.UTC).date().isoformat()
