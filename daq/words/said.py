"""What is to be said, as a code and its numbers; the words are made where it is shown."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import reduce

from daq.words.choices import Unit


@dataclass(frozen=True, slots=True)
class Shown:
    """A length, mm, and how a sentence is to show it: its unit and how many decimals.

    With `plus` a value above zero carries its sign.
    """

    mm: float
    unit: Unit
    digits: int
    plus: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """Any other number that is no whole one, and how many decimals a sentence shows of it."""

    value: float
    digits: int
    plus: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody the record names by an id; the name is looked up where it is shown."""

    id: str


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence, or a part of one: the code of `daq.says` and what stands in it.

    A text in `of` is a name out of the shop's files, a serial number or the like, or one of
    a few codes that the sentence chooses its words by; a whole number chooses plurals.
    """

    code: str
    of: Mapping[str, "Value"] = field(default_factory=dict)

    def __str__(self) -> str:
        """The code and its numbers: for a log, never for a screen."""
        return f"{self.code}({', '.join(f'{name}={value}' for name, value in self.of.items())})"


Value = str | int | Shown | Figure | Person | Said | tuple[Said, ...]

Text = Said | Shown | Figure | str | None
"""What a screen shows in one place: a `str` only for a name out of the shop's files, a serial
number or the like; None for nothing."""


def said(code: str, /, **of: Value) -> Said:
    """Return what is to be said; `code` is written out here, so that a test can find each."""
    return Said(code, of)


def in_a_row(sentences: Sequence[Said]) -> Said:
    """Return one or more whole sentences one after the other, where a list would join their ends.

    Raises TypeError for none.
    """
    return reduce(lambda first, next_: said("and-then", first=first, next=next_), sentences)
