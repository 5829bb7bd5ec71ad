"""A sweep's whole budget against two libraries that propagate uncertainty: GTC, `uncertainties`.

The measurement is written out once, as a formula of its inputs, with weights by numpy's least
squares; each library takes it apart by itself. What a bound is worth comes from GTC's own table
of distributions (JCGM 100, 4.3). Of every kind of sweep, with inputs drawn at random: 1e-9.
"""

import math
import random
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import pytest
from GTC import component, dof, multiple_ureal, reporting, type_b, uncertainty, ureal
from scipy import stats
from uncertainties import ufloat

from daq.checks.rounding import rounding
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import combine
from daq.words import Axis
from tests.published.sweeps_drawn import CHECKS, SWEEPS, drawn, kinds

EXACT = 1e-9
DRAWS = 6
Number = Any
"""What both libraries put in a number's place."""


@dataclass
class Gtc:
    """Inputs as GTC makes them, under the part of the uncertainty that each belongs to."""

    made: dict[str, list[Number]] = field(default_factory=lambda: defaultdict(list))

    def one(self, part: str, u: float) -> Number:
        return self.many(part, [u])[0]

    def many(self, part: str, us: Sequence[float], nu: float | None = None) -> list[Number]:
        """Inputs; with degrees of freedom they are one estimate's, and so share them."""
        if nu is None:
            inputs = [ureal(0.0, u) for u in us]
        else:
            inputs = list(multiple_ureal([0.0] * len(us), us, nu))
        self.made[part] += inputs
        return inputs

    def u(self, whole: Number, part: str) -> float:
        return math.hypot(*(component(whole, each) for each in self.made[part]))


@dataclass
class Uncertainties:
    """The same as `uncertainties` makes them; it knows no degrees of freedom."""

    made: dict[str, list[Number]] = field(default_factory=lambda: defaultdict(list))

    def one(self, part: str, u: float) -> Number:
        return self.many(part, [u])[0]

    def many(self, part: str, us: Sequence[float], nu: float | None = None) -> list[Number]:
        inputs = [ufloat(0.0, u) if u else 0.0 for u in us]
        self.made[part] += inputs
        return inputs

    def u(self, whole: Number, part: str) -> float:
        parts = whole.error_components()
        return math.hypot(*(parts.get(each, 0.0) for each in self.made[part]))


