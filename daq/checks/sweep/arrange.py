"""Other ways to sweep: something turned half round, two gauges on one bar."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from daq.checks.sweep.reduce import Fit, Lean, Spot


@dataclass(frozen=True, slots=True)
class Separated(Lean):
    """Two sweeps, something having been turned half round between them.

    The lean is free of what turned. `added_a`, `added_b`: what turned, as the first sweep read
    it: the ring's wedge when the ring was turned, the spindle's rise and fall once a turn when
    the arm was clamped half a turn round.
    """

    added_a: float
    added_b: float


def reversed_pair(first: Fit, turned: Fit) -> Separated:
    """Part what was turned half round from the lean.

    What turned changes sign: the lean is the mean, what turned half the difference.

    Raises:
        ValueError: the sweeps were read on different radii.
    """
    if not math.isclose(first.radius_mm, turned.radius_mm, rel_tol=1e-9):
        raise ValueError(
            f"found sweep radii {first.radius_mm} and {turned.radius_mm} mm; allowed: the same"
        )
    return Separated(
        first.radius_mm,
        (first.a + turned.a) / 2.0,
        (first.b + turned.b) / 2.0,
        (first.a - turned.a) / 2.0,
        (first.b - turned.b) / 2.0,
    )


def bar_points(first: Sequence[Spot], second: Sequence[Spot]) -> list[Spot]:
    """Return the differences of two gauges at opposite ends of one bar, as one gauge's.

    Both are given with the bar's azimuth, which is the first gauge's. Fitted with the sum of
    both radii they give the slopes without what moves both gauges alike (drift, the spindle's
    rise and fall), and the difference of their zeros as `c_mm`:
    m₁ − m₂ = (c₁ − c₂) + (R₁ + R₂)(a cos φ + b sin φ).

    Raises:
        ValueError: a reading has no partner.
    """
    if [one.azimuth_deg for one in first] != [other.azimuth_deg for other in second]:
        raise ValueError("found readings of one gauge only; allowed: both gauges at every place")
    return [
        Spot(one.azimuth_deg, one.pushed_mm - other.pushed_mm, (one.order + other.order) / 2.0)
        for one, other in zip(first, second, strict=True)
    ]
