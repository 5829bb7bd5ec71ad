"""What one count is worth, from counts and the faces that came with them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from daq.gauges.learn.evidence import Table
from daq.gauges.learn.face import TypedFace

Way = Literal["unsigned", "signed", "offset"]
WAYS: Final[tuple[Way, ...]] = ("unsigned", "signed", "offset")
"""How a count may say its sign: not at all, in two's complement, with zero in the middle."""

_LAST_DIGITS: Final = (1, 5, 2)
_FEWEST: Final = 3
"""Two faces make a line through anything: a factor is told by three."""
_FINEST: Final = 3
"""A factor of more digits than these is in the gauge's manual, and not told by faces."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Keys of a frame's table that make the face's number of a count, and what they assume."""

    keys: Table
    cost: float


def counted(value: int, width: int, way: Way) -> int:
    """Return the count that a field of so many bits is."""
    if way == "signed" and value >> width - 1:
        return value - (1 << width)
    return value - (1 << width - 1) if way == "offset" else value


def sizes(places: int) -> Iterator[tuple[Fraction, Scale]]:
    """Yield what a count may be worth where the face counts as the frames do."""
    for last in _LAST_DIGITS:
        size = Fraction(last, 10**places)
        if last == 1:
            yield size, Scale({"places": places}, 0.0)
        else:
            yield size, Scale({"places": places, "scale": float(size)}, 0.5)


def line(counts: Sequence[int | Decimal], faces: Sequence[TypedFace]) -> Scale | None:
    """Return the factor and the offset that make all the faces of the counts.

    The simplest there are within half of a face's last digit; None when there are none, or
    none so simple that it must be the one.
    """
    pairs = sorted(
        {(Fraction(count), face.number) for count, face in zip(counts, faces, strict=True)}
    )
    places = faces[0].places
    if len(pairs) < _FEWEST or pairs[0][0] == pairs[-1][0]:
        return None
    half = Fraction(1, 2 * 10**places)
    reach = pairs[-1][0] - pairs[0][0]
    rise = Fraction(pairs[-1][1]) - Fraction(pairs[0][1])
    scale = simplest((rise - 2 * half) / reach, (rise + 2 * half) / reach)
    if scale is None or scale == 0:
        return None
    room = [
        (Fraction(number) - half - scale * count, Fraction(number) + half - scale * count)
        for count, number in pairs
    ]
    offset = simplest(max(low for low, _ in room), min(high for _, high in room), places)
    if offset is None:
        return None
    keys: Table = {"places": places, "scale": float(scale)}
    if offset:
        keys["offset"] = float(offset)
    return Scale(keys, 4.0 + _digits(scale) + (2.0 + _digits(offset)) * bool(offset))


def simplest(low: Fraction, high: Fraction, places: int | None = None) -> Fraction | None:
    """Return the decimal number of the fewest digits from `low` to `high`.

    None when one of more than three digits would be needed, or of more than so many `places`.
    """
    if low > high:
        return None
    if low <= 0 <= high:
        return Fraction(0)
    top = max(abs(low), abs(high))
    first = 0
    while Fraction(10) ** first <= top:
        first += 1
    while Fraction(10) ** (first - 1) > top:
        first -= 1
    most = _FINEST if places is None else first + places
    for digits in range(1, max(1, most) + 1):
        step = Fraction(10) ** (first - digits)
        least = -(-low // step)
        if least * step <= high:
            return least * step
    return None


def _digits(number: Fraction) -> int:
    text = f"{Decimal(number.numerator) / Decimal(number.denominator):f}"
    return len(text.replace(".", "").strip("-0"))
