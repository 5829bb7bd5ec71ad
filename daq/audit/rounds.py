"""The parts of an audit that is none of the head: what it checks, and what its rounds came to."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from daq.audit.parts import Budget, Flaw, ReadAt
from daq.checks.last import Blind
from daq.metrology.rule import Ruling
from daq.words import Said, Word


@dataclass(frozen=True)
class Offer:
    """A check besides the sweep that a machine's file offers: its kind, and what it is called."""

    kind: str
    name: Said


@dataclass(frozen=True)
class ComparedWith:
    """The last signed sweep, which a check compares with: its audit's short form, and its day.

    `over_mm`: the diameter of its circle. `blind`: what the check cannot see.
    """

    short: str
    day: str
    over_mm: float
    blind: Blind


@dataclass(frozen=True)
class Chosen:
    """The check that an audit was opened for.

    `options`: its kind's, plain, lengths mm and angles rad, from which the kind builds its own
    again. `cautions`: what may hurt at it. `ends`: the stations of what can be tapped level, and
    which end each is. `against`: what it compares with, where it judges nothing else.
    """

    kind: str
    name: Said
    options: Mapping[str, Any]
    cautions: tuple[Said, ...]
    ends: Mapping[str, str] = field(default_factory=dict)
    against: ComparedWith | None = None


@dataclass(frozen=True)
class Measure:
    """One thing that came out of a round, mm.

    `limit_mm`: how large it may be, either way; None where it is only shown: nothing is then
    judged. `over_mm`: the length a slope is stated over. `toward_deg`: where a vector points, and
    `toward_doubt_deg` how far it may point elsewhere. `doubt_mm`: the expanded uncertainty; the
    other fields mean what an axis's do. `sees_mm`: where it is only asked whether it changed, the
    change of one axis, across the circle, that would have been noticed.
    """

    name: Said
    value_mm: float
    limit_mm: float | None
    doubt_mm: float
    budget: Budget
    over_mm: float | None = None
    toward_deg: float | None = None
    toward_doubt_deg: float | None = None
    word: Word | None = None
    guard_mm: float = 0.0
    probability: float | None = None
    good_enough: bool = True
    basis: Said | None = None
    ruling: Ruling | None = None
    sees_mm: float | None = None


@dataclass(frozen=True)
class Tap:
    """How what was found askew is tapped in, mm.

    `end`: which one, with the contact at its `station`; `by_mm`: how far away from the gauge, while
    both ends stand `apart_mm`. The face reads `from_face_mm` before and is to read `stop_face_mm`.
    """

    end: str
    station: ReadAt
    apart_mm: float
    by_mm: float
    from_face_mm: float
    stop_face_mm: float

    @property
    def way(self) -> Literal["up", "down"]:
        """Which way the number goes."""
        return "up" if self.stop_face_mm > self.from_face_mm else "down"


@dataclass(frozen=True)
class Round:
    """Every station read once through, and what that came to.

    `why`: the reason it was read again, "" for the first. Not `usable` when a finding blocks
    it. `word`: the worst of those that were judged. `tap`: how it is tapped in, where it can be.
    """

    number: int
    why: str | Said
    results: tuple[Measure, ...]
    findings: tuple[Flaw, ...]
    usable: bool
    word: Word
    tap: Tap | None = None
