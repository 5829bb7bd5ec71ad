"""What a check is asked for, and how far each may be off for what its readings may be off.

A sum of readings follows their errors as JCGM 100 says. The length of a plane vector and the
range of several levels do not: near nothing they are always read too large. But they never
change by more than the length, or the range, of the errors themselves (the triangle's
inequality), so that the quantile of that (`metrology/extremes.py`) holds them whatever the
true ones are: at least with the probability stated, more often where the vector is long or
the extremes stand clear.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from daq.checks.linear import Known, Matrix, Solved
from daq.metrology.budget import Term
from daq.metrology.extremes import length_quantile, range_quantile
from daq.metrology.student import normal_quantile
from daq.words import Said


@dataclass(frozen=True, slots=True)
class Measurand:
    """One thing that came out of a check.

    `value_mm`, over a length of `over_mm` where it is a slope. `by`: how it follows the
    readings: a "sum" by one row of weights; the "length" of a vector by one a component; the
    "range" of levels by one a level; "turn", the larger of the range of levels and twice the
    length of the vector in the first two rows. `limit_mm`: how large it may be, either way;
    None where it is only shown. `toward_deg`: where the vector points. `terms`: parts of its
    uncertainty that no reading shows, and those that cancel. `shows`: where it is only asked
    whether anything changed, what of a change of one axis shows in it.
    """

    name: Said
    value_mm: float
    form: Literal["sum", "length", "range", "turn"]
    by: Matrix
    limit_mm: float | None = None
    over_mm: float | None = None
    toward_deg: float | None = None
    terms: tuple[Term, ...] = ()
    shows: float | None = None


def vector(
    name: Said,
    known: Known,
    limit_mm: float | None = None,
    terms: tuple[Term, ...] = (),
    over_mm: float | None = None,
) -> Measurand:
    """Return the length of a plane vector, and where it points."""
    (x, y), by = known
    size, toward = math.hypot(x, y), math.degrees(math.atan2(y, x)) % 360.0
    return Measurand(name, size, "length", by, limit_mm, over_mm, toward, terms)


def turn(
    name: Said, axis: Known, levels: Known, limit_mm: float | None, terms: tuple[Term, ...]
) -> Measurand:
    """Return how far a gauge's number goes in a whole turn that was read here and there.

    The range of what was read, and at least that of the first harmonic, twice its length: the
    highest and lowest may lie between the places read.
    """
    size = max(float(np.ptp(levels[0])), 2.0 * math.hypot(*axis[0]))
    return Measurand(name, size, "turn", np.vstack([axis[1], levels[1]]), limit_mm, terms=terms)


@dataclass(frozen=True, slots=True)
class Influence:
    """What each reading may be off by: a standard uncertainty, mm, for each, in their order.

    `alike`: it comes anew with every "visit"; is the same whenever a "station" is come to; or
    may be of one sign all through a "lap".
    """

    name: Said
    note: Said
    u_mm: tuple[float, ...]
    alike: Literal["visit", "station", "lap"] = "visit"
    dof: float | None = None


def spread(quantity: Measurand, doubt: Influence, solved: Solved, coverage: float = 0.95) -> float:
    """Return the standard uncertainty, mm, that a doubt of the readings causes.

    That of a length or a range is such that the interval of `coverage` holds it.
    """
    follows = quantity.by * np.array(doubt.u_mm)
    alone = _spread(quantity, follows, coverage)
    if doubt.alike == "visit":
        return alone
    groups = solved.at if doubt.alike == "station" else solved.laps
    together = _spread(quantity, follows @ _grouped(groups), coverage)
    return together if doubt.alike == "station" else max(alone, together)


def _grouped(groups: Sequence[int]) -> Matrix:
    """Adds up what belongs to one group."""
    return np.array([[float(group == one) for one in sorted(set(groups))] for group in groups])


def _spread(quantity: Measurand, follows: Matrix, coverage: float) -> float:
    """The same for independent errors of one standard deviation each, a column an error."""
    if quantity.form == "sum":
        return math.hypot(*follows[0].tolist())
    k = normal_quantile(0.5 + 0.5 * coverage)
    if quantity.form == "length":
        return length_quantile(coverage) / k * _longest(follows)
    if quantity.form == "range":
        return range_quantile(coverage, len(follows)) / k * _widest(follows)
    # The larger of two: each may miss half as often (Bonferroni).
    each, levels = 0.5 + 0.5 * coverage, follows[2:]
    reach = range_quantile(each, len(levels)) * _widest(levels)
    return max(reach, 2.0 * length_quantile(each) * _longest(follows[:2])) / k


def _longest(follows: Matrix) -> float:
    """The standard deviation of a vector along the direction in which it scatters most."""
    return float(np.linalg.norm(follows, 2))


def _widest(follows: Matrix) -> float:
    """A level's standard deviation, as the two that differ most by chance show it."""
    between = follows[:, None, :] - follows[None, :, :]
    return float(np.sqrt((between**2).sum(axis=2).max() / 2.0))
