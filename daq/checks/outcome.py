"""From a check's readings to its verdicts: solved, doubted term by term, judged, looked at."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from daq.checks.finding import Finding, return_error_past, return_limit_mm, size
from daq.checks.gauge.measured import BenchMeasured
from daq.checks.kinds import Kind
from daq.checks.linear import Solved, solve
from daq.checks.quantity import Influence, Measurand, spread
from daq.checks.rounding import rounding
from daq.checks.station import Taken
from daq.metrology.budget import Budget, Term, combine
from daq.metrology.change import Noticed, noticed
from daq.metrology.rule import Judged, Limits, Rule, judge
from daq.units import SLACK_MM
from daq.words import Unit, said

_WITHIN = 1.0 / math.sqrt(3.0)
_OF_TWO = 1.0 / math.sqrt(2.0)
_ROUNDING = 1e-9
_SCATTER = 3.0
"""What remains of good readings is hardly ever more than so many standard deviations."""


@dataclass(frozen=True, slots=True)
class Gauging:
    """How a gauge reads on this machine, mm: what every check's uncertainty begins with.

    `sd_mm`: of one reading between visits, with its degrees of freedom (None: known);
    `scatter_mm`: of the samples within a reading, 0 when the last digit stood still; `local_mm`:
    how far a difference over the short span used may be off; `scale`: how much of what it
    shows it may be off; `friction_mm`: how far a sticking plunger may leave a reading off.
    `measured`: by which check of the gauge some of these are, the local one if `local_checked`.
    """

    resolution_mm: float
    sd_mm: float
    sd_dof: float | None
    scatter_mm: float = 0.0
    local_mm: float = 0.0
    scale: float = 0.0
    friction_mm: float = 0.0
    local_checked: bool = False
    measured: BenchMeasured | None = None


@dataclass(frozen=True, slots=True)
class Result:
    """A quantity with its uncertainty and its verdict; `judged` is None where nothing limits it.

    `toward_doubt_deg`: how far it may point elsewhere; 180 where it cannot be told. `noticed`:
    whether it changed, where only that is asked.
    """

    quantity: Measurand
    budget: Budget
    judged: Judged | None
    toward_doubt_deg: float | None
    noticed: Noticed | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """Everything a check's readings show."""

    results: tuple[Result, ...]
    findings: tuple[Finding, ...]


def reduce(
    kind: Kind[Any],
    options: object,
    unit: Unit,
    taken: Sequence[Taken],
    gauging: Gauging,
    rule: Rule,
) -> Outcome:
    """Return what the readings of a check come to.

    Raises:
        ValueError: they are not the readings of its table in its order.
    """
    solved = solve(kind.table(options, unit), taken)
    doubts = (*_of_readings(gauging, solved), *kind.doubts(options, solved))
    results = (
        _result(quantity, doubts, solved, gauging, rule)
        for quantity in kind.quantities(options, solved)
    )
    return Outcome(tuple(results), tuple(_findings(solved, gauging)))


def _of_readings(gauging: Gauging, solved: Solved) -> Iterator[Influence]:
    def every(u_mm: float) -> tuple[float, ...]:
        return (u_mm,) * len(solved.at)

    note = said("note-follows") if gauging.sd_dof else said("note-follows-assumed")
    rubs, local_note, seen = said("note-friction"), said("note-local"), gauging.measured
    if seen is not None:
        if not gauging.sd_dof and seen.sd_mm is not None:
            note = seen.note(said("note-follows-bench"))
        if seen.friction_mm is not None:
            rubs = seen.note(said("note-hysteresis"))
        if gauging.local_checked:
            local_note = seen.note(said("note-local-checked"))
    yield Influence(said("term-repeatability"), note, every(gauging.sd_mm), dof=gauging.sd_dof)
    digit = rounding(gauging.resolution_mm, gauging.scatter_mm)
    yield Influence(said("term-resolution"), said("note-digit"), every(digit), "station")
    friction = every(gauging.friction_mm * _WITHIN)
    yield Influence(said("term-friction"), rubs, friction)
    local = every(gauging.local_mm * _WITHIN * _OF_TWO)
    yield Influence(said("term-local"), local_note, local, "station")
    if solved.returned_mm:
        yield Influence(said("term-return"), said("note-hump"), tuple(_humps(solved)), "lap")


def _humps(solved: Solved) -> Iterator[float]:
    """What a drift that was not steady leaves: anywhere within half the lap's return error.

    Nothing at the lap's first station, which both ends of the drift are seen at.
    """
    errors = dict(zip(dict.fromkeys(solved.laps), solved.returned_mm, strict=True))
    for station, lap in zip(solved.at, solved.laps, strict=True):
        first = solved.at[solved.laps.index(lap)]
        yield 0.0 if station == first else abs(errors[lap]) / 2.0 * _WITHIN


def _result(
    quantity: Measurand, doubts: Sequence[Influence], solved: Solved, gauging: Gauging, rule: Rule
) -> Result:
    terms = [
        Term(d.name, spread(quantity, d, solved, rule.coverage), d.dof, d.note) for d in doubts
    ]
    scale = abs(quantity.value_mm) * gauging.scale * _WITHIN
    terms.append(Term(said("term-scale"), scale, note=said("note-scale")))
    zero = Term(said("term-zero"), 0.0, note=said("note-same-zero"), cancels=True)
    budget = combine((*terms, *quantity.terms, zero), rule.coverage)
    judged = doubt_deg = None
    if quantity.limit_mm is not None:
        # What is never below nothing lies within ± its limit when it lies within 0 to limit:
        # so the zone has the width that says whether the gauge is good enough for it.
        limits = Limits(-quantity.limit_mm, quantity.limit_mm)
        judged = judge(quantity.value_mm, budget.u_mm, budget.dof, limits, rule)
    if quantity.toward_deg is not None:
        # A vector moved by less than its length turns by no more than this (geometry).
        clear = budget.expanded_mm < quantity.value_mm
        doubt_deg = 180.0
        if clear:
            doubt_deg = math.degrees(math.asin(budget.expanded_mm / quantity.value_mm))
    asked = None
    if quantity.shows is not None:
        asked = noticed(quantity.value_mm, budget.u_mm, budget.dof)
    return Result(quantity, budget, judged, doubt_deg, asked)


def _findings(solved: Solved, gauging: Gauging) -> Iterator[Finding]:
    """What the readings say against themselves: a drift, and readings that do not fit."""
    unit, tightest_mm = solved.table.unit, solved.table.tightest_mm or 0.0
    limit_mm = return_limit_mm(gauging.resolution_mm, tightest_mm)
    for error_mm in solved.returned_mm:
        past = return_error_past(error_mm, limit_mm, unit)
        if past is not None:
            yield past
    if solved.table.leaves == "form" or not solved.spare:
        return
    # Each rest by what one standard deviation of a reading makes of it.
    sizes = [math.hypot(*row) for row in solved.rests_by.tolist()]
    worst_mm = max(
        (
            abs(rest) / one
            for rest, one in zip(solved.rests.tolist(), sizes, strict=True)
            if one > _ROUNDING
        ),
        default=0.0,
    )
    limit_mm = max(limit_mm, _SCATTER * gauging.sd_mm)
    if worst_mm > limit_mm + SLACK_MM:
        told = said(
            "do-not-fit", found=size(worst_mm, unit), allowed=size(limit_mm, unit), unit=unit
        )
        yield Finding(told, True, worst_mm, limit_mm)
