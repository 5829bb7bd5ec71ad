"""The gauge's own workings: from the plunger's compression to the number on its face."""

import random
from typing import Literal

from daq.virtual.frames import number
from daq.virtual.spec import GaugeSpec

MM_PER_INCH = 25.4


class Gauge:
    """A digital plunger gauge: travel, noise, counts, a zero button and a unit button.

    Compression is in mm from the free end of the plunger: 0 with the contact in
    the air, never more than the travel.
    """

    def __init__(self, spec: GaugeSpec, rng: random.Random) -> None:
        """Switch the gauge on, showing its specification's unit and zero."""
        self.spec = spec
        self.zero_mm = spec.zero_mm
        self.unit: Literal["mm", "in"] = spec.unit
        self._rng = rng

    def face(self, compression_mm: float) -> str:
        """Return the number shown at `compression_mm`, as text with its unit."""
        held = self.held(compression_mm)
        if 0.0 < held < self.spec.travel_mm:
            held += self._rng.gauss(0.0, self.spec.noise_sd_mm)
        way = 1.0 if self.spec.counts_up else -1.0
        places, step = self._digits()
        size_mm = step * 10.0**-places * (MM_PER_INCH if self.unit == "in" else 1.0)
        return number(round(way * (held - self.zero_mm) / size_mm), places, step, self.unit)

    def held(self, compression_mm: float) -> float:
        """Return the compression the plunger can really take: between free and end of travel."""
        return min(max(compression_mm, 0.0), self.spec.travel_mm)

    def press_zero(self, compression_mm: float) -> None:
        """Make the gauge read zero where it stands."""
        self.zero_mm = self.held(compression_mm)

    def press_unit(self) -> None:
        """Change between mm and inch."""
        self.unit = "in" if self.unit == "mm" else "mm"

    def _digits(self) -> tuple[int, int]:
        """Return (places, step) in the unit shown; the other unit keeps a like fineness."""
        if self.unit == self.spec.unit:
            return self.spec.places, self.spec.step
        if self.unit == "in":
            return self.spec.places + 2, 5 * self.spec.step
        return self.spec.places - 1, self.spec.step
