"""What is lost by showing a length in whole counts."""

import math
from typing import Final

_WAVES: Final = 50
"""Terms of the saw's Fourier series; what is left after them is below 1 % of the whole."""


def rounding(resolution_mm: float, scatter_mm: float) -> float:
    """Return the standard uncertainty, mm, that counts leave in a mean of many samples.

    The rounding error is a saw of the value; a scatter of the samples smooths wave k of its
    Fourier series (amplitude resolution/(kπ)) by exp(−2π²k²σ²/resolution²). Nothing smoothed
    is resolution/√12. The scatter is as shown, so the counts' own share is taken off first
    (Sheppard's correction). Both: textbook.
    """
    variance = max(0.0, scatter_mm**2 - resolution_mm**2 / 12.0)
    if resolution_mm <= 0.0 or variance == 0.0:
        return max(0.0, resolution_mm) / math.sqrt(12.0)
    smooth = (2.0 * math.pi / resolution_mm) ** 2 * variance
    waves = sum(math.exp(-smooth * k * k) / (k * k) for k in range(1, _WAVES))
    return resolution_mm / math.pi * math.sqrt(waves / 2.0)
