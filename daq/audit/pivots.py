"""Where a head's pivots act, as each audit knew it when it began: what the trend shows of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from daq.audit.setup import MachineSetup
from daq.squaring.learned import Learned
from daq.words import Axis, Both
from daq.words.trend import PivotPoint


@dataclass(frozen=True, slots=True)
class PivotKnown:
    """Where an axis's pivot acts and its standard uncertainty, mm; learned from so many `audits`.

    From none it is what the machine's file says.
    """

    mm: float
    doubt_mm: float
    audits: int


class Began(Protocol):
    """An audit, and where the pivots were known to act as it began."""

    @property
    def audit(self) -> str:
        """Its id."""

    @property
    def short(self) -> str:
        """Its short name."""

    @property
    def day(self) -> str:
        """Its date."""

    @property
    def pivots(self) -> Both[PivotKnown]:
        """What it began with."""


def pivots(known: Learned | None, machine: MachineSetup) -> Both[PivotKnown]:
    """Where the pivots of a head act that is known so well; None: its file alone is."""
    told = known or machine.prior()
    at = told.answering
    return Both.of(lambda axis: PivotKnown(at.pivot_mm(axis), at.pivot_doubt_mm(axis), told.audits))


def over_audits(
    shown: Sequence[Began], now: Both[PivotKnown] | None, axis: Axis
) -> Iterator[PivotPoint]:
    """One axis's, audit by audit, and what is known `now` where there is a file to know it by."""
    for each in shown:
        known = each.pivots[axis]
        yield PivotPoint(each.audit, each.short, each.day, known.mm, known.doubt_mm, known.audits)
    if now is not None:
        last = now[axis]
        yield PivotPoint(None, None, None, last.mm, last.doubt_mm, last.audits)
