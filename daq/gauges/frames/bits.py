"""Frames of bits: fixed length, a count in binary, each bit with its role.

Only a frame whose fixed bits are right counts. What turns a bit of the count over cannot
be seen: such frames carry no check of their number. A short form of `fields`.
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Final, Literal

from daq.gauges.frames.shared.decoding import FieldsDecoder
from daq.gauges.frames.shared.keys import LaidOut
from daq.gauges.frames.shared.layout import Layout
from daq.gauges.frames.shared.number import check_units
from daq.gauges.frames.shared.reading import Short
from daq.settings import Range

_MOST_BITS: Final = 40
_MOST_DECIMALS: Final = 9


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
        _decoder(self)


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


def _decoder(options: BitsOptions) -> FieldsDecoder:
    layout = _layout(options)
    number = "unsigned" if options.coding == "binary" else "signed"
    run = layout.run({"magnitude": number}, options.packing, options.order == "low-first")
    scaled = {unit: _scaled(options.step[unit]) for unit in layout.can_be}
    steps = {unit: step for unit, (step, _) in scaled.items()}
    keys = layout.keys({unit: places for unit, (_, places) in scaled.items()})
    short = Short(steps, plus="+", lowest_first=options.lowest_first)
    return FieldsDecoder(keys, [run], layout.can_be, number, short)


@dataclass(frozen=True, slots=True)
class BitsShape:
    """A count in binary."""

    options: type[BitsOptions] = BitsOptions

    def make(self, options: BitsOptions) -> FieldsDecoder:
        """Return a decoder that has seen nothing yet."""
        return _decoder(options)


SHAPE: Final = BitsShape()
