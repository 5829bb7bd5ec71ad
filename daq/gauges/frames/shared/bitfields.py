"""Fields of bits, gathered to whole bytes: counts, half-bytes, floats, fixed bits."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from daq.settings import found as shown

_MOST: Final = 64
_MOST_DIGITS: Final = 12
REVERSED: Final = bytes(int(f"{byte:08b}"[::-1], 2) for byte in range(256))


@dataclass(frozen=True, slots=True)
class BitField:
    """One field: its role, how many bits it has, how these are sent, what they may be.

    `order` is "", "low-first" or a float's; `may` None where any bits may stand.
    """

    role: str
    width: int
    order: str = ""
    may: frozenset[int] | None = None

    @classmethod
    def of(cls, word: str, rest: str, table: Iterable[str]) -> "BitField":
        """Return the field that an entry of a layout names.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        if word == "bits":
            return cls(word, len(rest), "", frozenset([int(rest, 2)]))
        size, _, order = rest.partition(" ")
        width = min(int(size), _MOST + 1) * (4 if word == "bcd" else 1)
        order = "" if order in ("bit", "bits") else order
        most = 4 * _MOST_DIGITS if word == "bcd" else _MOST
        if not 1 <= width <= most:
            each = f"1 to {_MOST_DIGITS} digits" if word == "bcd" else f"1 to {_MOST} bits"
            raise ValueError(f"found {shown(f'{word} {rest}')} in layout; allowed: {each}")
        if word not in ("sign", "unit"):
            return cls(word, width, order)
        try:
            may = frozenset(int(symbol, 16) for symbol in table)
        except ValueError:
            may = frozenset()
        if not may or max(may) >> width:
            raise ValueError(
                f"found {word}s that are not {width} bits; allowed: hexadecimal numbers of that "
                "many bits"
            )
        return cls(word, width, order, may)


@dataclass(frozen=True, slots=True)
class Run:
    """Fields of bits that lie side by side and make whole bytes."""

    fields: Sequence[BitField]
    places: tuple[frozenset[int], ...]
    group: str

    @classmethod
    def of(cls, fields: Sequence[BitField], number: int) -> "Run":
        """Gather fields to bytes.

        Raises:
            ValueError: they do not fill their bytes.
        """
        bits = sum(field.width for field in fields)
        if bits % 8:
            raise ValueError(
                f"found {bits} bits side by side in layout; allowed: whole bytes, with "
                f'"any {-bits % 8} bits" in the place of those that mean nothing'
            )
        places = [frozenset(range(256))] * (bits // 8)
        at = 0
        for field in fields:
            for byte in range(at // 8, (at + field.width - 1) // 8 + 1):
                places[byte] &= _fitting(field, at, byte)
            at += field.width
        return cls(tuple(fields), tuple(places), f"run{number}")

    @property
    def first(self) -> frozenset[int]:
        """What it may begin with."""
        return self.places[0]

    @property
    def pattern(self) -> str:
        """The pattern of its bytes, as a group."""
        classes = ("".join(f"\\x{byte:02x}" for byte in sorted(each)) for each in self.places)
        return f"(?P<{self.group}>{''.join(f'[{each}]' for each in classes)})"

    def turned(self) -> "Run":
        """Return the run as it lies in bytes that are sent their lowest bit first."""
        places = (frozenset(REVERSED[byte] for byte in each) for each in self.places)
        return Run(self.fields, tuple(places), self.group)

    def taken(self, raw: bytes) -> Mapping[str, int]:
        """Return what each field holds, by its role.

        Raises:
            ValueError: one that it may not hold.
        """
        found, whole, left = {}, int.from_bytes(raw, "big"), 8 * len(raw)
        for field in self.fields:
            left -= field.width
            value = whole >> left & (1 << field.width) - 1
            if field.may is not None and value not in field.may:
                raise ValueError(field.role)
            found[field.role] = value
        return found


def _fitting(field: BitField, at: int, byte: int) -> frozenset[int]:
    """Return what a byte may be for a field that begins at the bit `at` and reaches into it."""
    begin, end = max(at, 8 * byte), min(at + field.width, 8 * byte + 8)
    mask, shift = (1 << end - begin) - 1, 8 * byte + 8 - end
    here = range(256)
    if field.may is not None:
        parts = {may >> at + field.width - end & mask for may in field.may}
        return frozenset(each for each in here if each >> shift & mask in parts)
    if field.role == "bcd" and (begin - at) % 4 == (end - at) % 4 == 0:
        digits = range(0, end - begin, 4)
        return frozenset(
            each
            for each in here
            if all((each >> shift & mask) >> nibble & 15 < 10 for nibble in digits)
        )
    return frozenset(here)


def sent_low_first(value: int, field: BitField, bits_low_first: bool) -> int:
    """Return a field's number when its lowest part was sent first.

    By half-bytes for decimal digits, by bytes where it has whole ones; by bits where the
    bytes' own are sent lowest first, or where it has no whole bytes.
    """
    width = field.width
    if bits_low_first or (field.role != "bcd" and width % 8):
        return int(f"{value:0{width}b}"[::-1], 2)
    if field.role == "bcd":
        return int(f"{value:0{width // 4}x}"[::-1], 16)
    return int.from_bytes(value.to_bytes(width // 8, "big"), "little")
