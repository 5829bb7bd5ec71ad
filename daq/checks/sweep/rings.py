"""A named ring of the shop, and how it lies: its wedge is a slope that turns with it."""

from dataclasses import dataclass, replace
from typing import Annotated

from daq.checks.sweep.by_mark import ByMark
from daq.settings import Length, Range
from daq.words import OPPOSITE, POSITIONS, Position
from daq.words.certified import Certified


@dataclass(frozen=True)
class NamedRing(Certified):
    """A ring or plate of the shop, as its file names it, with its papers if it has any.

    `key`: its name in the file. `say`: what it is; `mark`: what its direction is told by;
    `changes`: how much its wedge may change in a year, mm across the sweep. `wedge`: what is
    known of it when an audit is opened; no key of the file.
    """

    say: str
    mark: str
    changes: Annotated[Length, Range(0.0, 1.0)] = 0.0005
    key: str = ""
    wedge: ByMark | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """A ring as it lies on the table, and where its mark points."""

    ring: NamedRing
    mark: Position

    @property
    def mark_deg(self) -> float:
        """Where its mark points, an azimuth."""
        return POSITIONS[self.mark]

    def turned(self) -> "Laid":
        """The same half a turn round."""
        return replace(self, mark=OPPOSITE[self.mark])
