"""Values of the files as the setup page writes them: with their unit, as short as may be."""

import math
from decimal import Decimal

from daq.units import MM_PER, NM_PER
from daq.words import Said, Unit, said


def number(value: float, unit: Unit = "mm") -> str:
    """A length in mm as a number in `unit`, or any other value as it is."""
    return format(Decimal(f"{value / MM_PER[unit]:.5g}"), "f")


def length(mm: float, unit: Unit) -> str:
    """A length with its unit."""
    return f"{number(mm, unit)} {unit}"


def within(mm: float, doubt_mm: float, unit: Unit) -> str:
    """A length with its standard uncertainty."""
    return f"{number(mm, unit)} ± {length(doubt_mm, unit)}"


def lean(slope: float, over_mm: float, unit: Unit) -> Said:
    """A slope as a length over a length."""
    return said("length-over", by=length(slope * over_mm, unit), over=length(over_mm, unit))


def torque(nm: float, unit: Unit) -> str:
    """A torque as wrenches count it where gauges count in `unit`."""
    return f"{number(nm / NM_PER[unit])} {'N m' if unit == 'mm' else 'lbf ft'}"


def angle(rad: float) -> str:
    """An angle in degrees."""
    return f"{number(math.degrees(rad))}°"


def percent(share: float) -> str:
    """A share in per cent."""
    return f"{number(100.0 * share)} %"
