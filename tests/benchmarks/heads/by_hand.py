"""The same heads squared without the product, by the same clock.

A sweep of four readings; then the axis furthest out: gauge parked, bolts cracked, turned and its
pair read until it shows inside, tightened and read again; then the other one, and at last a
sweep. No return reading, no record, nothing kept from one head to the next. They differ in how
much of the difference they turn out at the parked gauge (`Part`):

Halving: half of it. Right where the pivot is at the spindle, too little wherever it is behind.

Guessing: another part between a quarter and three quarters each time. Hands that have learned
that halves do not do it try less and more of it (common practice, no source).

Dividing: half of it first, and then by what the last turn did to the difference per number.

Knowing: by where the pivot is, which somebody found out to about 5 % once.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from random import Random
from typing import Final, Literal, Protocol

from daq.words import OPPOSITE, PARKED, Axis, Position

from .clock import Clock
from .mill import Head, Mill

MOST_MOVES = 200
GUESSED: Final = (0.25, 0.75)
KNOWN_TO = 0.05
_ACROSS: Final[dict[Axis, tuple[Position, Position]]] = {
    axis: (place, OPPOSITE[place]) for axis, place in PARKED.items()
}

Way = Literal["halving", "guessing", "dividing", "knowing"]
WAYS: Final[dict[Way, str]] = {
    "halving": "half of the difference",
    "guessing": "a guessed part of it",
    "dividing": "dividing by what the last turn did",
    "knowing": "pivot known to 5 %",
}


class Part(Protocol):
    """How much of an axis's difference is turned out at the parked gauge."""

    def __call__(self, axis: Axis) -> float:
        """The part of it that the next turn takes."""
        ...

    def did(self, axis: Axis, turned_mm: float, changed_mm: float) -> None:
        """Be told how far the parked number was turned, and what that did to the difference."""


class Halving(Part):
    """Always half of it."""

    def __call__(self, axis: Axis) -> float:
        """A half."""
        return 0.5


class Guessing(Part):
    """Some part of it."""

    def __init__(self, seed: str) -> None:
        """Guess as this seed does."""
        self._rng = Random(f"guess {seed}")

    def __call__(self, axis: Axis) -> float:
        """Any part that is likely to hands."""
        return self._rng.uniform(*GUESSED)


class Dividing(Part):
    """As the last turn did."""

    def __init__(self) -> None:
        """No turn was made yet."""
        self._parts: dict[Axis, float] = {}

    def __call__(self, axis: Axis) -> float:
        """Half at first."""
        return self._parts.get(axis, 0.5)

    def did(self, axis: Axis, turned_mm: float, changed_mm: float) -> None:
        """The number per difference, where it tells anything."""
        if turned_mm * changed_mm > 0.0:
            self._parts[axis] = turned_mm / changed_mm


class Knowing(Part):
    """As the pivot says: the parked contact turns about it, the difference about the spindle."""

    def __init__(self, head: Head, radius_mm: float, seed: str) -> None:
        """Know where both pivots are, each as well as it was found out once."""
        rng = Random(f"known {seed}")
        pivots: dict[Axis, float] = {"side": -head.side.x_mm, "nod": head.nod.y_mm}
        self._parts = {
            axis: (radius_mm + mm * rng.gauss(1.0, KNOWN_TO)) / (2.0 * radius_mm)
            for axis, mm in pivots.items()
        }

    def __call__(self, axis: Axis) -> float:
        """What the pivot makes of it."""
        return self._parts[axis]


@dataclass(frozen=True, slots=True)
class ByHand:
    """How it went: turns of an adjuster, readings, and minutes in all."""

    moves: int
    readings: int
    minutes: float
    inside: bool


class Hands:
    """One person without the product at one mill."""

    def __init__(self, mill: Mill, limit_mm: float, part: Part) -> None:
        """Open: the minute that preparing and the touch test take."""
        self.mill, self.limit_mm, self.part = mill, limit_mm, part
        self.clock = Clock()
        self.clock.opens()
        self.moves = self.readings = 0

    def square(self) -> ByHand:
        """Until a sweep shows both differences inside."""
        found = self._sweep()
        while not self._in(found) and self.moves < MOST_MOVES:
            axes: list[Axis] = sorted(found, key=lambda axis: -abs(found[axis]))
            if self._off(found[axes[0]]):
                self._set(axes[0], found[axes[0]])
            other_mm = self._pair(axes[1])
            if self._off(other_mm):
                self._set(axes[1], other_mm)
            found = self._sweep()
        self.clock.closes()
        true_mm = max(map(abs, self.mill.differences()))
        minutes = self.clock.seconds / 60.0
        return ByHand(self.moves, self.readings, minutes, true_mm <= self.limit_mm)

    def _in(self, found: Mapping[Axis, float]) -> bool:
        return not any(map(self._off, found.values()))

    def _off(self, mm: float) -> bool:
        return abs(mm) > self.limit_mm + 1e-9

    def _set(self, axis: Axis, off_mm: float) -> None:
        """Turn it in and bolt it up, and again where that put it out."""
        while self._off(off_mm) and self.moves < MOST_MOVES:
            self._passed("crack", axis)
            while self._off(off_mm) and self.moves < MOST_MOVES:
                off_mm = self._turn(axis, off_mm)
            self._passed("tighten", axis)
            off_mm = self._pair(axis)

    def _turn(self, axis: Axis, off_mm: float) -> float:
        place = PARKED[axis]
        base_mm = self._read(place)
        turn_mm = -self.part(axis) * off_mm
        self.clock.turns()
        self.clock.presses("stopped")
        self.mill.turn(axis, place, base_mm + turn_mm)
        self.mill.let_go(axis, place)
        self.moves += 1
        left_mm = self._pair(axis)
        self.part.did(axis, turn_mm, left_mm - off_mm)
        return left_mm

    def _passed(self, what: Literal["crack", "tighten"], axis: Axis) -> None:
        if what == "crack":
            self.clock.cracks(axis)
            self.mill.crack(axis)
        else:
            self.clock.tightens(axis)
            self.mill.pull(axis, 1.0)

    def _pair(self, axis: Axis) -> float:
        """Both ends, the nearer one first."""
        here, there = _ACROSS[axis]
        if self.clock.place == there:
            far_mm = self._read(there)
            return self._read(here) - far_mm
        near_mm = self._read(here)
        return near_mm - self._read(there)

    def _sweep(self) -> dict[Axis, float]:
        read = {place: self._read(place) for place in ("front", "right", "back", "left")}
        return {"side": read["right"] - read["left"], "nod": read["front"] - read["back"]}

    def _read(self, place: Position) -> float:
        self.clock.swings(place)
        self.clock.reads()
        self.readings += 1
        return self.mill.indication(place)


def part_of(way: Way, mill: Mill) -> Part:
    """How hands of this way turn at that mill."""
    seed = mill.visit.seed
    ways: dict[Way, Callable[[], Part]] = {
        "halving": Halving,
        "guessing": lambda: Guessing(seed),
        "dividing": Dividing,
        "knowing": lambda: Knowing(mill.head, mill.visit.radius_mm, seed),
    }
    return ways[way]()
