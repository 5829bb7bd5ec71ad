"""What one count of a gauge is worth, and what every form of frame has in common."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final, Protocol

from daq.words import Unit

MM_PER_INCH: Final = 25.4
"""Exactly: NIST SP 811, from memory."""


@dataclass(frozen=True, slots=True)
class CountStep:
    """One count is `step` in the last of `places` decimal places: 5 in the fifth, say."""

    places: int
    step: int = 1

    def size_mm(self, unit: Unit) -> float:
        """Return one count in mm, when the number is in `unit`."""
        return self.step * 10.0**-self.places * (MM_PER_INCH if unit == "in" else 1.0)

    def last_places(self, counts: int) -> int:
        """Return `counts` as the size of the number in units of its last place, without sign."""
        return abs(counts) * self.step


class WireFormat(Protocol):
    """One form of frame. `scales` holds the units its gauge can show.

    `over` is the frame sent beyond the end of the travel; b"" when the number just
    stops there.
    """

    @property
    def scales(self) -> Mapping[Unit, CountStep]:
        """What a count is worth in each unit."""
        ...

    @property
    def over(self) -> bytes:
        """The frame sent beyond the end of the travel."""
        ...

    def encode(self, counts: int, unit: Unit, flags: Collection[str] = ()) -> bytes:
        """Return the whole frame. Raises ValueError when the number does not fit in it."""
        ...


def too_large(counts: int, allowed: str) -> ValueError:
    """Return the error for a number that does not fit in a frame."""
    return ValueError(f"counts: found {counts}; allowed: {allowed}")
