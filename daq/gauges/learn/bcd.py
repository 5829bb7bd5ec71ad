"""Guesses at frames of decimal digits, a nibble to a digit."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.evidence import Table
from daq.gauges.learn.layout import NumberField, fields, grown, signs, written

_DIGITS: Final = frozenset("0123456789")
_HEX: Final = frozenset(b"0123456789abcdefABCDEF")
_MOST_DIGITS: Final = 12
_ENDS: Final = (b"\r\n", b"\r", b"\n", b"\x03", b"\x04")


@dataclass(frozen=True, slots=True)
class _Carried:
    """How nibbles are carried: the keys that say so, and how they are taken out."""

    keys: dict[str, Any]
    taken: Callable[[bytes], str]


def _swapped(frame: bytes) -> str:
    return bytes(byte >> 4 | (byte & 15) << 4 for byte in frame).hex()


_PACKED: Final = (
    _Carried({}, bytes.hex),
    _Carried({"order": "low-first"}, _swapped),
)
_SINGLE: Final = _Carried({"packing": "single"}, lambda frame: frame.hex()[1::2])
_CHARACTERS: Final = _Carried({"packing": "hex"}, lambda frame: frame.decode().lower())


def guesses(cut: Cut, digits: int) -> Iterator[Table]:
    """Yield frame tables that may fit, without unit and places; `digits` span the travel."""
    for carried, body, end in _ways(cut.frames):
        symbols = [carried.taken(frame) for frame in body]
        seen = cut.seen(symbols)
        for field in fields(seen, _DIGITS, alone=False):
            for lowest_first in (False, True):
                wide = grown(field, seen, max(digits, len(field.number)), lowest_first)
                if len(wide.number) > _MOST_DIGITS:
                    continue
                yield _table(carried, end, cut, wide, seen, lowest_first)


def _ways(frames: Sequence[bytes]) -> Iterator[tuple[_Carried, list[bytes], bytes]]:
    """Yield how the nibbles may be carried, the frames so taken, and what closes each."""
    end = next((end for end in _ENDS if all(frame.endswith(end) for frame in frames)), b"")
    body = [frame[: len(frame) - len(end)] for frame in frames]
    inside = b"".join(body)
    if _HEX.issuperset(inside):
        yield _CHARACTERS, body, end
    if max(inside, default=16) < 16:
        yield _SINGLE, body, end
    else:
        yield from ((each, list(frames), b"") for each in _PACKED)


def _table(
    carried: _Carried,
    end: bytes,
    cut: Cut,
    field: NumberField,
    seen: Sequence[frozenset[str]],
    lowest_first: bool,
) -> Table:
    table: Table = {"shape": "bcd", "layout": written(seen, field, "filler", "digits")}
    table |= carried.keys
    if lowest_first:
        table["lowest_first"] = True
    if end:
        table["terminator"] = end.decode("latin-1")
    if named := signs(seen, field):
        table["signs"] = named
    return table
