"""Frames that are a number written out."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.virtual.wires.scale import CountStep, too_large
from daq.words import Unit


@dataclass(frozen=True, slots=True)
class TextSpec:
    r"""A frame such as ``+001.234 mm\r\n``, drawn by `layout`, line end and all.

    `layout` holds ``{sign}``, ``{number}``, ``{unit}`` and ``{status}`` in any order, or
    ``{signed}`` for a number with its sign right before the first digit; widths are
    given as in format strings. A unit that is not in the layout is not on the wire. The
    number has `whole` digits before the decimal sign, filled up with `fill`. `flags`
    says how a flag shows in the status, `sound` what stands there without one. With
    a `length`, each frame must have so many bytes.
    """

    layout: str
    scales: Mapping[Unit, CountStep]
    whole: int = 3
    fill: Literal["0", " "] = "0"
    decimal: Literal[".", ","] = "."
    plus: str = "+"
    minus: str = "-"
    units: Mapping[Unit, str] = field(default_factory=lambda: {"mm": "mm", "in": "in"})
    flags: Mapping[str, str] = field(default_factory=dict)
    sound: str = ""
    length: int = 0
    over: bytes = b""

    def encode(self, counts: int, unit: Unit, flags: Collection[str] = ()) -> bytes:
        """Return the whole frame. Raises ValueError when the number does not fit in it."""
        scale = self.scales[unit]
        before, after = divmod(scale.last_places(counts), 10**scale.places)
        if before >= 10**self.whole:
            raise too_large(counts, f"{self.whole} digits before the decimal sign")
        number = str(before).rjust(self.whole, self.fill)
        if scale.places:
            number += f"{self.decimal}{after:0{scale.places}d}"
        sign = self.minus if counts < 0 else self.plus
        frame = self.layout.format(
            sign=sign,
            number=number,
            signed=(sign + number.lstrip()).rjust(len(sign) + len(number)),
            unit=self.units[unit],
            status=next((self.flags[f] for f in self.flags if f in flags), self.sound),
        ).encode("latin-1")
        if self.length and len(frame) != self.length:
            raise ValueError(f"frame: found {len(frame)} bytes; allowed: {self.length}")
        return frame
