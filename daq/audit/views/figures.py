"""Numbers as the gauge itself could show them."""

import math
from collections.abc import Sequence

from daq.audit.facts import decimals, unit_of
from daq.audit.state import Job
from daq.units import FINE, MM_PER, SLACK_MM
from daq.words import Said, Shown, Unit, said

WIDE = -3
"""So many decimals fewer has a length that a slope is stated over."""

_MOST_DIGITS = 6
_ROUNDED_OFF = 0.02
"""What rounding may take off a limit, as a part of it."""


def length(mm: float, unit: Unit, finer: int = 0, *, plus: bool = False) -> Said:
    """A length with its unit; `finer` by so many decimals than a head is set to."""
    return with_unit(Shown(mm, unit, FINE[unit] + finer, plus))


def with_unit(shown: Shown) -> Said:
    """A length and its unit behind it."""
    return said("length", length=shown, unit=shown.unit)


def on_face(job: Job, face_mm: float) -> float:
    """The value nearest to this one that the face can show, mm.

    A gauge counts in whole steps of its resolution. A resolution that is no whole number of
    last digits is that of its other unit: then the last digit is the step.
    """
    digit = MM_PER[unit_of(job)] * 10.0 ** -decimals(job)
    counts = job.setup.gauge.resolution / digit
    whole = round(counts)
    step = digit * whole if whole and math.isclose(counts, whole, rel_tol=1e-6) else digit
    return round(face_mm / step) * step


def limit(job: Job, limit_mm: float) -> Shown:
    """A limit with the gauge's decimals, or as many more as show it and not another one."""
    unit = unit_of(job)
    value = limit_mm / MM_PER[unit]
    enough = (
        digits
        for digits in range(decimals(job), _MOST_DIGITS)
        if abs(round(value, digits) - value) <= _ROUNDED_OFF * value
    )
    return Shown(limit_mm, unit, next(enough, _MOST_DIGITS))


def same_place(
    value_mm: float, limits_mm: Sequence[float], unit: Unit, expanded_mm: float | None = None
) -> int:
    """How many decimals a result, its expanded uncertainty and its limits are all shown with.

    As many as show the uncertainty's second digit (JCGM 100, 7.2.6), never fewer than a head
    is set to, and one more while the result reads as a limit that it is not at.
    """
    digits = FINE[unit]
    if expanded_mm:
        second = 1 - math.floor(math.log10(expanded_mm / MM_PER[unit]))
        digits = max(digits, min(second, _MOST_DIGITS))

    def reads_as(limit_mm: float) -> bool:
        value, limit = abs(value_mm) / MM_PER[unit], abs(limit_mm) / MM_PER[unit]
        apart = abs(value - limit) > SLACK_MM
        return apart and round(value, digits) == round(limit, digits)

    while digits < _MOST_DIGITS and any(reads_as(limit) for limit in limits_mm if limit):
        digits += 1
    return digits


def rounded_up(mm: float, unit: Unit, digits: int) -> Said:
    """An uncertainty with its unit, never shown smaller than it is."""
    step = MM_PER[unit] * 10.0**-digits
    return with_unit(Shown(math.ceil(mm / step - 1e-6) * step, unit, digits))
