"""What a gauge's check measured, in the place of what is common practice in later budgets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from daq.checks.gauge.reduce import AtLength, LengthRead, reduce
from daq.words import Said, said

_LEAST: Final = 3
"""Of fewer degrees of freedom Student's t has no variance."""


@dataclass(frozen=True, slots=True)
class BenchMeasured:
    """What a check of `day`, an ISO date, showed of a gauge, mm; None where it did not.

    `friction_mm`: how far off it may be for the side it comes from; `sd_mm`: standard deviation of
    one reading.
    """

    day: str
    friction_mm: float | None = None
    sd_mm: float | None = None

    def note(self, what: Said) -> Said:
        """Where a figure of it comes from, its date first."""
        return said("note-measured-on", day=self.day, what=what)


def measured(day: str, points: Sequence[AtLength], resolution_mm: float) -> BenchMeasured:
    """Return what a check's points tell for later budgets.

    Read from either side it is half its hysteresis off the mean of both, and what a count hides
    may be that much at least. Being from few repeats, a standard deviation leaves √(ν/(ν-2)) of
    itself (JCGM 101, 6.4.9.4: that of Student's t), never less than what a count can hide,
    resolution/√12.
    """
    if len(points) < 2:
        return BenchMeasured(day)
    found = reduce([LengthRead(p.nominal_mm, p.read_mm, p.direction) for p in points], 1.0)
    sd, freedom = found.repeatability_mm, found.freedom
    friction = found.hysteresis_mm
    if sd is not None and freedom >= _LEAST:
        sd = max(sd * math.sqrt(freedom / (freedom - 2)), resolution_mm / math.sqrt(12.0))
    return BenchMeasured(
        day,
        None if friction is None else max(friction, resolution_mm) / 2.0,
        sd if freedom >= _LEAST else None,
    )
