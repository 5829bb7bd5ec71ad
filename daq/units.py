"""Units at the house's edges: text in, millimetres inside, text out.

Inside the house every length is millimetres, every slope mm/mm, every time
seconds, every angle radians, every torque newton metres and every temperature
°C, as plain floats. This file alone knows other units. The inch is 25.4 mm and
the pound-force 0.45359237 kg times 9.80665 m/s², both exactly (NIST SP 811, appendix B.8).
"""

import math
import re
from functools import cache
from typing import TYPE_CHECKING, Final, Literal

from daq.words import Unit

if TYPE_CHECKING:
    import pint

Kind = Literal["length", "slope", "time", "angle", "torque", "temperature", "warmer"]

MM_PER_INCH: Final = 25.4

MM_PER: Final[dict[str, float]] = {"mm": 1.0, "in": MM_PER_INCH}
"""Millimetres in each unit a gauge's face may show."""

_POUND_FORCE: Final = 0.45359237 * 9.80665
NM_PER: Final[dict[Unit, float]] = {
    "mm": 1.0,
    "in": _POUND_FORCE * 12.0 * MM_PER_INCH / 1000.0,
}
"""Newton metres in what a shop's torque wrench counts by: N m in mm shops, else lbf ft."""

# Only what a shop writes: the full registry takes some forty times as long to build.
_DEFINITIONS: Final = (
    "millimeter = [length] = mm",
    "centimeter = 10 * millimeter = cm",
    "meter = 1000 * millimeter = m",
    "micrometer = 0.001 * millimeter = um = µm = μm = micron",
    "inch = 25.4 * millimeter = in = inches",
    "thou = 0.001 * inch",
    "foot = 12 * inch = ft = feet",
    "second = [time] = s = seconds",
    "millisecond = 0.001 * second = ms",
    "minute = 60 * second = min = minutes",
    "hour = 60 * minute = h = hours",
    "radian = [angle] = rad",
    "milliradian = 0.001 * radian = mrad",
    f"degree = {math.pi / 180!r} * radian = deg = ° = degrees",
    "arcminute = degree / 60 = arcmin",
    "arcsecond = arcminute / 60 = arcsec",
    "newton = [force] = N",
    f"pound_force = {_POUND_FORCE!r} * newton = lbf = lb",
    "kilogram_force = 9.80665 * newton = kgf",
    "newton_meter = newton * meter = Nm",
    "kelvin = [temperature] = K",
    "degree_Celsius = kelvin; offset: 273.15 = degC",
    f"degree_Fahrenheit = {5 / 9!r} * kelvin; offset: {459.67 * 5 / 9!r} = degF",
)

SLACK_MM: Final = 1e-9
"""Far below any gauge's count: what equals a limit is not lost to a float's last bit."""
FINE: Final[dict[Unit, int]] = {"mm": 3, "in": 4}
"""Decimals that show what a head is set to: a micrometre, a ten-thousandth of an inch."""
_DECIMALS: Final = re.compile(r"[.,]([0-9]+)")

_BASE: Final[dict[Kind, str]] = {"length": "mm", "time": "s", "angle": "rad", "torque": "N*m"}

EXAMPLES: Final[dict[Kind, str]] = {
    "length": 'a length such as "100 mm" or "4 in"',
    "slope": 'a slope such as "0.025 mm/300 mm" or "0.001 in/12 in"',
    "time": 'a time such as "0.5 s" or "200 ms"',
    "angle": 'an angle such as "15 deg" or "0.1 rad"',
    "torque": 'a torque such as "60 N m" or "45 lbf ft"',
    "warmer": 'a difference of temperature such as "1 degC" or "2 degF"',
    "temperature": 'a temperature such as "20 °C" or "68 °F"',
}
"""What may be written for each kind of quantity, as error messages say it."""

_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_UNIT = r"°|[^\W\d_]+"
_QUANTITY: Final = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})\s*")
_DIVISOR: Final = re.compile(rf"\s*({_NUMBER})?\s*({_UNIT})\s*")
_TORQUE: Final = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})(?:(?:\s*[·⋅*-]\s*|\s+)({_UNIT}))?\s*")


_SCALES: Final = {"C": "degree_Celsius", "F": "degree_Fahrenheit"}
_TEMPERATURE: Final = re.compile(rf"\s*({_NUMBER})\s*(?:°\s*|deg\s*)?([CF])\s*")


