"""A gauge's check as it is told."""

from daq.checks.gauge.reduce import GaugeErrors
from daq.words import Said, Shown, Unit, said


def sentence(found: GaugeErrors, unit: Unit, decimals: int) -> Said:
    """Return whether the gauge is good, by what, and how it repeats, in `unit`."""

    def size(value_mm: float) -> Shown:
        return Shown(value_mm, unit, decimals)

    told = said(
        "gauge-checked",
        good="yes" if found.passed else "no",
        span=size(found.span_mm),
        allowed=size(found.max_error_mm),
        unit=unit,
    )
    if found.repeatability_mm is not None:
        sd = size(found.repeatability_mm)
        told = said("gauge-checked-repeats", told=told, sd=sd, unit=unit)
    if found.hysteresis_mm is not None:
        by = size(found.hysteresis_mm)
        told = said("gauge-checked-both-ways", told=told, by=by, unit=unit)
    return told if found.passed else said("gauge-checked-not-good", told=told)
