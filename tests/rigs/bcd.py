"""Frames of nibbles, each decimal digit in four bits of its own."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from daq.virtual.wires.scale import CountStep, too_large
from daq.words import Unit

ROLES: Final = "FSDPUB"
"""Filler, sign, digit, decimal places, unit, status bits."""


@dataclass(frozen=True, slots=True)
class BcdSpec:
    """A frame whose nibbles have the `roles` of ROLES, a letter each, as they are sent.

    Digits are sent with the highest first, or the lowest. Nibbles are carried two a
    byte, the `first` one sent in its high or its low half; as hexadecimal characters; or
    each in a byte of its own below the bits of `above`. `flags` are the bits each sets in
    the status nibble. `head` and `tail` are sent as they are, before and after.
    """

    roles: str
    scales: Mapping[Unit, CountStep]
    carried: Literal["packed", "hex", "single"] = "packed"
    first: Literal["high", "low"] = "high"
    digits: Literal["highest", "lowest"] = "highest"
    filler: int = 0xF
    plus: int = 0x0
    minus: int = 0x1
    units: Mapping[Unit, int] = field(default_factory=lambda: {"mm": 0x0, "in": 0x1})
    flags: Mapping[str, int] = field(default_factory=dict)
    above: int = 0x00
    head: bytes = b""
    tail: bytes = b""
    over: bytes = b""

    def __post_init__(self) -> None:
        """Refuse roles that do not exist, and half a byte. Raises ValueError."""
        if strange := set(self.roles) - set(ROLES):
            raise ValueError(f"roles: found {sorted(strange)}; allowed: letters of {ROLES}")
        if self.carried == "packed" and len(self.roles) % 2:
            raise ValueError(f"roles: found {len(self.roles)} to pack; allowed: an even number")

    def encode(self, counts: int, unit: Unit, flags: Collection[str] = ()) -> bytes:
        """Return the whole frame. Raises ValueError when the number does not fit in it."""
        scale, width = self.scales[unit], self.roles.count("D")
        written = f"{scale.last_places(counts):0{width}d}"
        if len(written) > width:
            raise too_large(counts, f"{width} digits")
        digits = iter(written if self.digits == "highest" else reversed(written))
        fixed = {
            "F": self.filler,
            "S": self.minus if counts < 0 else self.plus,
            "P": scale.places,
            "U": self.units[unit],
            "B": sum(bit for name, bit in self.flags.items() if name in flags),
        }
        nibbles = [int(next(digits)) if role == "D" else fixed[role] for role in self.roles]
        return self.head + self._carry(nibbles) + self.tail

    def _carry(self, nibbles: Iterable[int]) -> bytes:
        sent = list(nibbles)
        match self.carried:
            case "hex":
                return "".join(f"{nibble:X}" for nibble in sent).encode("ascii")
            case "single":
                return bytes(self.above | nibble for nibble in sent)
            case "packed":
                one, other = (16, 1) if self.first == "high" else (1, 16)
                pairs = zip(sent[::2], sent[1::2], strict=True)
                return bytes(one * a + other * b for a, b in pairs)
