"""What all pictures need to be in words: a language, a unit, numbers as they are shown."""

from dataclasses import dataclass

from daq.plots.scale import written
from daq.says import Language
from daq.says.language import Names
from daq.units import FINE, MM_PER
from daq.words import OPPOSITE, PARKED, Axis, Said, Shown, Text, Unit, said

_WIDE = {"mm": 0, "in": 1}


@dataclass(frozen=True)
class Pen:
    """Writes for one reader: sentences in a language, lengths in a unit with so many decimals."""

    says: Language
    names: Names
    unit: Unit
    digits: int

    def words(self, what: Text) -> str:
        """What is said; a name out of the shop's files as it is."""
        if what is None or isinstance(what, str):
            return what or ""
        return str(self.says.told(what, self.names))

    def value(self, mm: float) -> float:
        """A length as a picture draws it."""
        return mm / MM_PER[self.unit]

    def maybe(self, mm: float | None) -> float | None:
        """The same of one that may be missing."""
        return None if mm is None else self.value(mm)

    def text(self, mm: float, *, plus: bool = False) -> str:
        """A length as it is written."""
        return written(self.value(mm), self.digits, plus=plus)

    def over(self, mm: float) -> str:
        """A length that others are stated over, with its unit."""
        return f"{written(self.value(mm), _WIDE[self.unit])} {self.unit}"


def pen_of(says: Language, names: Names, unit: Unit, digits: int | None = None) -> Pen:
    """One that writes with as many decimals as a head is set to, or so many."""
    return Pen(says, names, unit, FINE[unit] if digits is None else digits)


def low_end(axis: Axis, *, above: bool) -> Said:
    """Which end is low where a lean is above zero, or below."""
    side = PARKED[axis] if above else OPPOSITE[PARKED[axis]]
    return said("low-end", side=side)


def stands(axis: Axis, mm: float, pen: Pen) -> str:
    """Which end is low and by how much, as far as the decimals show."""
    if not float(pen.text(mm)):
        return pen.words(said("level"))
    limit = Shown(abs(mm), pen.unit, pen.digits)
    return pen.words(said("low-by", end=low_end(axis, above=mm > 0.0), limit=limit))
