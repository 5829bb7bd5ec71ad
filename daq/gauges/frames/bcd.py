"""Frames of decimal digits: fixed length, a nibble to a digit, each nibble with its role.

Only a frame that keeps to its layout at every nibble counts: a filler that is none, a
digit above 9 or a sign that is not listed makes it bad. What turns a digit into another
digit cannot be seen: such frames carry no check of their number. A short form of `fields`.
"""

from dataclasses import dataclass
from typing import Final, Literal

from daq.gauges.frames.shared.decoding import FieldsDecoder
from daq.gauges.frames.shared.keys import LaidOut
from daq.gauges.frames.shared.layout import Layout
from daq.gauges.frames.shared.number import PerUnit, decimals
from daq.gauges.frames.shared.reading import Short

_NIBBLES: Final = "0123456789abcdef"
_DIGITS: Final = _NIBBLES[:10]
_MOST_DIGITS: Final = 12


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
        _decoder(self)


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


def _decoder(options: BcdOptions) -> FieldsDecoder:
    layout = _layout(options)
    most, low_first = len(layout.at("digits")) + 1, options.order == "low-first"
    may = {"digits": _DIGITS, "places": _DIGITS[:most]}
    run = layout.run({"digits": "bcd"}, options.packing, low_first, **may)
    flags = [options.flags.get(str(n), f"flag-{n}") for n in range(4 * len(layout.at("flags")))]
    # Of each half-byte the lowest bit is told first.
    short = Short(
        lowest_first=options.lowest_first, flags=[(n ^ 3, f) for n, f in enumerate(flags)]
    )
    return FieldsDecoder(layout.keys(options.places), [run], layout.can_be, "bcd", short)


@dataclass(frozen=True, slots=True)
class BcdShape:
    """Decimal digits, a nibble each."""

    options: type[BcdOptions] = BcdOptions

    def make(self, options: BcdOptions) -> FieldsDecoder:
        """Return a decoder that has seen nothing yet."""
        return _decoder(options)


SHAPE: Final = BcdShape()
