"""What is asked of a head for one job, and what was answered."""

from dataclasses import dataclass
from typing import Literal

from daq.checks.sweep.callouts import Bore, Face, Wall
from daq.words import CannotBe, Word, said


@dataclass(frozen=True)
class Callout:
    """What a drawing asks of one feature: a bore, a wall or a face.

    Raises:
        ValueError: none of them, or more than one.
    """

    bore: Bore | None = None
    wall: Wall | None = None
    face: Face | None = None

    def __post_init__(self) -> None:
        """Refuse all but one."""
        found = [key for key in ("bore", "wall", "face") if getattr(self, key) is not None]
        if len(found) != 1:
            raise CannotBe(said("not-one-callout", found=", ".join(found) or "none"))

    @property
    def kind(self) -> Literal["bore", "wall", "face"]:
        """Which it is."""
        return "bore" if self.bore else "wall" if self.wall else "face"

    @property
    def one(self) -> Bore | Wall | Face:
        """The one there is."""
        found = self.bore or self.wall or self.face
        assert found is not None
        return found


@dataclass(frozen=True)
class GoodEnough:
    """What the head by itself does over a callout, mm, and whether that is good enough.

    `doubt_mm`: the expanded uncertainty; `guard_mm` is kept to the zone. "in": good enough; "out":
    not; "close": too close to tell. Not `good_enough`: the sweep could call nothing in.
    `audit`, `short`: whose sweep it rests on; `day` when that was signed, "" where it is open.
    """

    callout: Callout
    does_mm: float
    doubt_mm: float
    guard_mm: float
    word: Word
    good_enough: bool
    audit: str
    short: str
    day: str
