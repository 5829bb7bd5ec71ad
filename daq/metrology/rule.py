"""Does a measured error conform to its limits, given its uncertainty? In, out or too close."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Annotated, Literal

from daq.metrology.guard import (
    circle_k,
    in_circle,
    in_zone,
    least_radius,
    least_width,
    zone_k,
)
from daq.metrology.student import whole_dof
from daq.settings import Range
from daq.units import SLACK_MM
from daq.words import Both, Said, said

Answer = Literal["in", "out", "close"]

NOT_GOOD_ENOUGH = said("gauge-not-good-enough")


@dataclass(frozen=True, slots=True)
class Rule:
    """How a verdict is reached: the [verdict] table of a machine's file.

    `simple` compares the number as it is, while the expanded uncertainty (k two-sided for
    `coverage`) is no larger than the limit; when it is, it judges as `guarded` does, by which
    nothing is then in, and out only what lies beyond the limit by more than that. (JCGM 106
    lets simple acceptance stand with an agreed limit to the uncertainty; from memory.)
    `guarded` keeps k standard uncertainties away from each limit, so that what is called in or
    out is so with probability `coverage`.
    `together`: "each" axis by itself; "jointly", so that both conform at once with that
    probability; or the length of the lean as a "vector" against one limit.
    """

    name: Literal["simple", "guarded"] = "guarded"
    coverage: Annotated[float, Range(0.5, 0.9999)] = 0.95
    together: Literal["each", "jointly", "vector"] = "each"

    @property
    def each_axis(self) -> float:
        """Return the probability one axis needs.

        Two independent axes both conform with the product of their probabilities, so
        jointly each needs the square root (Šidák).
        """
        return math.sqrt(self.coverage) if self.together == "jointly" else self.coverage


@dataclass(frozen=True, slots=True)
class Limits:
    """The signed limits of an error, mm; None where there is no limit that way.

    Raises:
        ValueError: no limit at all, or the lower not below the upper.
    """

    low_mm: float | None
    high_mm: float | None

    def __post_init__(self) -> None:
        """Refuse limits that leave no zone, or do not limit."""
        given = [mm for mm in (self.low_mm, self.high_mm) if mm is not None]
        if not given:
            raise ValueError("limits: found none; allowed: a lower limit, an upper one, or both")
        if not all(math.isfinite(mm) for mm in given) or not self.width_mm > 0.0:
            found = f"{self.low_mm} to {self.high_mm} mm"
            raise ValueError(f"limits: found {found}; allowed: the lower below the upper")

    @property
    def width_mm(self) -> float:
        """Return the width of the zone, mm; infinite with one limit."""
        if self.low_mm is None or self.high_mm is None:
            return math.inf
        return self.high_mm - self.low_mm

    def room(self, error_mm: float) -> tuple[float, float]:
        """Return how far an error lies inside the lower and the upper limit, mm."""
        return (
            math.inf if self.low_mm is None else error_mm - self.low_mm,
            math.inf if self.high_mm is None else self.high_mm - error_mm,
        )


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict: the word, the guard `guard_mm` = `k` × u kept to each limit, and why.

    `probability` is that of the true error lying inside its limits. `good_enough` is
    False where the zone is so narrow that no reading could be called in. `basis` names
    where k comes from, `said` tells the verdict.
    """

    word: Answer
    k: float
    guard_mm: float
    probability: float
    good_enough: bool
    basis: Said
    said: Said


@lru_cache(maxsize=1024)
def judge(error_mm: float, u_mm: float, dof: float | None, limits: Limits, rule: Rule) -> Judged:
    """Judge an error of standard uncertainty `u_mm` against its limits.

    In: inside every limit by k·u; out: beyond a limit by k·u; between, too close
    (ISO 14253-1 and JCGM 106, guarded acceptance and guarded rejection; from memory).
    k: see `guard.zone_k`. `dof`: degrees of freedom of `u_mm`, None for infinitely many.

    Raises:
        ValueError: `u_mm` is not a length of 0 mm or more.
    """
    probability = conformity(error_mm, u_mm, dof, limits)
    whole = whole_dof(dof)
    least_mm = least_width(rule.each_axis, whole) * u_mm
    good_enough = limits.width_mm >= least_mm - 2.0 * SLACK_MM
    width = limits.width_mm / u_mm if u_mm else math.inf
    k, alone = zone_k(width, whole, rule.each_axis)
    where: Literal["side", "between"] = "side" if alone else "between"
    room_mm = min(limits.room(error_mm))
    rule = _in_force(rule, good_enough)
    return _judged(room_mm, u_mm, k, probability, good_enough, rule, _basis(rule, where, whole))


