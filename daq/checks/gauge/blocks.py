"""A set of gauge blocks as its file and its certificate describe it, and the stacks it makes."""

import datetime
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Annotated, Final

from daq.settings import Length, Range
from daq.units import SLACK_MM

STEEL: Final = 11.5e-6
"""What steel grows by a kelvin, of itself (ISO 3650:1998, from memory: 11.5e-6, within 1e-6)."""
REFERENCE_C: Final = 20.0
"""The temperature at which lengths are stated (ISO 1, from memory), °C."""
MOST: Final = 3
"""So many blocks are wrung at most: each joint adds some of its own."""
_NM: Final = 1e6


@dataclass(frozen=True, slots=True)
class GaugeBlock:
    """One block: its nominal length, how far it is from that at 20 °C, mm, as certified.

    `uncertainty`: the expanded one of that; None: the certificate's for the whole set.
    `identification`: what stands on it, where another of the set has the same length.
    """

    nominal: Annotated[Length, Range(above=0.0, hi=500.0)]
    deviation: Annotated[Length, Range(-0.05, 0.05)] = 0.0
    uncertainty: Annotated[Length, Range(above=0.0, hi=0.05)] | None = None
    identification: str = ""


@dataclass(frozen=True, slots=True)
class SetCertificate:
    """A set's certificate. `uncertainty`: the expanded one of a block, mm, by its factor `k`."""

    number: str
    date: datetime.date
    uncertainty: Annotated[Length, Range(above=0.0, hi=0.05)]
    k: Annotated[float, Range(1.0, 5.0)] = 2.0
    laboratory: str = ""


@dataclass(frozen=True, slots=True)
class BlockSet:
    """A set's file. `expansion`: what its blocks grow by a kelvin, of itself, and its doubt.

    `material`: in words, for the certificate.
    """

    name: str
    serial_number: str
    certificate: SetCertificate
    blocks: tuple[GaugeBlock, ...]
    material: str = "steel"
    expansion: Annotated[float, Range(0.0, 3e-5)] = STEEL
    expansion_doubt: Annotated[float, Range(0.0, 5e-6)] = 1e-6

    def __post_init__(self) -> None:
        """Refuse a set with no block, or two that cannot be told apart.

        Raises:
            ValueError: that is so; says which.
        """
        if not self.blocks:
            raise ValueError("found no blocks; allowed: one table [[blocks]] for each")
        sizes = [_nm(each.nominal) for each in self.blocks]
        marks = [(size, each.identification) for size, each in zip(sizes, self.blocks, strict=True)]
        for size, mark in sorted(marks):
            if sizes.count(size) > 1 and (not mark or marks.count((size, mark)) > 1):
                raise ValueError(
                    f"found two blocks of {size / _NM:g} mm that are not told apart; allowed: "
                    "another identification for each of them"
                )

    def stack(self, length_mm: float) -> tuple[GaugeBlock, ...] | None:
        """Return the fewest blocks that make this nominal length, the longest first; None: none.

        Of no length it is no block: the surface they stand on. Of several blocks of one length
        it is the first in the file.
        """
        wanted = _nm(length_mm)
        by_size = {_nm(each.nominal): each for each in reversed(self.blocks)}
        for sizes in _sums(sorted(by_size, reverse=True), wanted):
            return tuple(by_size[size] for size in sizes)
        return () if wanted == 0 else None

    def nearest(self, length_mm: float, apart_mm: float, most_mm: float) -> float:
        """Return the nominal length nearest to this that one block makes, or two.

        None longer than `most_mm`; two only where that comes nearer by a quarter of `apart_mm`.
        """
        ones = [each.nominal for each in self.blocks]
        twos = [a + b for a, b in combinations(ones, 2)]

        def odd(made: tuple[float, float]) -> float:
            return abs(made[0] - length_mm) / apart_mm + made[1]

        joined = [*((one, 0.0) for one in (0.0, *ones)), *((two, 0.25) for two in twos)]
        return min((each for each in joined if each[0] <= most_mm + SLACK_MM), key=odd)[0]

    def deviation_mm(self, stack: Iterable[GaugeBlock], celsius: float) -> float:
        """Return how far a stack is from its nominal length, mm, for a gauge that grows as steel.

        A gauge and steel blocks grow alike: of other blocks the difference counts.
        """
        warmer = (self.expansion - STEEL) * (celsius - REFERENCE_C)
        return math.fsum(each.deviation + each.nominal * warmer for each in stack)

    def u_mm(self, stack: Sequence[GaugeBlock]) -> float:
        """Return the standard uncertainty of a stack by the certificate, mm."""
        expanded = (each.uncertainty or self.certificate.uncertainty for each in stack)
        return math.hypot(*expanded) / self.certificate.k


def _nm(length_mm: float) -> int:
    return round(length_mm * _NM)


def _sums(sizes: Sequence[int], wanted: int) -> Iterator[tuple[int, ...]]:
    """The sizes, each at most once, that come to what is wanted: the fewest first."""
    there = set(sizes)
    if wanted in there:
        yield (wanted,)
    for many in range(1, MOST):
        for some in combinations(sizes, many):
            left = wanted - sum(some)
            if 0 < left < some[-1] and left in there:
                yield (*some, left)
