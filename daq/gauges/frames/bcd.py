"""Frames of decimal digits: fixed length, a nibble to a digit, each nibble with its role.

Only a frame that keeps to its layout at every nibble counts: a filler that is none, a
digit above 9 or a sign that is not listed makes it bad. What turns a digit into another
digit cannot be seen: such frames carry no check of their number.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from daq.gauges.frames.shared.fixed import Places, check
from daq.gauges.frames.shared.layout import Allowed, LaidOut, Layout
from daq.gauges.frames.shared.number import PerUnit, decimals, pointed
from daq.gauges.frames.shared.symbols import SymbolDecoder, in_bytes, picker
from daq.words import Unit

_NIBBLES: Final = "0123456789abcdef"
_DIGITS: Final = _NIBBLES[:10]
_MOST_DIGITS: Final = 12
_SWAPPED: Final = bytes(byte >> 4 | (byte & 15) << 4 for byte in range(256))

_EACH: Final = {"packed": 2, "single": 1, "hex": 0}
_SYMBOLS: Final[dict[tuple[str, str], Callable[[bytes], str]]] = {
    ("packed", "high-first"): bytes.hex,
    ("packed", "low-first"): lambda raw: raw.translate(_SWAPPED).hex(),
    ("hex", "high-first"): lambda raw: raw.decode().lower(),
    ("single", "high-first"): lambda raw: raw.hex()[1::2],
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BcdOptions(LaidOut):
    """The keys of a frame of decimal digits.

    The roles in `layout` are "filler" with the nibbles that always stand there, sign,
    digits, places (how many decimals there are), unit, flags and any (not looked at);
    "sign+unit" is one nibble that says both. `packing` is "packed" (two nibbles a byte, in
    that `order`), "hex" (each as a character) or "single" (each in a byte of its own).
    `places` is the number of decimals, for all units or by unit, where it is not sent.
    With `lowest_first` the digits come in rising order.
    """

    packing: Literal["packed", "hex", "single"] = "packed"
    order: Literal["high-first", "low-first"] = "high-first"
    places: PerUnit | None = None
    lowest_first: bool = False

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        check(_places(self, _layout(self)), self.apart)


def _layout(options: BcdOptions) -> Layout:
    layout = Layout(options, _NIBBLES, "filler", ("digits", "places"))
    digits = len(layout.at("digits"))
    if not 1 <= digits <= _MOST_DIGITS:
        raise ValueError(f"found {digits} digits in layout; allowed: 1 to {_MOST_DIGITS}")
    if (options.places is None) != bool(layout.at("places")):
        raise ValueError(
            "found the number of decimals "
            f"{'nowhere' if options.places is None else 'twice'}; allowed: either places in "
            "layout or a key places such as 3, or { mm = 3, in = 5 }"
        )
    if options.packing != "packed" and options.order != "high-first":
        raise ValueError('found an order of nibbles; allowed: with packing = "packed" only')
    decimals(options.places or 0, layout.can_be)
    return layout


def _places(options: BcdOptions, layout: Layout) -> Places:
    """Return the bytes that may stand at each place of a frame, its terminator included."""
    return in_bytes(layout, _allowed(layout), _EACH[options.packing], options.order == "low-first")


def _allowed(layout: Layout) -> Allowed:
    most = len(layout.at("digits")) + 1
    return layout.allowed(digits=_DIGITS, places=_DIGITS[:most])


def _number(options: BcdOptions, layout: Layout) -> Callable[[str, Unit], str]:
    digits = picker(layout.at("digits")[:: -1 if options.lowest_first else 1])
    if options.places is None:
        (at,) = layout.at("places")
        return lambda symbols, unit: pointed(digits(symbols), int(symbols[at]))
    by_unit = decimals(options.places, layout.can_be)
    return lambda symbols, unit: pointed(digits(symbols), by_unit[unit])


@dataclass(frozen=True, slots=True)
class BcdShape:
    """Decimal digits, a nibble each."""

    options: type[BcdOptions] = BcdOptions

    def make(self, options: BcdOptions) -> SymbolDecoder:
        """Return a decoder that has seen nothing yet."""
        layout = _layout(options)
        return SymbolDecoder(
            layout,
            _places(options, layout),
            _SYMBOLS[options.packing, options.order],
            _number(options, layout),
            _allowed(layout),
        )


SHAPE: Final = BcdShape()
