"""How far inside its limits an estimate must lie to conform with a given probability.

Everything here is counted in standard uncertainties: widths, distances and guards are
divided by u. What is true lies about the estimate like Student's t with `dof` degrees of
freedom, which `math.inf` makes the normal distribution. Nothing is assumed about what
heads are like beforehand, so this is the probability of JCGM 106, 7.2 to 7.4 (from
memory), and holds for this machine however other machines are.
"""

import math
from collections.abc import Callable
from functools import lru_cache

import numpy as np

from daq.metrology.student import normal_cdf, normal_quantile, t_cdf, t_quantile

_FAR_PART = normal_cdf(normal_quantile(0.95) - 5.0) / 0.05 * (1.0 + 1e-9)
"""Of the doubt allowed, what the other limit 5 u away still takes at 95 %: 0.8 %, left out.

With few degrees of freedom or more than 95 %, 5 u are not far enough; this part decides."""

_NODES_PER_U = 16.0
_LEAST_NODES = 128
_MOST_NODES = 32_768
_WIDEST = 2_000.0
"""Seen from a 2000th of its radius away, a circle is a straight line to 1 in 4000."""


def in_zone(below: float, above: float, dof: float) -> float:
    """Return the probability that the true value lies in a zone.

    The zone reaches from `below` under the estimate to `above` over it (either may be
    negative when the estimate lies outside, or `math.inf` where there is no limit).
    """
    if above < below:  # so that what is small is not lost beside 1
        below, above = above, below
    low = 0.0 if math.isinf(above) else t_cdf(-above, dof)
    return max(0.0, t_cdf(below, dof) - low)


def least_width(coverage: float, dof: float) -> float:
    """Return the width a zone must have for any estimate at all to conform: 3.92 at 95 %."""
    return 2.0 * t_quantile(0.5 + 0.5 * coverage, dof)


@lru_cache(maxsize=4096)
def zone_k(width: float, dof: float, coverage: float) -> tuple[float, bool]:
    """Return the guard at a limit of a zone this wide, and whether one limit alone made it.

    An estimate that far inside conforms with probability `coverage`. With the other limit far
    away (5 u at 95 %) this is the one-sided quantile, 1.645. Nearer, it grows to 1.960 at
    the least width, and stays there below, where no estimate conforms.
    """
    alone = t_quantile(coverage, dof)
    if math.isinf(width) or t_cdf(alone - width, dof) <= _FAR_PART * (1.0 - coverage):
        return alone, True
    widest = 0.5 * least_width(coverage, dof)
    if width <= 2.0 * widest:
        return widest, False
    return _root(lambda k: in_zone(k, width - k, dof) - coverage, alone, 0.5 * width), False


def in_circle(distance: float, radius: float, dof: float) -> float:
    """Return the probability that a true vector lies inside a circle.

    Its estimate lies `distance` from the middle; both parts have the same uncertainty,
    so the normal case is the non-central χ² distribution with two degrees of freedom.
    Seen from the estimate, an element of the circle at ψ subtends the angle
    (r² − d r cos ψ)/ρ² dψ, and a disc of radius ρ about it holds 1 − (1 + ρ²/ν)^(−ν/2)
    (normal: 1 − exp(−ρ²/2)). The integral of their product once round, over 2π, is the
    probability; it is smooth and periodic, so even steps are exact to rounding.
    """
    if radius > _WIDEST:
        return t_cdf(radius - distance, dof)
    nodes = int(min(max(_NODES_PER_U * max(radius, distance), _LEAST_NODES), _MOST_NODES))
    cosine = np.cos((np.arange(nodes) + 0.5) * (math.pi / nodes))
    # The difference squared apart from the rest: near the circle the two would cancel.
    squared = (radius - distance) ** 2 + 2.0 * radius * distance * (1.0 - cosine)
    held = (
        -np.expm1(-0.5 * squared)
        if math.isinf(dof)
        else -np.expm1(-0.5 * dof * np.log1p(squared / dof))
    )
    per_square = np.where(squared > 0.0, held / np.where(squared > 0.0, squared, 1.0), 0.5)
    seen = radius * (radius - distance * cosine)
    return min(1.0, max(0.0, float(np.mean(per_square * seen))))


def least_radius(coverage: float, dof: float) -> float:
    """Return the radius a circle must have for any estimate at all to conform: 2.45 at 95 %."""
    if math.isinf(dof):
        return math.sqrt(-2.0 * math.log1p(-coverage))
    return math.sqrt(dof * math.expm1(-2.0 / dof * math.log1p(-coverage)))


@lru_cache(maxsize=4096)
def circle_k(radius: float, dof: float, coverage: float) -> float:
    """Return the guard inside a circle of this radius: 1.93 at 3, 1.67 at 20 (95 %).

    Below the least radius, where no estimate conforms, it is that radius.
    """
    least = least_radius(coverage, dof)
    if radius <= least:
        return least
    if math.isinf(radius):
        return t_quantile(coverage, dof)
    return _root(lambda k: in_circle(radius - k, radius, dof) - coverage, 0.0, radius)


def _root(rising: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that rises from below zero to above it is zero."""
    while high - low > 1e-12 * high:
        middle = 0.5 * (low + high)
        if not low < middle < high:
            break
        if rising(middle) < 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
