"""Guesses at frames that hold a count in binary."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final

from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.evidence import Table
from daq.gauges.learn.layout import Column, NumberField, fields, grown, signs, written

_BITS: Final = frozenset("01")
_MOST: Final = 40
_REVERSED: Final = bytes(int(f"{byte:08b}"[::-1], 2) for byte in range(256))

_Way = tuple[dict[str, Any], Callable[[bytes], str]]


def _high(frame: bytes) -> str:
    return "".join(f"{byte:08b}" for byte in frame)


_PACKED: Final[tuple[_Way, ...]] = (
    ({}, _high),
    ({"order": "low-first"}, lambda frame: _high(frame.translate(_REVERSED))),
)


def guesses(cut: Cut, bits: int) -> Iterator[Table]:
    """Yield frame tables that may fit, without unit and step; `bits` span the travel."""
    for keys, taken, body in _ways(cut.frames):
        symbols = [taken(frame) for frame in body]
        seen = cut.seen(symbols)
        for field in fields(seen, _BITS, alone=True):
            for lowest_first in (False, True):
                wide = grown(field, seen, max(bits, len(field.number)), lowest_first)
                yield from _tables(keys, wide, seen, lowest_first)
                if field.sign is None:
                    yield from _tables(keys, field, seen, lowest_first, "twos-complement")


def _ways(
    frames: Sequence[bytes],
) -> Iterator[tuple[dict[str, Any], Callable[[bytes], str], list[bytes]]]:
    for size in range(3):
        last = {frame[len(frame) - size :] for frame in frames}
        body = [frame[: len(frame) - size] for frame in frames]
        if len(last) == 1 and body[0] and set(b"".join(body)) <= set(b"01"):
            end = {"terminator": min(last).decode("latin-1")} if size else {}
            yield {"packing": "characters"} | end, bytes.decode, body
            return
    for keys, taken in _PACKED:
        yield keys, taken, list(frames)


def _tables(
    keys: dict[str, Any],
    field: NumberField,
    seen: Sequence[Column],
    lowest_first: bool,
    coding: str = "",
) -> Iterator[Table]:
    if len(field.number) > _MOST:
        return
    table: Table = {"shape": "bits", "layout": written(seen, field, "fixed", "magnitude")} | keys
    if lowest_first:
        table["lowest_first"] = True
    if coding:
        table["coding"] = coding
    if named := signs(seen, field):
        table["signs"] = named
    yield table
