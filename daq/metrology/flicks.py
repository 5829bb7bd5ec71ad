"""An arm that was flicked and came to rest again: where its number came back to each time."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import Final, Literal

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

    `dof`: the degrees of freedom it is made with, None for a bound. `returns`: how many flicks it
    is from. `floor`: what stands in for a scatter that did not show, the count's own bound or
    the file's.
    """

    u_mm: float
    dof: float | None = None
    returns: int = 0
    floor: Literal["", "count", "file"] = ""


def friction(
    sent_back: Sequence[Sequence[float]],
    back: Sequence[float] | None,
    count_mm: float,
    bound_mm: float,
) -> Friction:
    """Return what the levels before and after flicks come to; `bound_mm` is the file's figure.

    `sent_back`: of the attempts that did not come back; `back`: of the one that did, None while
    none has. All are pooled, each about its own mean (JCGM 100, 4.2.4). Being few, they leave
    √(ν/(ν-2)) times their experimental standard deviation (JCGM 101, 6.4.9.4: that of Student's
    t). After some were sent back, the one that came back was picked for being small: it adds its
    scatter, but no degrees of freedom.

    A scatter well within a count does not show, however often it is looked for (JCGM 100,
    F.2.2.1): it is no less than count/√12, what a count can hide, or, where that is more than
    is known without a look, the file's bound/√3.
    """
    attempts = [*sent_back, *([] if back is None else [back])]
    squares = sum((x - fmean(levels)) ** 2 for levels in attempts for x in levels)
    returns = sum(len(levels) - 1 for levels in attempts)
    scatter = math.sqrt(squares / returns)
    of_count, of_file = count_mm / math.sqrt(12.0), bound_mm / math.sqrt(3.0)
    if scatter <= min(of_count, of_file):
        return Friction(min(of_count, of_file), None, returns, _floor(of_count, of_file))
    dof = sum(len(levels) - 1 for levels in sent_back or attempts)
    return Friction(scatter * math.sqrt(dof / (dof - 2)), dof, returns)


def _floor(of_count: float, of_file: float) -> Literal["count", "file"]:
    return "count" if of_count < of_file else "file"


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
        if chain and _beyond(run, chain[-1], rest) > still_mm:
            chain.append(rest)
        elif chain and abs(rest[2] - chain[-1][2]) <= still_mm:
            chain[-1] = rest  # one rest, in which samples were late
        else:
            chain = [rest]
    return tuple(level for _, _, level in chain[-1 - FLICKS :])


def _beyond(
    run: Sequence[Sample], before: tuple[int, int, float], after: tuple[int, int, float]
) -> float:
    """How far the number went past both rests between them; a creep's rests overlap: nowhere."""
    low, high = sorted((before[2], after[2]))
    between = [s.value_mm for s in run[before[1] : after[0] + 1]]
    if not between:
        return 0.0
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
