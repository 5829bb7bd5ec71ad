"""Numbers in binary: where in frames of bytes a count, or a float, stands that says a face."""

import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from daq.gauges.frames.shared.bitfields import REVERSED
from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.face import TypedFace
from daq.gauges.learn.scaled import WAYS, Scale, Way, counted, line, sizes

_WIDEST: Final = 32
_LEAST: Final = 6
_LOOKED_AT: Final = 8
_SHORT: Final = 8.0
_ORDERS: Final = ("", "low-first", "low-word-first", "swapped-bytes")
_SIZES: Final = {32: ">f", 64: ">d"}


@dataclass(frozen=True, slots=True)
class CountAt:
    """Where a number stands in a frame: from which bit on, how many, how they are to be read.

    `order` of a count is "low-first" when its lowest bit is sent first, and then `at` counts in
    a frame whose bytes are reversed. `scale` makes the face's number of it. `short`: it could not
    say all of the travel.
    """

    at: int
    width: int
    way: Way | Literal["float"]
    order: str
    scale: Scale
    short: bool = False

    @property
    def cost(self) -> float:
        """How much is assumed."""
        if self.short:
            return _SHORT
        odd = 0.0 if self.width % 8 == 0 and self.at % 8 == 0 else 1.0
        if self.way == "float":
            return 0.5 + odd
        of_way = {"unsigned": 0.0, "signed": 0.3, "offset": 1.0}[self.way]
        return 2.0 + odd + of_way + 0.3 * bool(self.order) + self.scale.cost


def bits(frame: bytes, low_first: bool) -> str:
    """Return a frame's bits in the order sent, or with the lowest of each byte first."""
    raw = frame.translate(REVERSED) if low_first else frame
    return f"{int.from_bytes(raw, 'big'):0{8 * len(raw)}b}"


def count(text: str, way: Way, low_first: bool) -> int:
    """Return the count that some bits are."""
    return counted(int(text[::-1] if low_first else text, 2), len(text), way)


def fields(cut: Cut, faces: Sequence[TypedFace], travel: Fraction) -> Iterator[CountAt]:
    """Yield where all the faces stand; `travel` is that of the contact, in the faces' unit."""
    if not cut.fixed or len({face.places for face in faces}) > 1:
        return
    held = [list(dict.fromkeys(f for f in group if len(f) == len(cut.frames[0])))[-_LOOKED_AT:]
            for group in cut.held]  # fmt: skip
    if not all(held):
        return
    yield from _floats(held, faces)
    for low_first in (False, True):
        rows = [[bits(frame, low_first) for frame in group] for group in held]
        yield from _counts(rows, faces, travel, low_first)


def _floats(held: Sequence[Sequence[bytes]], faces: Sequence[TypedFace]) -> Iterator[CountAt]:
    length = len(held[0][0])
    for width, form in _SIZES.items():
        size = width // 8
        for at in range(length - size + 1):
            for order in _ORDERS:
                if all(
                    any(_is_float(frame[at : at + size], order, form, face) for frame in group)
                    for group, face in zip(held, faces, strict=True)
                ):
                    scale = Scale({"places": faces[0].places}, 0.0)
                    yield CountAt(8 * at, width, "float", order, scale)


def _is_float(raw: bytes, order: str, form: str, face: TypedFace) -> bool:
    if order in ("low-first", "swapped-bytes"):
        raw = raw[::-1]
    if order in ("low-word-first", "swapped-bytes"):
        raw = b"".join(raw[at : at + 2] for at in range(len(raw) - 2, -1, -2))
    value: float = struct.unpack(form, raw)[0]
    if value - value != 0.0 or abs(value) > 1e6 or 0.0 < abs(value) < 1e-9:
        return False
    return abs(value - float(face.number)) <= 0.5000001 * 10.0**-face.places


def _counts(
    held: Sequence[Sequence[str]], faces: Sequence[TypedFace], travel: Fraction, low_first: bool
) -> Iterator[CountAt]:
    length = len(held[0][0])
    known = list(sizes(faces[0].places))
    for way in WAYS:
        for scale in known:
            wanted = _wanted(faces, way, scale[0])
            if wanted is None:
                continue
            need = max(_LEAST, int(2 * travel / scale[0]).bit_length())
            found = [
                (at, width)
                for width in range(_LEAST, min(_WIDEST, length) + 1)
                for at in range(length - width + 1)
                if _stands(held, wanted, at, width, way, low_first)
            ]
            for at, width in _chosen(found, need, way, low_first):
                yield CountAt(
                    at, width, way, "low-first" if low_first else "", scale[1], width < need
                )
    yield from _lines(held, faces, low_first)


def _wanted(faces: Sequence[TypedFace], way: Way, size: Fraction) -> list[int] | None:
    """Return the counts that the faces are, in steps of a size; None when they are none."""
    counts = [Fraction(face.number) / size for face in faces]
    if any(each.denominator != 1 for each in counts) or len(set(counts)) < 2:
        return None
    return [abs(int(each)) if way == "unsigned" else int(each) for each in counts]


def _stands(
    held: Sequence[Sequence[str]], wanted: Sequence[int], at: int, width: int, way: Way, low: bool
) -> bool:
    return all(
        any(count(row[at : at + width], way, low) == one for row in group)
        for group, one in zip(held, wanted, strict=True)
    )


def _chosen(
    found: Sequence[tuple[int, int]], need: int, way: Way, low_first: bool
) -> list[tuple[int, int]]:
    """Of the widths at one place, that of whole bytes, else the least that spans the travel.

    A number with its own sign has that in its highest bit: the widest.
    """
    ends: dict[int, list[tuple[int, int]]] = {}
    for at, width in found:
        ends.setdefault(at if low_first else at + width, []).append((at, width))
    chosen = []
    for group in ends.values():
        group.sort(key=lambda each: each[1])
        whole = [each for each in group if each[1] >= need and each[1] % 8 == each[0] % 8 == 0]
        wide = [each for each in group if each[1] >= need]
        if way == "unsigned":
            chosen.append((whole or wide or [group[-1]])[0])
        else:
            chosen += (whole[-1:] + group[-1:]) if whole else group[-1:]
    return list(dict.fromkeys(chosen))


def _lines(
    held: Sequence[Sequence[str]], faces: Sequence[TypedFace], low_first: bool
) -> Iterator[CountAt]:
    """Whole bytes that are the faces by a factor, and an offset, of their own."""
    length = len(held[0][0])
    for width in (16, 24, 32, 12, 8):
        for at in range(0, length - width + 1, 8 if width % 8 == 0 else 4):
            for way in WAYS:
                rows = [count(group[-1][at : at + width], way, low_first) for group in held]
                scale = line(rows, faces)
                if scale is not None and "scale" in scale.keys:
                    yield CountAt(at, width, way, "low-first" if low_first else "", scale)
