"""Many heads through the product and by hand, in as many processes as are wanted."""

import hashlib
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import asdict, dataclass, replace
from functools import partial
from itertools import groupby
from math import ceil, sqrt
from random import Random
from statistics import stdev
from typing import Any, TypeVar

from daq.service.in_memory import InMemory

from . import population
from .by_hand import ByHand, Hands, Way, part_of
from .cells import Cell, Series
from .codes import in_codes
from .kept import Asked, Kept, Result
from .mill import Mill, Visit
from .odd import Odd, OddMill
from .other import Screwed
from .rider import Outcome, Ridden, ride
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
    """A cell with what its audits came to, one a head; `numbers`: of which heads."""

    cell: Cell
    outcomes: Sequence[Outcome]
    numbers: Sequence[int] = ()

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
        return self.share(lambda each: not each.lost and each.inside)

    @property
    def knocked(self) -> float:
        """The share of audits in which somebody was said to have knocked the head."""
        return self.share(_is_knocked)

    @property
    def named(self) -> float:
        """The share of audits in which what is so was named as the likeliest."""
        return self.share(lambda each: self.cell.series.so in each.named)

    def verdict(self, verdict: str) -> float:
        """The share of all audits that were signed with this verdict."""
        return self.share(lambda each: not each.lost and each.verdict == verdict)

    def share(self, holds: Callable[[Outcome], bool]) -> float:
        """The share of all audits of which this holds."""
        return sum(map(holds, self.outcomes)) / len(self.outcomes)


def _is_knocked(outcome: Outcome) -> bool:
    if "knocked" in outcome.named:
        return True
    return "bumped" in outcome.strange and not outcome.named


def spread(values: Sequence[float]) -> Spread:
    """Mean, standard error and 95th percentile; nothing of nothing."""
    if not values:
        return Spread(0.0, 0.0, 0.0)
    error = stdev(values) / sqrt(len(values)) if len(values) > 1 else 0.0
    return Spread(sum(values) / len(values), error, percentile(values, 0.95))


def percentile(values: Iterable[T], share: float) -> T:
    """The smallest value that at least this share of the values does not exceed."""
    ordered = sorted(values)  # type: ignore[type-var]
    return ordered[max(ceil(share * len(ordered)) - 1, 0)]


def stands(series: Series, seed: int, number: int, audit: int) -> Visit:
    """How that audit finds its head: anyhow, or well inside."""
    visit = population.visit(seed, number, audit)
    if not series.inside:
        return visit
    rng, most_mm = Random(f"inside {visit.seed}"), WELL_INSIDE * series.files.limit_mm
    return replace(visit, start_mm=(rng.uniform(-most_mm, most_mm), rng.uniform(-most_mm, most_mm)))


def mill_of(series: Series, seed: int, number: int, audit: int) -> Mill:
    """The exact head with this number, as that audit finds it."""
    head, visit = population.head(seed, number), stands(series, seed, number, audit)
    if isinstance(series.conditions, Odd):
        return OddMill(head, series.conditions, visit, f"{seed} {number}")
    return Mill(head, series.conditions, visit)


def _ridden(series: Series, seed: int, number: int, audit: int) -> tuple[Ridden, float]:
    """What an audit is made of, and the radius of its sweep."""
    visit = stands(series, seed, number, audit)
    if series.other:
        radius_mm = visit.radius_mm
        return Screwed(f"{seed} {number}", audit, radius_mm, visit.start_mm), radius_mm
    return mill_of(series, seed, number, audit), visit.radius_mm


def audits(series: Series, count: int, seed: int, number: int) -> list[Outcome]:
    """The first audits of one head, the house remembering what it learned."""
    house: InMemory | None = None
    outcomes = []
    for audit in range(count):
        mill, radius_mm = _ridden(series, seed, number, audit)
        files = setup(series.files, radius_mm)
        house = house or InMemory(files, in_codes)
        house.setup = files
        outcomes.append(ride(mill, house, series.knows))
        if outcomes[-1].lost:
            house = None
    return outcomes


def squared_by_hand(series: Series, way: Way, seed: int, number: int, audit: int) -> ByHand:
    """What the same head takes without the product."""
    mill = mill_of(series, seed, number, audit)
    return Hands(mill, series.files.limit_mm, part_of(way, mill)).square()


def measure(
    cells: Sequence[Cell],
    heads: int,
    processes: int = 1,
    seed: int = SEED,
    kept: Kept | None = None,
) -> Iterator[Measured]:
    """Yield each cell as it is measured; cells of one series share their audits."""
    kept = kept or Kept(None, "")
    for series, group in groupby(cells, key=lambda cell: cell.series):
        wanted = list(group)
        count = 1 + max(cell.before for cell in wanted)
        named = partial(Asked, wanted[0].key, _name(series), "console", seed, audits=count)
        work = partial(_audited, series, count, seed)
        rows = _each(work, [named(number=n) for n in range(heads)], processes, kept)
        for cell in wanted:
            found = [_outcome(row[cell.before]) for row in rows.values()]
            yield Measured(cell, found, list(rows))


def by_hand(
    measured: Measured, way: Way, processes: int, seed: int, kept: Kept | None = None
) -> list[ByHand]:
    """The heads of a cell squared by hand."""
    kept, cell = kept or Kept(None, ""), measured.cell
    named = partial(Asked, cell.key, _name(cell.series), f"{way} {cell.before}", seed, audits=1)
    work = partial(_handled, cell, way, seed)
    rows = _each(work, [named(number=n) for n in measured.numbers], processes, kept)
    return [ByHand(**row[0]) for row in rows.values()]


def _name(series: Series) -> str:
    return hashlib.sha256(repr(series).encode()).hexdigest()[:10]


def _audited(series: Series, count: int, seed: int, number: int) -> Result:
    began = time.process_time()
    found = [asdict(each) for each in audits(series, count, seed, number)]
    return Result(found, round(time.process_time() - began, 3))


def _handled(cell: Cell, way: Way, seed: int, number: int) -> Result:
    began = time.process_time()
    found = asdict(squared_by_hand(cell.series, way, seed, number, cell.before))
    return Result([found], round(time.process_time() - began, 3))


def _outcome(entry: dict[str, Any]) -> Outcome:
    """As it was before it was written down: JSON knows no tuples."""
    return Outcome(**{k: tuple(v) if isinstance(v, list) else v for k, v in entry.items()})


def _each(
    work: Callable[[int], Result], asked: Sequence[Asked], processes: int, kept: Kept
) -> dict[int, list[dict[str, Any]]]:
    """What came of each head, by its number; what is not known yet is measured and kept."""
    missing = [] if kept.only else [each for each in asked if kept.of(each) is None]
    if processes == 1 or len(missing) < 2:
        for each in missing:
            kept.keep(each, work(each.number))
    else:
        with ProcessPoolExecutor(processes) as pool:
            due = {pool.submit(work, each.number): each for each in missing}
            try:
                for done in as_completed(due):
                    kept.keep(due[done], done.result())
            except KeyboardInterrupt:
                pool.shutdown(cancel_futures=True)
                raise
    known = {each.number: kept.of(each) for each in asked}
    return {number: entries for number, entries in known.items() if entries is not None}


def each_head(work: Callable[[int], T], heads: int, processes: int) -> list[T]:
    """What `work` makes of each head's number, in order."""
    if processes == 1:
        return [work(number) for number in range(heads)]
    with ProcessPoolExecutor(processes) as pool:
        return list(pool.map(work, range(heads), chunksize=max(heads // (8 * processes), 1)))
