"""Many heads through the product and by hand, in as many processes as are wanted."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby
from math import ceil, sqrt
from random import Random
from statistics import stdev
from typing import TypeVar

from daq.service.in_memory import InMemory

from . import by_hand, population
from .cells import Cell, Series
from .codes import in_codes
from .mill import Mill, Visit
from .rider import Outcome, ride
from .shop import setup

SEED = 1
WELL_INSIDE = 0.4
"""Of the limit: a head found so has nothing to be done to it, whatever ring and noise add."""
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Spread:
    """A mean, its standard error, and what 95 % keep to."""

    mean: float
    error: float
    most: float


@dataclass(frozen=True, slots=True)
class Measured:
    """A cell with what its audits came to, one a head."""

    cell: Cell
    outcomes: Sequence[Outcome]

    @property
    def ended(self) -> list[Outcome]:
        """The audits that were signed."""
        return [each for each in self.outcomes if not each.lost]

    @property
    def lost(self) -> list[Outcome]:
        """The audits that led nowhere."""
        return [each for each in self.outcomes if each.lost]

    @property
    def mean(self) -> float:
        """Moves on average, of the audits that were signed."""
        return self.turned.mean

    @property
    def minutes(self) -> Spread:
        """How long the audits took that were signed, by the clock of hands."""
        return spread([each.minutes for each in self.ended])

    @property
    def turned(self) -> Spread:
        """Moves of the audits that were signed."""
        return spread([each.moves for each in self.ended])

    @property
    def readings(self) -> float:
        """Readings on average, of the audits that were signed."""
        return spread([each.readings for each in self.ended]).mean

    @property
    def most(self) -> int:
        """The fewest moves that 99 % of all audits kept to."""
        return percentile([each.moves for each in self.outcomes], 0.99)

    @property
    def inside(self) -> float:
        """The share of all audits after which the head truly stood inside."""
        return self._share(lambda each: each.inside(self.cell.series.files.limit_mm))

    def verdict(self, verdict: str) -> float:
        """The share of all audits that were signed with this verdict."""
        return self._share(lambda each: each.verdict == verdict)

    def _share(self, holds: Callable[[Outcome], bool]) -> float:
        return sum(not each.lost and holds(each) for each in self.outcomes) / len(self.outcomes)


def spread(values: Sequence[float]) -> Spread:
    """Mean, standard error and 95th percentile; nothing of nothing."""
    if not values:
        return Spread(0.0, 0.0, 0.0)
    error = stdev(values) / sqrt(len(values)) if len(values) > 1 else 0.0
    return Spread(sum(values) / len(values), error, percentile(values, 0.95))


def percentile(values: Iterable[T], share: float) -> T:
    """The smallest value that at least this share of the values does not exceed."""
    ordered = sorted(values)
    return ordered[max(ceil(share * len(ordered)) - 1, 0)]


def audits(series: Series, count: int, seed: int, number: int) -> list[Outcome]:
    """The first audits of one head, the house remembering what it learned."""
    head = population.head(seed, number)
    house: InMemory | None = None
    outcomes = []
    for audit in range(count):
        visit = stands(series, seed, number, audit)
        files = setup(series.files, visit.radius_mm)
        house = house or InMemory(files, in_codes)
        house.setup = files
        outcomes.append(ride(Mill(head, series.conditions, visit), house))
        if outcomes[-1].lost:
            house = None
    return outcomes


def stands(series: Series, seed: int, number: int, audit: int) -> Visit:
    """How that audit finds its head: anyhow, or well inside."""
    visit = population.visit(seed, number, audit)
    if not series.inside:
        return visit
    rng, most_mm = Random(f"inside {visit.seed}"), WELL_INSIDE * series.files.limit_mm
    return replace(visit, start_mm=(rng.uniform(-most_mm, most_mm), rng.uniform(-most_mm, most_mm)))


def moves_by_hand(cell: Cell, guess: bool, seed: int, number: int) -> int:
    """The moves that the same head takes without the product."""
    visit = population.visit(seed, number, cell.before)
    mill = Mill(population.head(seed, number), cell.series.conditions, visit)
    part = by_hand.guessing(visit.seed) if guess else by_hand.halving()
    return by_hand.moves(mill, cell.series.files.limit_mm, part)


def measure(
    cells: Sequence[Cell], heads: int, processes: int = 1, seed: int = SEED
) -> Iterator[Measured]:
    """Yield each cell as it is measured; cells of one series share their audits."""
    for series, group in groupby(cells, key=lambda cell: cell.series):
        wanted = list(group)
        count = 1 + max(cell.before for cell in wanted)
        rows = each_head(partial(audits, series, count, seed), heads, processes)
        for cell in wanted:
            yield Measured(cell, [row[cell.before] for row in rows])


def each_head(work: Callable[[int], T], heads: int, processes: int) -> list[T]:
    """What `work` makes of each head's number, in order."""
    if processes == 1:
        return [work(number) for number in range(heads)]
    with ProcessPoolExecutor(processes) as pool:
        return list(pool.map(work, range(heads), chunksize=max(heads // (8 * processes), 1)))
