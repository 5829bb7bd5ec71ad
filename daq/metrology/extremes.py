"""How far what is largest of several errors, or the largest less the smallest, may go."""

import math
from functools import lru_cache

from daq.metrology.student import normal_cdf

_NODES = 400
_FAR = 8.0
"""Standard deviations beyond which a normal error is not looked for: 1e-15."""
_HALVINGS = 60


def length_quantile(p: float) -> float:
    """Return what a share `p` of the lengths of plane errors stays below.

    The two components are independent and normal, each of one standard deviation: so the
    length is √(−2 ln(1 − p)) (Rayleigh's distribution; textbook).
    """
    return math.sqrt(-2.0 * math.log1p(-p))


@lru_cache(maxsize=256)
def range_quantile(p: float, count: int) -> float:
    """Return what a share `p` of the ranges of `count` independent normal errors stays below.

    Each of one standard deviation: the studentized range's quantile where that is known
    (textbook).

    Raises:
        ValueError: fewer than two errors.
    """
    if count < 2:
        raise ValueError(f"count: found {count}; allowed: 2 or more")
    low, high = 0.0, 2.0 * _FAR
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _below(middle, count) < p else (low, middle)
    return high


def _below(span: float, count: int) -> float:
    """The probability that the range of so many normal errors is below `span`.

    The smallest lies at x, the others within `span` above it: n ∫ φ(x) (Φ(x + span) − Φ(x))ⁿ⁻¹ dx.
    """
    step = 2.0 * _FAR / _NODES
    at = (step * node - _FAR for node in range(_NODES + 1))
    return (
        count
        * step
        * math.fsum(
            math.exp(-0.5 * x * x)
            / math.sqrt(2.0 * math.pi)
            * (normal_cdf(x + span) - normal_cdf(x)) ** (count - 1)
            for x in at
        )
    )
