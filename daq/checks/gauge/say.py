"""A gauge's check as it is told."""

import math
from dataclasses import dataclass
from typing import Final

from daq.checks.gauge.reduce import SHORT_MM, GaugeErrors
from daq.metrology.budget import Budget
from daq.metrology.rule import Judged
from daq.units import FINE, MM_PER, SLACK_MM
from daq.words import Figure, Said, Shown, Unit, said

_GOOD: Final = {"in": "yes", "close": "close", "out": "no"}


@dataclass(frozen=True, slots=True)
class CheckedOver:
    """Which part of a gauge's travel was checked, mm."""

    low_mm: float
    high_mm: float
    travel_mm: float


def digits(unit: Unit, face: int) -> int:
    """Return how many decimals a check is told with: one more than a face of so many has.

    No finer than a tenth of what a head is set to, unless the face itself is.
    """
    return min(face + 1, max(face, FINE[unit] + 1))


def sentence(
    found: GaugeErrors,
    unit: Unit,
    decimals: int,
    over: CheckedOver | None = None,
    verdict: tuple[Judged, Budget] | None = None,
) -> Said:
    """Return whether the gauge is good, over what, by what, and how it repeats, in `unit`."""

    def size(value_mm: float) -> Shown:
        return Shown(value_mm, unit, decimals)

    good = "yes" if found.passed else "no"
    if verdict is not None:
        good = _GOOD[verdict[0].word]
    span, allowed = size(found.span_mm), size(found.max_error_mm)
    told = said("gauge-checked", good=good, span=span, allowed=allowed, unit=unit)
    if over is not None:
        part, travel = size(over.high_mm - over.low_mm), size(over.travel_mm)
        told = said("gauge-checked-over", told=told, part=part, travel=travel, unit=unit)
    if verdict is not None:
        told = _judged(told, *verdict, unit, decimals)
    if found.repeatability_mm is not None:
        sd = size(found.repeatability_mm)
        told = said("gauge-checked-repeats", told=told, sd=sd, unit=unit)
    if found.hysteresis_mm is not None:
        by = size(found.hysteresis_mm)
        told = said("gauge-checked-both-ways", told=told, by=by, unit=unit)
    if verdict is not None and found.short_mm is not None:
        by, within = size(found.short_mm), size(SHORT_MM)
        told = said("gauge-checked-short", told=told, by=by, within=within, unit=unit)
    if good == "close":
        return said("gauge-checked-undecided", told=told)
    return told if good == "yes" else said("gauge-checked-not-good", told=told)


def _judged(told: Said, judged: Judged, budget: Budget, unit: Unit, decimals: int) -> Said:
    step_mm = MM_PER[unit] * 10.0**-decimals
    up_mm = math.ceil(budget.expanded_mm / step_mm - SLACK_MM) * step_mm
    by, share = Shown(up_mm, unit, decimals), Figure(100.0 * budget.coverage, 0)
    risk = judged.ruling.risk
    return said("gauge-checked-within", told=told, by=by, unit=unit, share=share, risk=risk)
