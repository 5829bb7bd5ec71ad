"""A switch of the collar that the arm passes as the spindle is turned slowly by hand."""

from dataclasses import dataclass

from daq.words.place import Position


@dataclass(frozen=True, slots=True)
class Passed:
    """The switch at a place closed or opened; `at_ns`: when, monotonic."""

    place: Position
    closed: bool
    at_ns: int
