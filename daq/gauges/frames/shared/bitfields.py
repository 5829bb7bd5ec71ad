"""Fields of bits, gathered to whole bytes: counts, half-bytes, floats, fixed bits.

What a run holds is taken out of its symbols, bits or half-bytes written as digits.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from operator import itemgetter
from typing import Final

from daq.settings import found as shown

_MOST: Final = 64
_MOST_DIGITS: Final = 12
REVERSED: Final = bytes(int(f"{byte:08b}"[::-1], 2) for byte in range(256))
_SWAPPED: Final = bytes(byte >> 4 | (byte & 15) << 4 for byte in range(256))
_PARTS: Final[Mapping[str, Sequence[int]]] = {
    "low-first": (8,),
    "low-word-first": (16,),
    "swapped-bytes": (8, 16),
}
"""For each order of a float: of how many bits the parts are that are sent in reverse."""


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
    """Fields of bits that lie side by side and make whole bytes.

    `symbols` writes its bytes as digits of so many bits `each`; `turned` where the lowest bit of
    a byte is sent first. A field may have several roles, with a plus between them.
    """

    fields: Sequence[BitField]
    places: tuple[frozenset[int], ...]
    group: str
    each: int
    symbols: Callable[[bytes], str]
    turned: bool = False

    @classmethod
    def of(cls, fields: Sequence[BitField], number: int = 0) -> "Run":
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
        halves = all(field.width % 4 == 0 and _by(field, turned=False) != (1,) for field in fields)
        group = f"run{number}"
        if halves:
            return cls(tuple(fields), tuple(places), group, 4, bytes.hex)
        return cls(tuple(fields), tuple(places), group, 1, _in_bits(bits))

    @property
    def first(self) -> frozenset[int]:
        """What it may begin with."""
        return self.places[0]

    @property
    def pattern(self) -> str:
        """The pattern of its bytes, as a group."""
        classes = ("".join(f"\\x{byte:02x}" for byte in sorted(each)) for each in self.places)
        return f"(?P<{self.group}>{''.join(f'[{each}]' for each in classes)})"

    def low_first(self) -> "Run":
        """Return the run as it lies in bytes that are sent their lowest bit first."""
        bits = _in_bits(8 * len(self.places))
        return self._sent(REVERSED, lambda raw: bits(raw.translate(REVERSED)), 1)

    def halves_swapped(self) -> "Run":
        """Return the run as it lies in bytes that are sent their lower half first."""
        return self._sent(_SWAPPED, lambda raw: raw.translate(_SWAPPED).hex(), 4)

    def _sent(self, table: bytes, symbols: Callable[[bytes], str], each: int) -> "Run":
        places = tuple(frozenset(table[byte] for byte in place) for place in self.places)
        turned = table is REVERSED
        return replace(self, places=places, symbols=symbols, each=each, turned=turned)

    def at(self, role: str) -> tuple[int, ...]:
        """Return where the symbols of that role are, the first of them counting most."""
        found: list[int] = []
        begin = 0
        for field in self.fields:
            end = begin + field.width // self.each
            if role in field.role.split("+"):
                at = list(range(begin, end))
                for bits in _by(field, self.turned):
                    parts = range(0, len(at), bits // self.each)
                    at = [n for k in reversed(parts) for n in at[k : k + bits // self.each]]
                found += at
            begin = end
        return tuple(found)


def spelled(fields: Sequence[BitField], symbols: Callable[[bytes], str], text: bool) -> Run:
    """Return a run of fields that each have a byte of their own, as a character where `text`."""
    each = fields[0].width
    may = [field.may or frozenset(range(1 << each)) for field in fields]
    if text:
        may = [frozenset(ord(c) for n in some for c in f"{n:x}{n:X}") for some in may]
    return Run(tuple(fields), tuple(may), "run", each, symbols)


def picker(places: Sequence[int]) -> Callable[[str], str]:
    """Return a function that takes the symbols at these places out of a frame."""
    if len(places) == 1:
        return itemgetter(places[0])
    steps = {after - before for before, after in pairwise(places)}
    if len(steps) == 1:  # a slice takes a fifth of the time
        (step,) = steps
        end = places[-1] + step
        return itemgetter(slice(places[0], None if end < 0 else end, step))
    return lambda symbols: "".join([symbols[place] for place in places])


def _in_bits(count: int) -> Callable[[bytes], str]:
    return lambda raw: f"{int.from_bytes(raw):0{count}b}"


def _by(field: BitField, turned: bool) -> Sequence[int]:
    """Of how many bits the parts of a field are that are sent in reverse, one after the other.

    Half-bytes of decimal digits, bytes where it has whole ones; bits where the bytes' own
    are sent lowest first, or where it has no whole bytes.
    """
    if not field.order:
        return ()
    if field.role == "float":
        return _PARTS[field.order]
    if turned or (field.role != "bcd" and field.width % 8):
        return (1,)
    return (4,) if field.role == "bcd" else (8,)


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
