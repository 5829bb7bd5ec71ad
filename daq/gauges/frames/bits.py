"""Frames of bits: fixed length, a count in binary, each bit with its role.

Only a frame whose fixed bits are right counts. What turns a bit of the count over cannot
be seen: such frames carry no check of their number.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Final, Literal

from daq.gauges.frames.shared.fixed import Places, check
from daq.gauges.frames.shared.layout import LaidOut, Layout
from daq.gauges.frames.shared.number import check_units, pointed
from daq.gauges.frames.shared.symbols import SymbolDecoder, in_bytes, picker
from daq.settings import Range
from daq.words import Unit

_MOST_BITS: Final = 40
_MOST_DECIMALS: Final = 9
_REVERSED: Final = bytes(int(f"{byte:08b}"[::-1], 2) for byte in range(256))


@dataclass(frozen=True, slots=True, kw_only=True)
class BitsOptions(LaidOut):
    """The keys of a frame of bits.

    The roles in `layout` are "fixed" with the bits that always stand there, magnitude
    (in one part or several), sign, unit, flags and any (not looked at). `packing` is
    "packed" (eight bits a byte, in that `order`) or "characters" ("0" or "1" each). With
    `lowest_first` the magnitude's lowest bit is sent first. `coding` is "binary" or
    "twos-complement", which has its sign in the magnitude. `step` is what one count is
    worth in each unit.
    """

    step: dict[str, Annotated[float, Range(above=0.0, hi=1.0)]]
    packing: Literal["packed", "characters"] = "packed"
    order: Literal["high-first", "low-first"] = "high-first"
    lowest_first: bool = False
    coding: Literal["binary", "twos-complement"] = "binary"

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        check(_places(self, _layout(self)), self.apart)


def _layout(options: BitsOptions) -> Layout:
    layout = Layout(options, "01", "fixed", ("magnitude",))
    bits = len(layout.at("magnitude"))
    if not 1 <= bits <= _MOST_BITS:
        raise ValueError(f"found {bits} bits of magnitude; allowed: 1 to {_MOST_BITS}")
    if options.coding == "twos-complement" and layout.at("sign"):
        raise ValueError("found a sign beside a twos-complement magnitude; allowed: one of them")
    if options.packing != "packed" and options.order != "high-first":
        raise ValueError('found an order of bits; allowed: with packing = "packed" only')
    check_units("step", options.step, layout.can_be)
    for unit in layout.can_be:
        _scaled(options.step[unit])
    return layout


def _scaled(step: float) -> tuple[int, int]:
    """Return a step as a whole number and how many decimals it is to be given.

    Raises:
        ValueError: it has more decimals than any gauge's face.
    """
    exact = Decimal(repr(step)).normalize()
    decimals = max(0, -int(exact.as_tuple().exponent))
    if decimals > _MOST_DECIMALS:
        raise ValueError(f"found step {step!r}; allowed: at most {_MOST_DECIMALS} decimals")
    return round(exact.scaleb(decimals)), decimals


def _places(options: BitsOptions, layout: Layout) -> Places:
    """Return the bytes that may stand at each place of a frame, its terminator included."""
    each = 8 if options.packing == "packed" else 0
    return in_bytes(layout, layout.allowed(), each, options.order == "low-first")


def _symbols(options: BitsOptions, bits: int) -> Callable[[bytes], str]:
    if options.packing == "characters":
        return bytes.decode
    if options.order == "low-first":
        return lambda raw: f"{int.from_bytes(raw.translate(_REVERSED)):0{bits}b}"
    return lambda raw: f"{int.from_bytes(raw):0{bits}b}"


def _number(options: BitsOptions, layout: Layout) -> Callable[[str, Unit], str]:
    at = layout.at("magnitude")[:: -1 if options.lowest_first else 1]
    magnitude = picker(at)
    steps: Mapping[str, tuple[int, int]] = {u: _scaled(options.step[u]) for u in layout.can_be}
    signed = options.coding == "twos-complement"
    half, whole = 1 << len(at) - 1, 1 << len(at)

    def number(symbols: str, unit: Unit) -> str:
        count = int(magnitude(symbols), 2)
        scale, decimals = steps[unit]
        if not signed:
            return pointed(str(count * scale), decimals)
        if count < half:
            return "+" + pointed(str(count * scale), decimals)
        return "-" + pointed(str((whole - count) * scale), decimals)

    return number


@dataclass(frozen=True, slots=True)
class BitsShape:
    """A count in binary."""

    options: type[BitsOptions] = BitsOptions

    def make(self, options: BitsOptions) -> SymbolDecoder:
        """Return a decoder that has seen nothing yet."""
        layout = _layout(options)
        return SymbolDecoder(
            layout,
            _places(options, layout),
            _symbols(options, len(layout.allowed())),
            _number(options, layout),
            layout.allowed(),
        )


SHAPE: Final = BitsShape()
