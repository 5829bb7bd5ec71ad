"""An arm that was flicked and came to rest again: where its number came back to each time."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev
from typing import Final

from daq.metrology.run import newest_run
from daq.words import Sample

FLICKS: Final = 3
REST_NS: Final = 300_000_000
LEAST_SAMPLES: Final = 4
NEAR_MM: Final = 0.1
"""Further off, the number rests elsewhere: the contact on its way down, or an arm held aside."""


@dataclass(frozen=True, slots=True)
class Friction:
    """What a sticking contact on a springy arm leaves a reading off: standard uncertainty, mm.

    `dof`: its degrees of freedom, None for a bound. `returns`: how many flicks it is from.
    """

    u_mm: float
    dof: float | None = None
    returns: int = 0


def friction(levels: Sequence[float], count_mm: float, bound_mm: float) -> Friction:
    """Return what the levels before and after flicks come to; `bound_mm` is the file's figure.

    Their experimental standard deviation, with one degree of freedom less than there are
    (JCGM 100, 4.2.2 and G.3: Student's t allows for their being few). A scatter well within a
    count does not show, however often it is looked for (F.2.2.1): below count/√12, what a count
    can hide, or the file's bound/√3 where that is less, the scatter says nothing.
    """
    scatter = stdev(levels)
    hidden = min(count_mm / math.sqrt(12.0), bound_mm / math.sqrt(3.0))
    returns = len(levels) - 1
    if scatter <= hidden:
        return Friction(hidden, returns=returns)
    return Friction(scatter, returns, returns)


def levels(samples: Sequence[Sample], still_mm: float) -> tuple[float, ...]:
    """Return where the number rested before the latest three flicks and after each, oldest first.

    Fewer than that when fewer flicks were seen. A flick takes the number more than `still_mm`
    past where it rests before and after; a contact on its way down goes from rest to rest.
    """
    run = newest_run(samples)
    rests = list(_rests(run, still_mm))
    near = [rest for rest in rests if abs(rest[2] - rests[-1][2]) <= NEAR_MM]
    chain: list[tuple[int, int, float]] = []
    for rest in near:
        flicked = bool(chain) and _beyond(run, chain[-1], rest) > still_mm
        chain = [*chain, rest] if flicked else [rest]
    return tuple(level for _, _, level in chain[-1 - FLICKS :])


def _beyond(
    run: Sequence[Sample], before: tuple[int, int, float], after: tuple[int, int, float]
) -> float:
    low, high = sorted((before[2], after[2]))
    between = [s.value_mm for s in run[before[1] : after[0] + 1]]
    return max(max(between) - high, low - min(between))


def _rests(run: Sequence[Sample], still_mm: float) -> Iterator[tuple[int, int, float]]:
    """Where the number stood still: first and last index, and what it was in the end."""
    first, found = 0, None
    for last, newest in enumerate(run):
        while newest.mono_ns - run[first + 1 if first < last else last].mono_ns >= REST_NS:
            first += 1
        window = [s.value_mm for s in run[first : last + 1]]
        whole = newest.mono_ns - run[first].mono_ns >= REST_NS and len(window) >= LEAST_SAMPLES
        if whole and max(window) - min(window) <= still_mm:
            found = (found[0] if found else first, last, fmean(window))
        elif found:
            yield found
            found = None
    if found:
        yield found