def judge_vector(
    error_mm: Both[float],
    u_mm: Both[float],
    dof: float | None,
    limit_mm: float,
    rule: Rule,
) -> Judged:
    """Judge the length of the lean's error against one limit.

    The larger of the two uncertainties stands for both, which errs on the safe side.
    k: see `guard.circle_k`.

    Raises:
        ValueError: an uncertainty is not a length of 0 mm or more, or the limit not above 0.
    """
    if not (math.isfinite(limit_mm) and limit_mm > 0.0):
        raise ValueError(f"limit_mm: found {limit_mm}; allowed: a length above 0 mm")
    for each in u_mm.values():
        _check(each)
    larger_mm, whole = max(u_mm.values()), whole_dof(dof)
    length_mm = math.hypot(*error_mm.values())
    radius = limit_mm / larger_mm if larger_mm else math.inf
    probability = (
        in_circle(length_mm / larger_mm, radius, whole)
        if larger_mm
        else float(length_mm <= limit_mm + SLACK_MM)
    )
    good_enough = limit_mm >= least_radius(rule.coverage, whole) * larger_mm - SLACK_MM
    k = circle_k(radius, whole, rule.coverage)
    rule = _in_force(rule, good_enough)
    basis = _basis(rule, "circle", whole)
    return _judged(limit_mm - length_mm, larger_mm, k, probability, good_enough, rule, basis)


def conformity(error_mm: float, u_mm: float, dof: float | None, limits: Limits) -> float:
    """Return the probability that the true error lies inside its limits.

    Raises:
        ValueError: `u_mm` is not a length of 0 mm or more.
    """
    _check(u_mm)
    below_mm, above_mm = limits.room(error_mm)
    if not u_mm:
        return float(min(below_mm, above_mm) >= -SLACK_MM)
    return in_zone(below_mm / u_mm, above_mm / u_mm, whole_dof(dof))


def _check(u_mm: float) -> None:
    if not (math.isfinite(u_mm) and u_mm >= 0.0):
        raise ValueError(f"u_mm: found {u_mm}; allowed: 0 mm or more")


def _in_force(rule: Rule, good_enough: bool) -> Rule:
    """The rule as it is applied: a number is not compared as it is by a gauge that cannot tell."""
    return rule if good_enough else replace(rule, name="guarded")


def _judged(
    room_mm: float,
    u_mm: float,
    k: float,
    probability: float,
    good_enough: bool,
    rule: Rule,
    basis: Said,
) -> Judged:
    """Return the verdict on an error that lies `room_mm` inside its nearest limit."""
    if rule.name == "simple":
        k = 0.0
    guard_mm = k * u_mm
    word = _word(room_mm, guard_mm)
    say = said("judged", rule=rule.name, word=word)
    if not good_enough:
        say = NOT_GOOD_ENOUGH if word == "close" else said("judged-too-fine", judged=say)
    return Judged(word, k, guard_mm, probability, good_enough, basis, say)


def _word(room_mm: float, guard_mm: float) -> Answer:
    if room_mm >= guard_mm - SLACK_MM:
        return "in"
    return "out" if room_mm <= SLACK_MM - guard_mm else "close"


def _basis(rule: Rule, where: Literal["side", "between", "circle"], dof: float) -> Said:
    """Name where k comes from: how much, to which side, by which distribution."""
    if rule.name == "simple":
        return said("no-guard")
    words = said("guard", share=_percent(rule.coverage), where=where)
    if rule.together == "jointly":
        each, both = _percent(rule.each_axis), _percent(rule.coverage)
        words = said("guard-jointly", share=each, where=where, both=both)
    return words if math.isinf(dof) else said("guard-student", guard=words, dof=round(dof))


def _percent(share: float) -> str:
    return f"{100.0 * share:.4g}"
