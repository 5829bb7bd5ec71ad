"""Numbers of decimal digits, a half-byte each: where in frames of bytes those of a face stand."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any, Final

from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.evidence import Table
from daq.gauges.learn.face import TypedFace

_HEX: Final = frozenset(b"0123456789abcdefABCDEF")
_DIGITS: Final = frozenset("0123456789")
_LOOKED_AT: Final = 12
_MOST: Final = 12


@dataclass(frozen=True, slots=True)
class Carried:
    """How half-bytes are carried: the keys that say so, and how they are taken out."""

    keys: dict[str, Any]
    taken: Callable[[bytes], str]


def _swapped(frame: bytes) -> str:
    return bytes(byte >> 4 | (byte & 15) << 4 for byte in frame).hex()


_PACKED: Final = (Carried({}, bytes.hex), Carried({"order": "low-first"}, _swapped))
_SINGLE: Final = Carried({"packing": "single"}, lambda frame: frame.hex()[1::2])
_CHARACTERS: Final = Carried({"packing": "hex"}, lambda frame: frame.decode().lower())


def tables(cut: Cut, faces: Sequence[TypedFace], digits: int) -> Iterator[tuple[Table, float]]:
    """Yield frame tables of decimal digits; so many `digits` span the travel."""
    if not cut.fixed or len({face.places for face in faces}) > 1:
        return
    for carried in _ways(cut.frames):
        every = [carried.taken(frame) for frame in cut.frames]
        held = [[carried.taken(frame) for frame in frames] for frames in cut.held]
        held = [[each for each in group if len(each) == len(every[0])] for group in held]
        if not all(held):
            continue
        told = [symbols for group in held for symbols in group]
        seen = [frozenset(column) for column in zip(*every, *told, strict=True)]
        for lowest_first in (False, True):
            for at, width in _places(held, faces, digits, lowest_first, seen):
                number = range(at, at + width)
                for sign in _signs(held, faces, number):
                    yield _table(cut, carried, seen, number, sign, lowest_first, faces)


def _ways(frames: Sequence[bytes]) -> Iterator[Carried]:
    inside = b"".join(frames)
    if _HEX.issuperset(inside):
        yield _CHARACTERS
    if max(inside, default=16) < 16:
        yield _SINGLE
    else:
        yield from _PACKED


def _places(
    held: Sequence[Sequence[str]], faces: Sequence[TypedFace], digits: int, lowest_first: bool,
    seen: Sequence[frozenset[str]],
) -> Iterator[tuple[int, int]]:  # fmt: skip
    """Yield where all faces stand, in no more digits than span the travel."""
    longest = len(seen)
    for width in range(min(max(digits, 3), _MOST, longest), 1, -1):
        found = False
        for at in range(longest - width + 1):
            if not all(column <= _DIGITS for column in seen[at : at + width]):
                continue
            if all(
                any(_number(each, at, width, lowest_first) == face.counts for each in set(group))
                for group, face in zip(held, faces, strict=True)
            ):
                found = True
                yield at, width
        if found:
            return


def _number(symbols: str, at: int, width: int, lowest_first: bool) -> int:
    part = symbols[at : at + width]
    return int(part[::-1] if lowest_first else part)


def _signs(
    held: Sequence[Sequence[str]], faces: Sequence[TypedFace], number: range
) -> Iterator[tuple[int, dict[str, str]] | None]:
    """Yield which symbol outside the number may be its sign."""
    if not any(face.number < 0 for face in faces):
        yield None
        return
    for at in range(len(held[0][0])):
        if at in number:
            continue
        minus: set[str] = set()
        plus: set[str] = set()
        for group, face in zip(held, faces, strict=True):
            if face.number:
                (minus if face.number < 0 else plus).update(each[at] for each in group)
        if len(minus) == 1 and len(plus) <= 1 and not minus & plus:
            yield at, dict.fromkeys(plus, "+") | {minus.pop(): "-"}


def _table(
    cut: Cut, carried: Carried, seen: Sequence[frozenset[str]], number: range,
    sign: tuple[int, dict[str, str]] | None, lowest_first: bool, faces: Sequence[TypedFace],
) -> tuple[Table, float]:  # fmt: skip
    place = None if sign is None else sign[0]
    roles = [
        ("digits", "") if at in number
        else ("sign", "") if at == place
        else ("filler", min(column)) if len(column) == 1
        else ("any", "")
        for at, column in enumerate(seen)
    ]  # fmt: skip
    layout = []
    for role, group in groupby(roles, key=lambda each: each[0]):
        symbols = [symbol for _, symbol in group]
        if role == "filler":
            layout.append(f"filler {''.join(symbols)}")
        else:
            layout.append(role if len(symbols) == 1 else f"{role} {len(symbols)}")
    table: Table = {"shape": "bcd", "layout": layout} | carried.keys
    if lowest_first:
        table["lowest_first"] = True
    if sign is not None:
        table["signs"] = sign[1]
    table |= {"places": faces[0].places, "unit": faces[0].unit} | cut.keys
    loose = sum(role == "any" for role, _ in roles)
    return table, 2.0 + 0.5 * bool(carried.keys) + 0.5 * lowest_first + loose + cut.cost
