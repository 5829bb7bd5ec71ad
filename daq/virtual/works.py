"""The gauge's own workings: from the plunger's compression to the number on its face."""

import random
from dataclasses import dataclass
from typing import Final

from daq.virtual.model import GaugeModel
from daq.words import Unit

_FACE_WIDTH: Final = 5
"""Sign, three digits and the point: what stands before the decimal places."""


@dataclass(frozen=True, slots=True)
class Look:
    """What the gauge shows: its counts in `unit`, and whether it is beyond its travel."""

    counts: int
    unit: Unit
    over: bool


class Works:
    """A digital plunger gauge: travel, noise, counts, its zero, preset and unit buttons.

    Compression is in mm from the free end of the plunger: 0 with the contact in
    the air, never more than the travel.
    """

    def __init__(self, model: GaugeModel, rng: random.Random) -> None:
        """Switch the gauge on, showing its model's unit and zero."""
        self.model = model
        self.zero_mm = model.zero_mm
        self.unit: Unit = model.unit
        self._way = 1.0 if model.counts_up else -1.0
        self._rng = rng

    def look(self, compression_mm: float) -> Look:
        """Return what it shows at `compression_mm`."""
        held = self._held(compression_mm)
        if self.model.noise_sd_mm and 0.0 < held < self.model.travel_mm:
            held += self._rng.gauss(0.0, self.model.noise_sd_mm)
        size_mm = self.model.wire.scales[self.unit].size_mm(self.unit)
        counts = round(self._way * (held - self.zero_mm) / size_mm)
        return Look(counts, self.unit, compression_mm > self.model.travel_mm)

    def face(self, compression_mm: float) -> str:
        """Return the number shown, as text with its unit, such as "+001.234 mm"."""
        look = self.look(compression_mm)
        scale = self.model.wire.scales[look.unit]
        number = scale.last_places(look.counts) / 10**scale.places
        sign = "-" if look.counts < 0 else "+"
        width = scale.places + _FACE_WIDTH - 1
        return f"{sign}{number:0{width}.{scale.places}f} {look.unit}"

    def press_zero(self, compression_mm: float) -> None:
        """Make the gauge read zero where it stands."""
        self.press_preset(compression_mm, 0.0)

    def press_preset(self, compression_mm: float, preset_mm: float) -> None:
        """Make the gauge read `preset_mm` where it stands."""
        self.zero_mm = self._held(compression_mm) - self._way * preset_mm

    def press_unit(self) -> None:
        """Go on to the next unit; nothing happens on a gauge that has only one."""
        units = list(self.model.wire.scales)
        self.unit = units[(units.index(self.unit) + 1) % len(units)]

    def _held(self, compression_mm: float) -> float:
        return min(max(compression_mm, 0.0), self.model.travel_mm)
