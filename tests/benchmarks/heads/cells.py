"""What is measured: the cells of the table, each with the figures it is to reach."""

from dataclasses import dataclass
from typing import Final

from .mill import Conditions
from .shop import MM_AN_INCH, Files

PLAIN: Final = Conditions()
SHIFTING: Final = Conditions(shift_mm=0.005)
SLIDING: Final = Conditions(slides=True)
ROUGH: Final = Conditions(relax_mm=0.005, bump_chance=0.1)
TENTH: Final = 0.0001 * MM_AN_INCH
COARSE: Final = 0.0005 * MM_AN_INCH


@dataclass(frozen=True, slots=True)
class Series:
    """Heads audited again and again under the same conditions, with the same files.

    `inside`: each audit finds its head well inside.
    """

    conditions: Conditions
    files: Files
    inside: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """One line: the audit after `before` others of the same head.

    `mean` and `most` are the moves to reach, on average and in 99 % of all audits; `minutes` the
    mean of all told, `truly` the share truly inside, `undecided` the share of audits that are to
    end as "cannot-be-decided".
    """

    key: str
    say: str
    series: Series
    before: int
    mean: float | None = None
    most: int | None = None
    undecided: float | None = None
    minutes: float | None = None
    truly: float | None = None


TEN: Final = Series(PLAIN, Files(0.010))
FIVE: Final = Series(PLAIN, Files(0.005))
SHIFTED: Final = Series(SHIFTING, Files(0.010))
INCH: Final = Series(Conditions(resolution_mm=TENTH), Files(0.010, resolution_mm=TENTH, unit="in"))
COARSELY: Final = Series(
    Conditions(resolution_mm=COARSE), Files(0.010, "guarded", resolution_mm=COARSE, unit="in")
)
SLID: Final = Series(SLIDING, Files(0.010))
ROUGHLY: Final = Series(ROUGH, Files(0.010))
GOOD: Final = Series(PLAIN, Files(0.010), inside=True)

CELLS: Final = (
    Cell("first-10", "0.010 mm, first audit", TEN, 0, 3.3, 4, minutes=11.3, truly=0.95),
    Cell("one-10", "0.010 mm, after one", TEN, 1, 2.2, 4, minutes=8.9, truly=0.96),
    Cell("three-10", "0.010 mm, after three", TEN, 3, 2.05, 2, minutes=8.6, truly=0.98),
    Cell("good-10", "0.010 mm, found in", GOOD, 0, 0.0, minutes=3.5),
    Cell("first-5", "0.005 mm, first audit", FIVE, 0, 3.7),
    Cell("one-5", "0.005 mm, after one", FIVE, 1, 2.5),
    Cell("three-5", "0.005 mm, after three", FIVE, 3, 2.2),
    Cell("first-shift", "5 µm shifts, first audit", SHIFTED, 0),
    Cell("one-shift", "5 µm shifts, after one", SHIFTED, 1, 2.3),
    Cell("three-shift", "5 µm shifts, after three", SHIFTED, 3, 2.05),
    Cell("first-inch", "0.0001 in gauge, first audit", INCH, 0, 3.3),
    Cell("one-inch", "0.0001 in gauge, after one", INCH, 1, 2.2),
    Cell("coarse", "0.0005 in gauge, first audit", COARSELY, 0, undecided=1.0),
    Cell("one-slide", "contact slides, after one", SLID, 1),
    Cell("three-slide", "contact slides, after three", SLID, 3),
    Cell("first-rough", "bumps, relaxing, first audit", ROUGHLY, 0),
    Cell("one-rough", "bumps, relaxing, after one", ROUGHLY, 1),
    Cell("three-rough", "bumps, relaxing, after three", ROUGHLY, 3),
)
BY_KEY: Final = {cell.key: cell for cell in CELLS}
