"""What a person typed off a gauge's face: a number as it stands there, with its unit."""

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from daq.units import MM_PER
from daq.words import Unit

_TYPED: Final = re.compile(
    r"([-+\N{MINUS SIGN}]?)\s*(\d*)(?:[.,](\d*))?\s*([A-Za-z\"\N{DOUBLE PRIME}]*)\.?"
)
UNIT_WORDS: Final[dict[str, Unit]] = {
    "mm": "mm", "millimeter": "mm", "millimetre": "mm", "millimeters": "mm", "millimetres": "mm",
    "in": "in", "inch": "in", "inches": "in", "ins": "in", '"': "in", "\N{DOUBLE PRIME}": "in",
}  # fmt: skip
"""What people and gauges write for a unit, in small letters."""

_MOST: Final = 9


@dataclass(frozen=True, slots=True)
class TypedFace:
    """A number, to so many decimal `places`, in a unit."""

    number: Decimal
    places: int
    unit: Unit

    @property
    def counts(self) -> int:
        """How many units of its last place the number is, without its sign."""
        return int(abs(self.number).scaleb(self.places))

    @property
    def mm(self) -> float:
        """The same in mm."""
        return float(self.number) * MM_PER[self.unit]

    def __str__(self) -> str:
        """Return it as a face shows it."""
        return f"{self.number:.{self.places}f} {self.unit}"


def typed(text: str, unit: Unit | None) -> TypedFace | None:
    """Return the number that was typed, in `unit` where none was; None for what is no number."""
    hit = _TYPED.fullmatch(text.strip())
    if hit is None:
        return None
    sign, whole, decimals, word = hit[1], hit[2], hit[3] or "", hit[4]
    told = UNIT_WORDS.get(word.lower()) if word else unit
    if told is None or not whole + decimals or len(whole + decimals) > _MOST:
        return None
    number = Decimal(f"{whole or '0'}.{decimals or '0'}")
    return TypedFace(-number if sign in ("-", "\N{MINUS SIGN}") else number, len(decimals), told)
