"""What the surface's own form does to a sweep: seen with eight positions, taken for lean with few.

The height around the circle is a sum of waves; the lean is the one with one wave a turn.
At evenly spread positions the others fold onto it as the discrete Fourier transform says.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from daq.checks.sweep.reduce import Spot, fit, solver
from daq.words import Said, said

_SEEN = 1e-9
_MOST_WAVES = 16


@dataclass(frozen=True, slots=True)
class Second:
    """A saddle or a ridge: the wave with two high places opposite each other.

    The surface stands `amplitude_mm` above its mean at `direction_deg` and opposite to it
    (azimuth, 0 to 180), and as much below it a quarter turn away. `residual_mm` is what no
    lean, drift or second wave explains: root mean square over the readings to spare, None
    when there are none.
    """

    amplitude_mm: float
    direction_deg: float
    residual_mm: float | None

    @property
    def between_mm(self) -> float:
        """How much higher the high line stands than the low one, mm."""
        return 2.0 * self.amplitude_mm


def second(points: Sequence[Spot], radius_mm: float, drift: bool) -> Second:
    """Return the second harmonic of readings at five azimuths or more, by least squares.

    With `drift` a steady drift along `order` is fitted with it.

    Raises:
        ValueError: as `fit`, or the azimuths do not tell a second harmonic from a lean.
    """
    # Without the lean already, so that a zero far away costs no digits; the rest is the same.
    left = np.array(fit(points, radius_mm, drift).residuals_mm)
    phi = np.radians([point.azimuth_deg for point in points])
    columns = [np.ones(len(points)), np.cos(phi), np.sin(phi), np.cos(2.0 * phi), np.sin(2.0 * phi)]
    if drift:
        since = np.array([point.order for point in points]) - points[0].order
        columns.append(since / (np.ptp(since) or 1.0))
    design = np.column_stack(columns)
    if np.linalg.matrix_rank(design, rtol=_SEEN) < design.shape[1]:
        raise ValueError(
            f"found {len(set(phi.tolist()))} positions that do not tell the surface's form from "
            "a lean; allowed: 5 or more"
        )
    found = np.linalg.lstsq(design, left)[0]
    along, askew = found[3:5].tolist()
    rest = left - design @ found
    spare = len(points) - design.shape[1]
    return Second(
        math.hypot(along, askew),
        math.degrees(math.atan2(askew, along)) / 2.0 % 180.0,
        math.sqrt(float(rest @ rest) / spare) if spare > 0 else None,
    )


@lru_cache(maxsize=64)
def first_taken_for_lean(azimuths_deg: tuple[float, ...]) -> int:
    """Return how many waves a turn the smoothest form has that these positions read as lean.

    Raises:
        ValueError: as `fit`.
    """
    different = tuple(sorted({azimuth % 360.0 for azimuth in azimuths_deg}))
    lean = solver(different).weights[1:3]
    phi = np.radians(different)
    for waves in range(2, _MOST_WAVES):
        form = np.column_stack([np.cos(waves * phi), np.sin(waves * phi)])
        if np.abs(lean @ form).max() > _SEEN:
            return waves
    return _MOST_WAVES


def aliasing(azimuths_deg: Sequence[float]) -> Said:
    """Return what these positions can and cannot tell from a lean.

    Raises:
        ValueError: as `fit`.
    """
    count = len({azimuth % 360.0 for azimuth in azimuths_deg})
    waves = first_taken_for_lean(tuple(azimuths_deg))
    tells = "nothing" if count == 3 else {2: "partly", 3: "hollow"}.get(waves, "most")
    return said("aliasing", positions=count, tells=tells, waves=waves - 1)
