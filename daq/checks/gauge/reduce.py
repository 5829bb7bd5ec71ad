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
    pooled standard deviation of repeats, None without repeats, and `freedom` its degrees of
    freedom. `hysteresis_mm`: the largest difference between the means up and down at one length,
    None without both. `short_mm`: the most the error changed within a short span, None where too
    few lengths lie so close. `passed`: the span is no more than the maximum permissible error.
    """

    points: tuple[LengthRead, ...]
    errors_mm: tuple[float, ...]
    span_mm: float
    repeatability_mm: float | None
    hysteresis_mm: float | None
    max_error_mm: float
    passed: bool
    freedom: int = 0
    short_mm: float | None = None


def reduce(points: Sequence[LengthRead], max_error_mm: float) -> GaugeErrors:
    """Judge a gauge by its readings; the first of them is the zero of all.

    Simple acceptance: no part of `max_error_mm` is kept back for the uncertainty of the
    lengths; where that is known, `doubt` judges. What stands for one length must be the same
    float each time. What floats leave of nothing, below `SLACK_MM`, is taken off.

    Raises:
        ValueError: fewer than two readings, or a limit that is none.
    """
    if len(points) < 2:
        raise ValueError(f"found {len(points)} readings; allowed: two or more")
    if not (math.isfinite(max_error_mm) and max_error_mm > 0.0):
        raise ValueError(f"found the limit {max_error_mm}; allowed: a length above 0 mm")
    nominal, read = points[0].nominal_mm, points[0].read_mm
    from_zero = tuple(
        LengthRead(_clean(p.nominal_mm - nominal), _clean(p.read_mm - read), p.direction)
        for p in points
    )
    errors = tuple(_clean(p.read_mm - p.nominal_mm) for p in from_zero)
    span = _clean(max(errors) - min(errors))
    groups = _groups(from_zero)
    sd, hysteresis = pooled_sd(groups.values()), _hysteresis(groups)
    return GaugeErrors(
        points=from_zero,
        errors_mm=errors,
        span_mm=span,
        repeatability_mm=None if sd is None else _clean(sd),
        hysteresis_mm=None if hysteresis is None else _clean(hysteresis),
        max_error_mm=max_error_mm,
        passed=span <= max_error_mm + SLACK_MM,
        freedom=sum(len(group) - 1 for group in groups.values()),
        short_mm=short_span(from_zero),
    )


def _clean(mm: float) -> float:
    return 0.0 if abs(mm) < SLACK_MM else mm


class AtLength(Protocol):
    """A reading on a known length, mm, by whatever class keeps it."""

    @property
    def nominal_mm(self) -> float:
        """The length."""

    @property
    def read_mm(self) -> float:
        """What the gauge said."""

    @property
    def direction(self) -> Direction:
        """From which side it came there."""


def short_span(points: Iterable[AtLength]) -> float | None:
    """Return the most that the error changed within `SHORT_MM`, read from one side; mm.

    Repeats stand for their mean: how they scatter, and how far up and down differ, is told by
    itself. None where too few lengths lie so close.
    """
    ways: dict[Direction, list[LengthRead]] = {"up": [], "down": []}
    for (nominal, direction), errors in _groups(points).items():
        ways[direction].append(LengthRead(nominal, nominal + fmean(errors), direction))
    found = [worst_step(way, SHORT_MM) for way in ways.values()]
    worst = max((mm for mm in found if mm is not None), default=None)
    return None if worst is None else _clean(worst)


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


def _groups(points: Iterable[AtLength]) -> Groups:
    """The errors of each length and direction: repeats of one another."""
    groups: dict[tuple[float, Direction], list[float]] = defaultdict(list)
    for point in points:
        groups[point.nominal_mm, point.direction].append(point.read_mm - point.nominal_mm)
    return groups


def _hysteresis(groups: Groups) -> float | None:
    lengths = {nominal for nominal, direction in groups if direction == "down"}
    both = [nominal for nominal in lengths if (nominal, "up") in groups]
    return max((abs(fmean(groups[n, "up"]) - fmean(groups[n, "down"])) for n in both), default=None)
