"""Does a measured error conform to its limits, given its uncertainty? In, out or too close."""

import math
from dataclasses import dataclass
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
from daq.words import Both, Said, Word, said

SHARE = 0.8
"""The least that calls in at least 80 % of the heads truly inside 0.010 over 300 mm, with the ring,
the gauge and the radius that a file has by default: U is about three quarters of that limit.
What it lets through is in the table of `tests/benchmarks/risk_rows.py`."""

NOT_GOOD_ENOUGH = said("gauge-not-good-enough")


@dataclass(frozen=True, slots=True)
class Rule:
    """How a verdict is reached: the [verdict] table of a machine's file.

    `simple` compares the number as it is, while the expanded uncertainty U (k two-sided for
    `coverage`) is at most `share` of the limit. Beyond that nothing is in, and out only what
    lies beyond the limit by U. (JCGM 106 lets simple acceptance stand with an agreed limit to
    the uncertainty; from memory.) The limit is half the width of the zone, also where its
    sides differ, or of a single limit its distance from no error; of a vector its radius.
    `guarded` keeps k standard uncertainties away from each limit, so that what is called in or
    out is so with probability `coverage`.
    `together`: "each" axis by itself; "jointly", so that both conform at once with that
    probability; or the length of the lean as a "vector" against one limit.
    """

    name: Literal["simple", "guarded"] = "guarded"
    coverage: Annotated[float, Range(0.5, 0.9999)] = 0.95
    together: Literal["each", "jointly", "vector"] = "each"
    share: Annotated[float, Range(0.1, 1.0)] = SHARE

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

    @property
    def reach_mm(self) -> float:
        """Return what a share of the limit is a share of, mm: half the width, or with a single
        limit its distance from no error; infinite where that limit is no error itself.
        """
        single = self.high_mm if self.low_mm is None else self.low_mm
        return 0.5 * self.width_mm if self.width_mm < math.inf else abs(single or math.inf)

    def room(self, error_mm: float) -> tuple[float, float]:
        """Return how far an error lies inside the lower and the upper limit, mm."""
        return (
            math.inf if self.low_mm is None else error_mm - self.low_mm,
            math.inf if self.high_mm is None else self.high_mm - error_mm,
        )


@dataclass(frozen=True, slots=True)
class Ruling:
    """The rule a verdict was reached by, for whoever repeats it: nothing is left to compute.

    `share`: the most that U may be of the limit, None by a rule that asks for none. `risk`: the
    verdict and the risk it takes, in a sentence; `assumes`: what that rests on beside, if
    anything.
    """

    name: Literal["simple", "guarded"]
    coverage: float
    together: Literal["each", "jointly", "vector"]
    share: float | None
    risk: Said
    assumes: Said | None


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict: the word, the guard `guard_mm` = `k` × u kept to each limit, and why.

    `probability` is that of the true error lying inside its limits. `good_enough` is
    False where the uncertainty is so large that no reading could be called in. `basis` names
    where k comes from, `ruling` tells the verdict.
    """

    word: Word
    k: float
    guard_mm: float
    probability: float
    good_enough: bool
    basis: Said
    ruling: Ruling

    @property
    def said(self) -> Said:
        """The verdict and its risk in a sentence."""
        return self.ruling.risk


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
    width = limits.width_mm / u_mm if u_mm else math.inf
    k, alone = zone_k(width, whole, rule.each_axis)
    where: Literal["side", "between"] = "side" if alone else "between"
    least = 0.5 * least_width(rule.each_axis, whole)
    reach_mm = limits.reach_mm if rule.name == "simple" else 0.5 * limits.width_mm
    doubt = _Doubt(u_mm, least, k, reach_mm, where, whole)
    return _judged(min(limits.room(error_mm)), doubt, probability, rule)


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
    least = least_radius(rule.coverage, whole)
    k = circle_k(radius, whole, rule.coverage)
    doubt = _Doubt(larger_mm, least, k, limit_mm, "circle", whole)
    return _judged(limit_mm - length_mm, doubt, probability, rule)


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


@dataclass(frozen=True, slots=True)
class _Doubt:
    """What is known of an error's doubt beside its limit.

    U is `least_k` × `u_mm`, the guard `guard_k` × `u_mm`, the limit `reach_mm`.
    """

    u_mm: float
    least_k: float
    guard_k: float
    reach_mm: float
    where: Literal["side", "between", "circle"]
    dof: float


def _judged(room_mm: float, doubt: _Doubt, probability: float, rule: Rule) -> Judged:
    """Return the verdict on an error that lies `room_mm` inside its nearest limit."""
    simple, expanded_mm = rule.name == "simple", doubt.least_k * doubt.u_mm
    share = rule.share if simple else 1.0
    good_enough = expanded_mm <= share * doubt.reach_mm + SLACK_MM
    k = doubt.guard_k
    if simple:
        k = 0.0 if good_enough else doubt.least_k
    where = doubt.where
    if simple and where == "side":
        where = "between"
    basis = said("no-guard") if simple and good_enough else _basis(rule, where, doubt.dof)
    guard_mm = k * doubt.u_mm
    word = _word(room_mm, guard_mm)
    if not good_enough and word == "in":  # a single limit, far away
        word = "close"
    of_limit = expanded_mm / doubt.reach_mm
    risk = _risk(rule, word, good_enough, probability, of_limit)
    assumes = None if rule.together == "each" else said("assumes", together=rule.together)
    asked = rule.share if simple else None
    ruling = Ruling(rule.name, rule.coverage, rule.together, asked, risk, assumes)
    return Judged(word, k, guard_mm, probability, good_enough, basis, ruling)


def _risk(rule: Rule, word: Word, good_enough: bool, probability: float, of_limit: float) -> Said:
    """The verdict and the risk it takes: the rule's own, and this one's probability."""
    if rule.name == "simple":
        if word == "close":
            most = _percent(rule.share)
            return said("risk-over-share", found=f"{100.0 * of_limit:.0f}", most=most)
        sure = _sure(probability)
        if good_enough:
            return said("risk-simple", word=word, sure=sure)
        return said("risk-beyond", sure=sure)
    if word == "close" and not good_enough:
        return NOT_GOOD_ENOUGH
    doubt = _percent(1.0 - rule.coverage)
    say = said("risk-guarded", word=word, most=doubt, sure=_sure(probability))
    return say if good_enough else said("judged-too-fine", judged=say)


def _word(room_mm: float, guard_mm: float) -> Word:
    if room_mm >= guard_mm - SLACK_MM:
        return "in"
    return "out" if room_mm <= SLACK_MM - guard_mm else "close"


def _basis(rule: Rule, where: Literal["side", "between", "circle"], dof: float) -> Said:
    """Name where k comes from: how much, to which side, by which distribution."""
    words = said("guard", share=_percent(rule.coverage), where=where)
    if rule.together == "jointly":
        each, both = _percent(rule.each_axis), _percent(rule.coverage)
        words = said("guard-jointly", share=each, where=where, both=both)
    return words if math.isinf(dof) else said("guard-student", guard=words, dof=round(dof))


def _percent(share: float) -> str:
    return f"{100.0 * share:.4g}"


def _sure(probability: float) -> str:
    """A probability in per cent, never rounded to certainty."""
    return f"{min(max(100.0 * probability, 0.1), 99.9):.3g}"
