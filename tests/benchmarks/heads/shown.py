"""What is measured when nothing else is asked for: which cells, on how many heads."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from .by_hand import WAYS
from .cells import BY_KEY, ODD, Cell
from .kept import Kept
from .measure import SEED, Measured, by_hand, measure
from .table import BY_HAND, line, line_by_hand, table

_TEN: Final = ("first-10", "one-10", "three-10", "good-10")
_BOTH: Final = ("first-both", "one-both", "three-both")
_FIVE: Final = ("first-5", "one-5", "three-5")
BESIDE: Final = (*_TEN[:3], *_FIVE)
"""These heads are squared by hand, too."""


@dataclass(frozen=True, slots=True)
class Part:
    """Cells on so many heads of one seed."""

    cells: Sequence[Cell]
    heads: int
    seed: int = SEED


_LINES: Final = [BY_KEY[key] for key in (*_TEN, *_BOTH)]
SHOWN: Final = (
    Part(_LINES, 1000),
    Part(_LINES, 300, 2),
    Part(_LINES, 300, 3),
    Part([BY_KEY[key] for key in _FIVE], 300),
    Part([cell for cell in ODD if cell.key not in _BOTH], 100),
)


def shown(parts: Sequence[Part], processes: int, kept: Kept) -> Iterator[str]:
    """Each part's tables as it is measured."""
    for part in parts:
        found = measure(part.cells, part.heads, processes, part.seed, kept)
        rows = [row for row in found if row.outcomes]
        if not rows:
            continue
        yield f"{part.heads} heads a cell, seed {part.seed}\n\n{table(map(line, rows))}"
        for row in rows:
            yield from (f"lost, {row.cell.key}: {each.lost}" for each in row.lost[:3])
        hands = [
            each
            for row in rows
            if row.cell.key in BESIDE and row.cell.series.files.rule == "simple"
            for each in _beside(row, processes, part.seed, kept)
        ]
        if hands:
            yield table(hands, BY_HAND)


def _beside(row: Measured, processes: int, seed: int, kept: Kept) -> Iterator[tuple[str, ...]]:
    """The heads of a cell by hand, a line a way; none while not all of them are known."""
    for way in WAYS:
        hands = by_hand(row, way, processes, seed, kept)
        if len(hands) == len(row.outcomes):
            yield line_by_hand(row, way, hands)