class UnitError(ValueError):
    """A text is not a quantity of the kind asked for; the message says what is allowed."""


@cache
def _registry() -> "pint.UnitRegistry[float]":
    """Build the house's one registry on first use; pint is not even imported before."""
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for line in _DEFINITIONS:
        registry.define(line)
    return registry


@cache
def _factor(unit: str, base: str) -> float:
    """Return how many `base` one `unit` is.  Raises pint's errors for an unknown or unlike one."""
    return float(_registry().Quantity(1.0, unit).to(base).magnitude)


def _measure(match: re.Match[str] | None, base: str) -> float:
    """Turn a matched number and its units into `base`.  Raises ValueError if it cannot be."""
    if match is None:
        raise ValueError
    number, *factors = match.groups(default="1")
    try:
        value = float(number) * _factor("*".join(factors), base)
    except Exception as error:
        # An unknown unit is an AttributeError of pint's, an unlike one a TypeError, some
        # Unicode letters a failure of its tokenizer: all mean the same to whoever wrote it.
        raise ValueError from error
    if not math.isfinite(value):
        raise ValueError
    return value


def _celsius(match: re.Match[str] | None) -> float:
    """Turn a matched number and its scale into °C.  Raises ValueError if it cannot be."""
    if match is None or not math.isfinite(float(match[1])):
        raise ValueError
    return float(_registry().Quantity(float(match[1]), f"deg{match[2]}").to("degC").magnitude)


def _kelvins(match: re.Match[str] | None) -> float:
    """Turn a matched difference and its scale into K.  Raises ValueError if it cannot be."""
    if match is None or not math.isfinite(float(match[1])):
        raise ValueError
    return float(match[1]) * _factor(f"delta_{_SCALES[match[2]]}", "kelvin")


def degrees(celsius: float, unit: Unit) -> float:
    """Return a temperature as a shop reads it: °C where gauges count in mm, else °F."""
    scale = "degC" if unit == "mm" else "degF"
    return float(_registry().Quantity(celsius, "degC").to(scale).magnitude)


def degrees_apart(kelvins: float, unit: Unit) -> float:
    """Return a difference of temperatures as a shop reads it: in °C, or in °F."""
    return kelvins / _factor(f"delta_{_SCALES['F' if unit == 'in' else 'C']}", "kelvin")


def parse(text: str, kind: Kind) -> float:
    """Return the quantity written in `text`: mm, mm/mm, s, rad, N m, °C or K by its `kind`.

    A slope is a length over a length, the second number being 1 when left out
    ("0.02 mm/m"); a torque is a force times a length, either first. A bare number is
    refused: the unit is always written.

    Raises:
        UnitError: not a number and a unit of that kind.
    """
    try:
        if kind == "temperature":
            return _celsius(_TEMPERATURE.fullmatch(text))
        if kind == "warmer":
            return _kelvins(_TEMPERATURE.fullmatch(text))
        if kind != "slope":
            written = _TORQUE if kind == "torque" else _QUANTITY
            return _measure(written.fullmatch(text), _BASE[kind])
        rise, _, run = text.partition("/")
        above = _measure(_QUANTITY.fullmatch(rise), "mm")
        below = _measure(_DIVISOR.fullmatch(run), "mm")
        if below <= 0.0:
            raise ValueError
        return above / below
    except ValueError:
        raise UnitError(f'found "{text}"; allowed: {EXAMPLES[kind]}') from None


def show(value_mm: float, unit: Unit, decimals: int, *, plus: bool = False) -> str:
    """Return a length as a screen shows it: fixed decimals, no unit, never "-0.000".

    With `plus` a value above zero carries its sign; one that rounds to zero carries none.

    Raises:
        UnitError: the value is not a finite number.
    """
    if not math.isfinite(value_mm):
        raise UnitError(f"found {value_mm}; allowed: a finite number")
    text = f"{value_mm / MM_PER[unit]:{'+' if plus else ''}.{decimals}f}"
    return text.lstrip("+-") if float(text) == 0.0 else text


def places(text: str) -> int:
    """Return how many decimals a gauge sent, whatever its decimal sign; 0 for none."""
    digits = _DECIMALS.search(text)
    return len(digits[1]) if digits else 0
