"""From readings on known lengths to errors, repeatability and hysteresis."""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, combinations
from statistics import fmean
from typing import Final, Protocol

from daq.checks.gauge.plan import Direction
from daq.units import SLACK_MM

SHORT_MM: Final = 0.2
"""As far apart as a sweep's spots may read, mm: common practice, no source."""


@dataclass(frozen=True, slots=True)
class LengthRead:
    """One reading on a known length: `read_mm` is pushed in, both mm and from any zero."""

    nominal_mm: float
    read_mm: float
    direction: Direction


@dataclass(frozen=True, slots=True)
class GaugeErrors:
    """What a check shows, mm. `points` and `errors_mm` count from the first reading.

    `span_mm`: largest error less smallest, over all readings. `repeatability_mm`: the
    pooled standard deviation of repeats, None without repeats. `hysteresis_mm`: the
    largest difference between the means up and down at one length, None without both.
    `passed`: the span is no more than the maximum permissible error.
    """

    points: tuple[LengthRead, ...]
    errors_mm: tuple[float, ...]
    span_mm: float
    repeatability_mm: float | None
    hysteresis_mm: float | None
    max_error_mm: float
    passed: bool


def reduce(points: Sequence[LengthRead], max_error_mm: float) -> GaugeErrors:
    """Judge a gauge by its readings; the first of them is the zero of all.

    Simple acceptance: no part of `max_error_mm` is kept back for the uncertainty of the
    lengths. What stands for one length must be the same float each time.

    Raises:
        ValueError: fewer than two readings, or a limit that is none.
    """
    if len(points) < 2:
        raise ValueError(f"found {len(points)} readings; allowed: two or more")
    if not (math.isfinite(max_error_mm) and max_error_mm > 0.0):
        raise ValueError(f"found the limit {max_error_mm}; allowed: a length above 0 mm")
    nominal, read = points[0].nominal_mm, points[0].read_mm
    from_zero = tuple(
        LengthRead(p.nominal_mm - nominal, p.read_mm - read, p.direction) for p in points
    )
    errors = tuple(p.read_mm - p.nominal_mm for p in from_zero)
    span = max(errors) - min(errors)
    groups = _groups(from_zero, errors)
    return GaugeErrors(
        points=from_zero,
        errors_mm=errors,
        span_mm=span,
        repeatability_mm=pooled_sd(groups.values()),
        hysteresis_mm=_hysteresis(groups),
        max_error_mm=max_error_mm,
        passed=span <= max_error_mm + SLACK_MM,
    )


class AtLength(Protocol):
    """A reading on a known length, mm, by whatever class keeps it."""

    @property
    def nominal_mm(self) -> float:
        """The length."""

    @property
    def read_mm(self) -> float:
        """What the gauge said."""


def worst_step(points: Iterable[AtLength], within_mm: float) -> float | None:
    """Return the most that the error changed between lengths at most this far apart, mm.

    None where fewer than three pairs of unlike lengths lie so close: too few to bound anything.
    """
    pairs = [
        (abs((one.read_mm - one.nominal_mm) - (two.read_mm - two.nominal_mm)), *apart)
        for one, two in combinations(points, 2)
        for apart in [sorted((one.nominal_mm, two.nominal_mm))]
        if SLACK_MM < apart[1] - apart[0] <= within_mm + SLACK_MM
    ]
    if len({(low, high) for _, low, high in pairs}) < 3:
        return None
    return max(change for change, _, _ in pairs)


def pooled_sd(groups: Iterable[Sequence[float]]) -> float | None:
    """Return the pooled standard deviation of repeats within groups; None without repeats.

    The square root of the squares about each group's own mean, summed over all groups and
    divided by all their degrees of freedom (a group of n has n - 1), as in an analysis of
    variance with one factor.
    """
    repeated = [group for group in groups if len(group) > 1]
    freedom = sum(len(group) - 1 for group in repeated)
    if not freedom:
        return None
    squares = chain.from_iterable(
        ((value - mean) ** 2 for value in group)
        for group, mean in ((group, fmean(group)) for group in repeated)
    )
    return math.sqrt(math.fsum(squares) / freedom)


Groups = Mapping[tuple[float, Direction], Sequence[float]]


def _groups(points: Iterable[LengthRead], errors_mm: Iterable[float]) -> Groups:
    """The errors of each length and direction: repeats of one another."""
    groups: dict[tuple[float, Direction], list[float]] = defaultdict(list)
    for point, error in zip(points, errors_mm, strict=True):
        groups[point.nominal_mm, point.direction].append(error)
    return groups


def _hysteresis(groups: Groups) -> float | None:
    lengths = {nominal for nominal, direction in groups if direction == "down"}
    both = [nominal for nominal in lengths if (nominal, "up") in groups]
    return max((abs(fmean(groups[n, "up"]) - fmean(groups[n, "down"])) for n in both), default=None)
