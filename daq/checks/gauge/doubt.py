"""How far a check with gauge blocks may itself be off, term by term (JCGM 100), and its verdict.

What is judged is the span of the errors: the largest less the smallest. It is the difference of
two readings, each on its own stack; so it is doubted by what a difference of those two is off by.
The scatter of all readings makes the largest larger and the smallest smaller, which only speaks
against the gauge: before one is called bad, that is allowed for too.
"""

import math
from dataclasses import dataclass
from typing import Final

from daq.checks.gauge.blocks import REFERENCE_C, STEEL, BlockSet, GaugeBlock
from daq.checks.gauge.reduce import GaugeErrors
from daq.metrology.budget import Budget, Term, combine
from daq.metrology.extremes import range_quantile
from daq.metrology.rule import Judged, Limits, Rule, judge
from daq.metrology.student import t_quantile
from daq.words import Figure, said

RESTED_S: Final = 3600.0
"""After an hour side by side, gauge and blocks are within `APART_K`; common practice, no source."""
APART_K: Final = 0.5
UNRESTED_K: Final = 2.0
SCALE_DOUBT: Final = 2e-6
"""How far what the gauge grows by a kelvin may be from steel's; common practice, no source."""
SQUARE: Final = math.radians(0.5)
"""How far its stand may hold the gauge from square to the blocks; common practice, no source."""
_REPEATS: Final = "term-repeatability"
_WITHIN: Final = 1.0 / math.sqrt(3.0)
_OF_TWO: Final = math.sqrt(2.0)


@dataclass(frozen=True, slots=True)
class WorkedWith:
    """What was worked with: the set, its stack at each reading, how warm, rested how long."""

    blocks: BlockSet
    stacks: tuple[tuple[GaugeBlock, ...], ...]
    celsius: float
    rested_s: float
    resolution_mm: float


def doubted(found: GaugeErrors, bench: WorkedWith, coverage: float) -> Budget:
    """Return the budget of the span of a check's errors.

    `found` has repeats: without them nobody knows how well one reading stands for itself.

    Raises:
        ValueError: nothing was repeated.
    """
    if found.repeatability_mm is None:
        raise ValueError("found no repeats; allowed: every length read twice or more")
    low, high = (found.errors_mm.index(pick(found.errors_mm)) for pick in (min, max))
    apart_mm = abs(found.points[high].nominal_mm - found.points[low].nominal_mm)
    stacks = [bench.stacks[at] for at in (low, high)]
    u_blocks = math.hypot(*(bench.blocks.u_mm(stack) for stack in stacks))
    off_k = abs(bench.celsius - REFERENCE_C)
    grows = math.hypot(bench.blocks.expansion_doubt, SCALE_DOUBT) * off_k
    rested = bench.rested_s >= RESTED_S
    unlike_k = APART_K if rested else UNRESTED_K
    unlike = Figure(unlike_k, 1)
    tilted = apart_mm * 2.0 * math.sin(SQUARE / 2.0) ** 2
    terms = (
        Term(said("term-blocks"), u_blocks, note=said("note-blocks")),
        Term(
            said("term-repeatability"),
            _OF_TWO * found.repeatability_mm,
            float(found.freedom),
            said("note-of-check"),
        ),
        Term(
            said("term-resolution"),
            bench.resolution_mm / math.sqrt(6.0),
            note=said("note-of-two-digits"),
        ),
        Term(said("term-grown"), apart_mm * grows * _WITHIN, note=said("note-grown")),
        Term(
            said("term-unlike"),
            apart_mm * STEEL * unlike_k * _WITHIN,
            note=said("note-unlike", kelvins=unlike, rested="yes" if rested else "no"),
        ),
        Term(said("term-square"), tilted * _WITHIN, note=said("note-square")),
    )
    return combine(terms, coverage)


def judged(found: GaugeErrors, budget: Budget, rule: Rule) -> Judged:
    """Return whether the span is within the permissible error, by the shop's own rule.

    Guarded, it is out only where the range that the readings' scatter has by itself, in so many
    readings, does not bring it there.
    """
    limits = Limits(None, found.max_error_mm)
    ruled = judge(found.span_mm, budget.u_mm, budget.dof, limits, rule)
    if ruled.word != "out" or rule.name == "simple":
        return ruled
    again = judge(found.span_mm, _of_range(found, budget, rule), None, limits, rule)
    return ruled if again.word == "out" else again


def _of_range(found: GaugeErrors, budget: Budget, rule: Rule) -> float:
    """The standard uncertainty of which a guard keeps away what the range of the scatter may be."""
    of_range = range_quantile(rule.each_axis, len(found.points)) * (found.repeatability_mm or 0.0)
    others = (term.u_mm for term in budget.terms if term.code != _REPEATS)
    return math.hypot(of_range / t_quantile(rule.each_axis, math.inf), *others)
