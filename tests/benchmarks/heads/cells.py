"""What is measured: the cells of the table, each with the figures it is to reach."""

from dataclasses import dataclass
from typing import Final

from .mill import Conditions
from .odd import Odd
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

    `inside`: each audit finds its head well inside. `other`: the heads are somebody else's.
    `so`: what the product is to name when it does not fit; `knows`: how whoever stands there
    answers when asked about it.
    """

    conditions: Conditions
    files: Files
    inside: bool = False
    other: bool = False
    so: str = ""
    knows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cell:
    """One line: the audit after `before` others of the same head.

    `mean` and `most` are the moves to reach, on average and in 99 % of all audits; `minutes` the
    mean of all told, `truly` the share truly inside, `undecided` the share of audits that are to
    end as "cannot-be-decided", `knocked` the share that may be told of a knock, `named` the
    share that is to be told what is so. `quicker`: the share that takes
    less time than the same head by hand, dividing by what the last turn did. `ends`: all end,
    none gets worse twice.
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
    knocked: float | None = None
    named: float | None = None
    quicker: float | None = None
    ends: bool = False


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
BOTH: Final = Series(PLAIN, Files(0.010, loosen="both"))
CREEP: Final = (0.003, 0.008)
CREEPS: Final = Series(Odd(creep_mm=CREEP), Files(0.010))
CREEPS_5: Final = Series(Odd(creep_mm=CREEP), Files(0.005))
SLOWLY: Final = Series(Odd(creep_mm=CREEP, creep_s=60.0), Files(0.010))
RACK: Final = Series(
    Odd(backlash_mm=0.05), Files(0.010, kind="rack", backlash_mm=0.05), so="fell-back"
)
RAM: Final = Series(Odd(ram_deg=30.0), Files(0.010), so="swung", knows=("use",))
IN_FRONT: Final = Series(Odd(in_front=True), Files(0.010), so="other-side")
SHIMS: Final = Series(Odd(shim_mm=0.05), Files(0.025, over_mm=300.0, shims=True))
PUSHED: Final = Series(Odd(stop_error_mm=0.015), Files(0.010, kind="hand"))
KNOCKED: Final = Series(Odd(bump_chance=1.0, knocked=True), Files(0.010), so="knocked")
OTHERS: Final = Series(PLAIN, Files(0.010), other=True)


def _ten(
    key: str, say: str, before: int, mean: float, most: int, minutes: float, truly: float
) -> Cell:
    """To 0.010 mm, undisturbed: one audit in a hundred may be told of a knock."""
    quicker = 0.95 if before else 0.7
    told = {"minutes": minutes, "truly": truly, "knocked": 0.01, "quicker": quicker}
    return Cell(key, f"0.010 mm, {say}", TEN, before, mean, most, **told)


CELLS: Final = (
    _ten("first-10", "first audit", 0, 3.3, 4, 11.3, 0.95),
    _ten("one-10", "after one", 1, 2.2, 4, 8.9, 0.96),
    _ten("three-10", "after three", 3, 2.05, 2, 8.6, 0.98),
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
ODD: Final = (
    Cell("first-both", "both axes cracked, first audit", BOTH, 0, minutes=10.5, truly=0.95),
    Cell("one-both", "both axes cracked, after one", BOTH, 1, minutes=8.1, truly=0.95),
    Cell("three-both", "both axes cracked, after three", BOTH, 3, minutes=7.8, truly=0.95),
    Cell("first-creep", "creep 3 to 8 µm, first audit", CREEPS, 0, 3.2),
    Cell("one-creep", "creep 3 to 8 µm, after one", CREEPS, 1, 2.4),
    Cell("three-creep", "creep 3 to 8 µm, after three", CREEPS, 3, 2.1),
    Cell("first-creep-5", "creep, 0.005 mm, first audit", CREEPS_5, 0, 4.6),
    Cell("one-creep-5", "creep, 0.005 mm, after one", CREEPS_5, 1, 3.3),
    Cell("three-creep-5", "creep, 0.005 mm, after three", CREEPS_5, 3, 2.4),
    Cell("first-slow", "slow creep (60 s), first audit", SLOWLY, 0, truly=0.95),
    Cell("one-slow", "slow creep (60 s), after one", SLOWLY, 1, truly=0.95),
    Cell("first-rack", "rack, 0.05 backlash, first audit", RACK, 0, knocked=0.0),
    Cell("one-rack", "rack, 0.05 backlash, after one", RACK, 1, knocked=0.0),
    Cell("first-ram", "ram 30° not said, first audit", RAM, 0, 4.5, named=0.9),
    Cell("one-ram", "ram 30° not said, after one", RAM, 1, 2.6),
    Cell("first-front", "pivot in front, first audit", IN_FRONT, 0, ends=True),
    Cell("one-front", "pivot in front, after one", IN_FRONT, 1, ends=True),
    Cell("first-shims", "shims in 0.05 steps, first audit", SHIMS, 0, ends=True),
    Cell("one-shims", "shims in 0.05 steps, after one", SHIMS, 1, ends=True),
    Cell("first-pushed", "hand-pushed ± 15 µm, first audit", PUSHED, 0, 5.0),
    Cell("one-pushed", "hand-pushed ± 15 µm, after one", PUSHED, 1, 3.3),
    Cell("first-knock", "a knock of 20 µm, first audit", KNOCKED, 0, truly=0.98),
    Cell("one-knock", "a knock of 20 µm, after one", KNOCKED, 1, truly=0.98),
    Cell("first-other", "somebody else's heads, first audit", OTHERS, 0),
    Cell("one-other", "somebody else's heads, after one", OTHERS, 1),
    Cell("three-other", "somebody else's heads, after three", OTHERS, 3),
)
BY_KEY: Final = {cell.key: cell for cell in CELLS + ODD}
