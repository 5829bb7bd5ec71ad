"""What a machine keeps of each signed audit: a few numbers, enough for its trend."""

import datetime
from dataclasses import dataclass
from typing import Final

from daq.audit.events import Signed
from daq.audit.parts import AxisResult, AxisShift, Verdict, Word
from daq.audit.setup import AuditSetup, Reason
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
    as_left: tuple[AxisResult, AxisResult]
    word: Word
    moves: int
    side_limits: Limits
    nod_limits: Limits
    shifts: tuple[AxisShift, ...] = ()
    off_scale: Said | None = None

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
    )


def day_of(stamp: Stamp) -> str:
    """Return a stamp's date, UTC, ISO."""
    return datetime.datetime.fromtimestamp(stamp.utc_us / 1e6, datetime.UTC).date().isoformat()
