"""Frames that are one whole number in a few bytes, cut into fields of bits."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.virtual.wires.scale import CountStep, too_large
from daq.words import Unit


@dataclass(frozen=True, slots=True)
class BitsSpec:
    """A frame of `size` bytes between `head` and `tail`, which are sent as they are.

    The bytes are one number, its lowest byte first ("lsb") or its highest ("msb"), and
    bits are counted from that number's lowest, 0. The counts stand in `width` bits from
    `at` on: their size, with the bit `sign` set for minus, or as a two's
    complement when there is no `sign`. The bit `inch` is set in inches; None where the
    wire does not say. `flags` are the bits set by each; `always` is set in every frame.
    A count is worth a `scales` step.
    """

    size: int
    width: int
    scales: Mapping[Unit, CountStep]
    at: int = 0
    sign: int | None = None
    inch: int | None = None
    order: Literal["lsb", "msb"] = "lsb"
    flags: Mapping[str, int] = field(default_factory=dict)
    always: int = 0
    head: bytes = b""
    tail: bytes = b""
    over: bytes = b""

    def encode(self, counts: int, unit: Unit, flags: Collection[str] = ()) -> bytes:
        """Return the whole frame. Raises ValueError when the number does not fit in it."""
        whole = self.always | self._counts(counts) << self.at
        if self.sign is not None and counts < 0:
            whole |= 1 << self.sign
        if self.inch is not None and unit == "in":
            whole |= 1 << self.inch
        for name, bit in self.flags.items():
            whole |= (name in flags) << bit
        return (
            self.head
            + whole.to_bytes(self.size, "little" if self.order == "lsb" else "big")
            + self.tail
        )

    def _counts(self, counts: int) -> int:
        room = 1 << self.width
        if self.sign is not None:
            if abs(counts) >= room:
                raise too_large(counts, f"{self.width} bits and a sign")
            return abs(counts)
        if not -room // 2 <= counts < room // 2:
            raise too_large(counts, f"{self.width} bits, the highest of them the sign")
        return counts % room
