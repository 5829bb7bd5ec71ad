"""The normal distribution and Student's t: how far out a share of all results lies.

The t tail is the regularised incomplete beta function I_x(ν/2, 1/2) with x = ν/(ν + t²),
worked out by its continued fraction (textbook; Abramowitz and Stegun 26.5.8 and 26.7.1,
from memory). Degrees of freedom may be any real number from `LEAST_DOF` up, and
`math.inf`, which gives the normal distribution.
"""

import math
from functools import lru_cache
from statistics import NormalDist

LEAST_DOF = 0.1
"""Fewer, and the quantiles leave the range of a float."""

_NORMAL = NormalDist()
_MANY = 1e6
_STEPS = 20_000
_LAST_BIT = 1e-16
_TINY = 1e-300


def normal_cdf(z: float) -> float:
    """Return the share of a normal distribution below `z` standard deviations."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def normal_quantile(p: float) -> float:
    """Return how many standard deviations lie above the share `p`.

    Raises:
        ValueError: `p` is not between 0 and 1.
    """
    _share(p)
    return _NORMAL.inv_cdf(p)


def t_cdf(t: float, dof: float) -> float:
    """Return the share of Student's t with `dof` degrees of freedom below `t`.

    Raises:
        ValueError: too few degrees of freedom.
    """
    _enough(dof)
    tail = _tail(abs(t), dof)
    return tail if t < 0.0 else 1.0 - tail


@lru_cache(maxsize=4096)
def t_quantile(p: float, dof: float) -> float:
    """Return the `t` below which the share `p` of Student's t with `dof` lies.

    Raises:
        ValueError: `p` is not between 0 and 1, or too few degrees of freedom.
    """
    _share(p)
    _enough(dof)
    if math.isinf(dof) or p == 0.5:
        return _NORMAL.inv_cdf(p)
    share = min(p, 1.0 - p)
    t = -_NORMAL.inv_cdf(share)  # never too far out: t has the heavier tails
    for _ in range(_STEPS):
        # The tail is convex, so each step lands short of the quantile and none overshoots.
        step = (_tail(t, dof) - share) / _density(t, dof)
        t += step
        if step <= 1e-15 * t:
            break
    return t if p > 0.5 else -t


def whole_dof(dof: float | None) -> float:
    """Return degrees of freedom as tables have them: cut to whole ones, at least one.

    None stands for infinitely many. JCGM 100 G.4.1 cuts effective degrees of freedom to
    the next lower whole number, which errs on the safe side.
    """
    if dof is None:
        return math.inf
    return max(1.0, math.floor(dof + 1e-9))


def _share(p: float) -> None:
    if not 0.0 < p < 1.0:
        raise ValueError(f"p: found {p}; allowed: a share between 0 and 1")


def _enough(dof: float) -> None:
    if not dof >= LEAST_DOF:
        raise ValueError(f"dof: found {dof}; allowed: {LEAST_DOF} or more")


def _tail(t: float, dof: float) -> float:
    """Return the share above `t` ≥ 0."""
    if dof > _MANY:
        # Abramowitz and Stegun 26.7.8 (from memory); what it leaves is of the order 1/dof².
        z = t if math.isinf(dof) else t * (1.0 - 0.25 / dof) / math.sqrt(1.0 + 0.5 * t * t / dof)
        return normal_cdf(-z)
    a, ratio = 0.5 * dof, t * t / dof
    x, rest = 1.0 / (1.0 + ratio), ratio / (1.0 + ratio)
    if rest == 0.0:
        return 0.5
    front = math.exp(-a * math.log1p(ratio) + 0.5 * math.log(rest) - _log_beta(a))
    if x < (a + 1.0) / (a + 2.5):
        return 0.5 * front * _fraction(a, 0.5, x) / a
    return 0.5 - front * _fraction(0.5, a, rest)


def _density(t: float, dof: float) -> float:
    power = 0.5 * (dof + 1.0) * math.log1p(t * t / dof)
    return math.exp(-power - _log_beta(0.5 * dof)) / math.sqrt(dof)


def _log_beta(a: float) -> float:
    """Return ln B(a, 1/2)."""
    if a < 30.0:
        return math.lgamma(a) + math.lgamma(0.5) - math.lgamma(a + 0.5)
    # Two large logarithms would cancel; this is the series of their difference, by Stirling's.
    inverse = 1.0 / a
    series = inverse * (-1 / 8 + inverse**2 * (1 / 192 + inverse**2 * (-1 / 640)))
    return 0.5 * math.log(math.pi) - 0.5 * math.log(a) - series


def _fraction(a: float, b: float, x: float) -> float:
    """Return the continued fraction of the incomplete beta function, by Lentz's method."""
    c, d = 1.0, _inverse(1.0 - (a + b) * x / (a + 1.0))
    value = d
    for m in range(1, _STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        change = 1.0
        for term in (even, odd):
            d = _inverse(1.0 + term * d)
            c = 1.0 + term / c or _TINY
            change = c * d
            value *= change
        if abs(change - 1.0) <= _LAST_BIT:
            break
    return value


def _inverse(number: float) -> float:
    return 1.0 / (number or _TINY)