def least_squares(facts: SweepFacts, axis: Axis) -> list[float]:
    """How a difference follows the readings: of a circle, a drift and the surface's form."""
    phi = np.radians(facts.azimuths_deg)
    if len(phi) == 2:
        ahead = np.cos(phi) if axis == "side" else -np.sin(phi)
        return [float(sign) for sign in np.round(ahead)]
    columns = [np.ones(len(phi)), np.cos(phi), np.sin(phi)]
    if facts.orders:
        columns.append(np.array(facts.orders) - facts.orders[0])
    spots = sorted(set(facts.azimuths_deg))
    if np.allclose(np.diff(spots), 360.0 / len(spots)):
        for waves in range(2, len(spots) // 2 + 1):
            columns.append(np.cos(waves * (phi - phi[0])))
            if 2 * waves < len(spots):
                columns.append(np.sin(waves * (phi - phi[0])))
    found = np.linalg.lstsq(np.column_stack(columns), np.eye(len(phi)), rcond=None)[0]
    row = 2.0 * found[1] if axis == "side" else -2.0 * found[2]
    return [float(weight) for weight in row]


def difference(made: Gtc | Uncertainties, facts: SweepFacts, doubts: Doubts, axis: Axis) -> Number:
    """The difference across the first gauge's circle, as a formula of everything that it follows.

    A reading is the circle's radius times the slope there, as the gauge shows it.
    """
    slope = facts.d_mm[axis] / (2.0 * facts.radius_mm)
    radii = [facts.radius_mm, *([facts.second_radius_mm] if facts.second_radius_mm else [])]
    weights = least_squares(facts, axis)
    shows = 1.0 + made.one("scale", type_b.uniform(doubts.scale))
    leans = 1.0 + made.one("parallel", type_b.uniform(1.0 - math.cos(doubts.parallel)))
    stylus = 1.0
    by = facts.papers.angle_doubt
    if by is not None:
        at = facts.papers.angle
        stylus = 1.0 + made.one("lever", type_b.uniform(1.0 - math.cos(at + by) / math.cos(at)))
    whole = visits(made, facts, weights, len(radii))
    for radius in radii:
        true = radius + made.one("radius", type_b.uniform(doubts.radius))
        whole = whole + 2.0 * true * slope * shows * leans * stylus
        whole = whole + papers(made, facts, doubts)
        whole = whole + at_spots(made, facts, doubts, weights)
    mean = whole * (facts.radius_mm / sum(radii))
    return mean + of_place(made, facts, doubts) + surface(made, facts, doubts, weights, axis)


def papers(made: Gtc | Uncertainties, facts: SweepFacts, doubts: Doubts) -> Number:
    """What one gauge is off by over a short span: as its check showed it, as its file says."""
    known = facts.papers
    short = doubts.local(facts.max_error_mm, facts.resolution_mm)
    if doubts.local_error is None and known.span_error_mm is not None:
        short = known.span_error_mm
    total = made.one("local", type_b.uniform(short)) + made.one("certificate", known.u_mm or 0.0)
    if known.u_mm is not None and known.gone_mm is not None:
        total = total + made.one("since", type_b.uniform(known.gone_mm))
    return total


def visits(
    made: Gtc | Uncertainties, facts: SweepFacts, weights: Sequence[float], gauges: int
) -> Number:
    """What each visit adds; whatever their number, one standard deviation was found for all."""
    sweeps = 2 if facts.turned else 1
    each = [weight / sweeps for weight in weights] * sweeps * gauges
    return follow(each, made.many("repeatability", [facts.sd_mm] * len(each), facts.sd_dof))


def follow(weights: Sequence[float], inputs: Sequence[Number]) -> Number:
    """What a weighted sum of inputs comes to."""
    return sum(weight * each for weight, each in zip(weights, inputs, strict=True))


def at_spots(
    made: Gtc | Uncertainties, facts: SweepFacts, doubts: Doubts, weights: Sequence[float]
) -> Number:
    """What one gauge's contact, its digit and the block under it add."""
    seen = facts.friction
    stuck = type_b.uniform(doubts.friction) if seen is None else seen.u_mm
    stuck = math.sqrt(stuck**2 - facts.seen * min(stuck, facts.sd_mm) ** 2)
    total = follow(weights, made.many("friction", [stuck] * len(weights)))
    digit = rounding(facts.resolution_mm, facts.scatter_mm)
    spots = defaultdict(float)
    for weight, azimuth in zip(weights, facts.azimuths_deg, strict=True):
        spots[azimuth] += weight
    # One digit at every visit to a spot, or another at each: whichever shows more.
    counts = max([weights, list(spots.values())], key=lambda each: math.hypot(*each))
    total = total + follow(counts, made.many("resolution", [digit] * len(counts)))
    if facts.seat == "block":
        sweeps = 2 if facts.turned else 1
        each = [weight / sweeps for weight in weights] * sweeps
        placed = made.many("seating", [type_b.uniform(doubts.seating)] * len(each))
        total = total + follow(each, placed)
    return total


def of_place(made: Gtc | Uncertainties, facts: SweepFacts, doubts: Doubts) -> Number:
    """What tilts as the lean does: the spindle's rise, the ring's wedge, how it sits."""
    total = 0.0
    if facts.turned != "arm" and facts.second_radius_mm is None:
        known = type_b.uniform_ring if doubts.spindle_axial_known else type_b.uniform
        total = total + 2.0 * made.one("axial", known(doubts.spindle_axial))
    if facts.seat not in ("ring", "plate"):
        return total
    if facts.turned != "ring":
        known = type_b.uniform_ring if doubts.wedge_known else type_b.uniform
        total = total + made.one("wedge", known(doubts.wedge))
    warmer = doubts.temperature if facts.apart_k is None else facts.apart_k + 0.5
    grown = 11.5e-6 * doubts.thickness * warmer
    total = total + made.one("temperature", type_b.uniform(grown))
    puts = 2 if facts.turned == "ring" else 1
    return total + sum(made.many("seating", [type_b.uniform(doubts.seating)] * puts)) / puts


def surface(
    made: Gtc | Uncertainties,
    facts: SweepFacts,
    doubts: Doubts,
    weights: Sequence[float],
    axis: Axis,
) -> Number:
    """What its form and a drift add: a wave's gain is what the readings' sum makes of exp(i k phi).

    A ring turned half round carries its odd waves along. What is left of a drift that was not
    steady: half of it, or what shows where the readings that count one way are all that moved.
    """
    phi, row = np.radians(facts.azimuths_deg), np.array(weights)
    waves = (2, 4, 6) if facts.turned == "ring" else (2, 3, 4, 5, 6)
    gain = max(abs(row @ np.exp(1j * k * phi)) for k in waves)
    bar = facts.second_radius_mm
    gain *= 2.0 * facts.radius_mm / (facts.radius_mm + bar) if bar else 1.0
    bare = 0.001 if facts.seat in ("ring", "plate") else 0.005
    form = bare if doubts.flatness is None else doubts.flatness
    total = made.one("flatness", type_b.uniform(form / 2.0 * gain)) if gain > 1e-9 else 0.0
    moved = row[np.array(facts.azimuths_deg) != facts.azimuths_deg[0]]
    hump = max(1.0, moved[moved > 0.0].sum(), -moved[moved < 0.0].sum())
    most = max(abs(facts.return_error_mm) / 2.0, doubts.drift) * hump
    return total + made.one("return", type_b.uniform(most))


@pytest.mark.parametrize("seed", range(len(kinds())), ids=lambda i: "-".join(map(str, kinds()[i])))
def test_every_term_of_every_kind_of_sweep(seed):
    walk, axis, seat, turned, bar = kinds()[seed]
    azimuths = SWEEPS.get(walk) or CHECKS[axis, walk]
    draw = random.Random(seed)
    for _ in range(DRAWS):
        facts, doubts = drawn(draw, azimuths)
        second = draw.uniform(40.0, 200.0) if bar else None
        facts = replace(facts, seat=seat, turned=turned, second_radius_mm=second)
        budget = combine(terms(facts, doubts, axis))
        theirs, others = Gtc(), Uncertainties()
        whole = difference(theirs, facts, doubts, axis)
        other = difference(others, facts, doubts, axis)
        stays = [term for term in budget.terms if not term.cancels]
        assert set(theirs.made) == {term.code.removeprefix("term-") for term in stays}
        for term in budget.terms:
            part = term.code.removeprefix("term-")
            assert term.u_mm == pytest.approx(theirs.u(whole, part), rel=EXACT, abs=1e-15)
            assert term.u_mm == pytest.approx(others.u(other, part), rel=EXACT, abs=1e-15)
        assert budget.u_mm == pytest.approx(uncertainty(whole), rel=EXACT)
        assert budget.u_mm == pytest.approx(other.std_dev, rel=EXACT)
        assert (budget.dof or math.inf) == pytest.approx(dof(whole), rel=EXACT)
        # Whole degrees of freedom, cut: JCGM 100, G.4.1.
        cut = max(1.0, math.floor(dof(whole) + EXACT)) if budget.dof else math.inf
        # Past a thousand GTC takes them for infinitely many.
        k = reporting.k_factor(cut) if cut < 1_000 else stats.t.ppf(0.975, cut)
        assert budget.k == pytest.approx(k, rel=EXACT)


def test_that_is_every_kind_there_is():
    assert len(kinds()) * DRAWS >= 1_000
