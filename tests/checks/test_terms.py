import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.rounding import rounding
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.reduce import Spot, covariance
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import Term, combine
from daq.words import AXES, Both
from tests.words import en

FOUR = (270.0, 0.0, 90.0, 180.0)
BACK_AGAIN = (*FOUR, 270.0)
TIMES = (0.0, 7.0, 13.0, 22.0, 28.0)
EVEN = (0.0, 1.0, 2.0, 3.0, 4.0)
FACTS = SweepFacts(
    radius_mm=100.0,
    azimuths_deg=FOUR,
    orders=(),
    d_mm=Both(0.040, -0.020),
    sd_mm=0.0007,
    sd_dof=8.0,
    resolution_mm=0.001,
    max_error_mm=0.005,
    return_error_mm=0.002,
)
DRIFTING = replace(FACTS, azimuths_deg=BACK_AGAIN, orders=TIMES)
SURE = Doubts(
    wedge=0.0,
    seating=0.0,
    flatness=0.0,
    drift=0.0,
    spindle_axial=0.0,
    friction=0.0,
    scale=0.0,
    radius=0.0,
    parallel=0.0,
    temperature=0.0,
)


def named(facts=FACTS, doubts=None, axis="side") -> dict[str, Term]:
    found = terms(facts, doubts or Doubts(), axis)
    return {term.code.removeprefix("term-"): term for term in found}


def u(key: str, facts=FACTS, doubts=None, axis="side") -> float:
    return named(facts, doubts, axis)[key].u_mm


def test_every_term_is_named_once_in_words():
    found = terms(FACTS, Doubts(), "side")
    assert [term.code.removeprefix("term-") for term in found] == [
        "repeatability",
        "resolution",
        "friction",
        "scale",
        "local",
        "certificate",
        "radius",
        "parallel",
        "axial",
        "wedge",
        "seating",
        "flatness",
        "temperature",
        "return",
        "zero",
        "sag",
        "force",
    ]
    assert all(en(term.name) and en(term.note) for term in found)


@pytest.mark.parametrize("axis", AXES)
def test_zero_sag_and_force_are_shown_to_cancel(axis):
    cancelling = [term for term in terms(FACTS, Doubts(), axis) if term.cancels]
    assert [term.code for term in cancelling] == ["term-zero", "term-sag", "term-force"]


# Standard deviations of rectangular, triangular and arcsine distributions: JCGM 100, 4.3.
def test_each_bound_is_divided_as_its_distribution_says():
    doubts = Doubts()
    assert u("repeatability") == pytest.approx(math.sqrt(2.0) * 0.0007)
    assert u("resolution") == pytest.approx(0.001 / math.sqrt(6.0))
    assert u("friction") == pytest.approx(math.sqrt(2.0) * doubts.friction / math.sqrt(3.0))
    assert u("scale") == pytest.approx(0.002 * 0.040 / math.sqrt(3.0))
    assert u("local") == pytest.approx(0.0009 / math.sqrt(3.0))
    assert u("radius") == pytest.approx(0.040 / 100.0 / math.sqrt(3.0))
    one_degree = 1.0 - math.cos(math.radians(1.0))
    assert u("parallel") == pytest.approx(0.040 * one_degree / math.sqrt(3.0), rel=1e-9)
    assert u("axial") == pytest.approx(2.0 * 0.001 / math.sqrt(3.0))
    measured = Doubts(spindle_axial_known=True)
    assert u("axial", doubts=measured) == pytest.approx(2.0 * 0.001 / math.sqrt(2.0))
    assert u("wedge") == pytest.approx(0.003 / math.sqrt(3.0))
    assert u("wedge", doubts=Doubts(wedge_known=True)) == pytest.approx(0.003 / math.sqrt(2.0))
    assert u("seating") == pytest.approx(0.0005 / math.sqrt(3.0))
    assert u("return") == pytest.approx(0.002 / (2.0 * math.sqrt(3.0)))


def test_nod_takes_its_own_difference():
    for key in ("scale", "radius", "parallel"):
        assert u(key, axis="nod") == pytest.approx(u(key) / 2.0)


def test_only_repeatability_has_few_degrees_of_freedom():
    assert {t.code: t.dof for t in terms(FACTS, Doubts(), "nod") if t.dof is not None} == {
        "term-repeatability": 8.0
    }
    assert named(replace(FACTS, sd_dof=None))["repeatability"].dof is None


@pytest.mark.parametrize(
    ("azimuths", "orders"),
    [
        (FOUR, ()),
        (BACK_AGAIN, TIMES),
        (tuple(45.0 * k for k in range(8)), ()),
        ((270.0, 0.0, 180.0, 270.0), EVEN[:4]),
        ((5.0, 100.0, 200.0, 280.0, 5.0), TIMES),
    ],
)
def test_repeatability_is_the_fits_covariance(azimuths, orders):
    facts = replace(FACTS, azimuths_deg=azimuths, orders=orders)
    times = orders or (0.0,) * len(azimuths)
    points = [Spot(az, 0.0, t) for az, t in zip(azimuths, times, strict=True)]
    known = covariance(points, 100.0, bool(orders), 0.0007)
    assert u("repeatability", facts) == pytest.approx(200.0 * math.sqrt(known[1][1]))
    assert u("repeatability", facts, axis="nod") == pytest.approx(200.0 * math.sqrt(known[2][2]))


@pytest.mark.parametrize("axis", AXES)
def test_a_digit_that_stands_still_does_not_average_down(axis):
    # Four readings at one spot and its opposite, as many times as one likes, are two digits.
    twice = replace(FACTS, azimuths_deg=FOUR + FOUR)
    assert u("resolution", twice, axis=axis) == pytest.approx(u("resolution"))
    assert u("repeatability", twice, axis=axis) == pytest.approx(
        u("repeatability") / math.sqrt(2.0)
    )


def test_a_digit_read_twice_is_another_one_when_the_reading_drifts():
    # Right less left with a drift taken out also follows half of each digit at the front.
    four = replace(FACTS, azimuths_deg=BACK_AGAIN, orders=EVEN)
    sides = math.sqrt(1.0 + 1.0 + 0.25 + 0.25)
    assert u("resolution", four) == pytest.approx(sides * 0.001 / math.sqrt(12.0))
    assert u("resolution", four, axis="nod") == pytest.approx(u("resolution"))


def test_rounding_against_counting_it_out():
    """Means of a normal scatter rounded to counts, averaged over where the value lies: numpy."""
    step, places = 0.01, np.linspace(-0.005, 0.005, 201)[:-1]
    for scatter in (0.0015, 0.0025, 0.004):
        fine = np.linspace(-5.0 * scatter, 5.0 * scatter, 20_001)
        density = np.exp(-0.5 * (fine / scatter) ** 2)
        density /= density.sum()
        means, squares = [], []
        for place in places:
            shown = step * np.round((place + fine) / step)
            means.append((density * shown).sum())
            squares.append((density * (shown - means[-1]) ** 2).sum())
        off = np.array(means) - places
        as_shown = math.sqrt(np.mean(squares) + np.mean(off**2) - np.mean(off) ** 2)
        assert rounding(step, as_shown) == pytest.approx(math.sqrt(np.mean(off**2)), rel=0.15)


def test_a_digit_that_stands_still_is_a_twelfth_of_its_square():
    assert rounding(0.01, 0.0) == pytest.approx(0.01 / math.sqrt(12.0))
    assert rounding(0.01, 0.001) == pytest.approx(0.01 / math.sqrt(12.0))
    assert rounding(0.0, 0.001) == 0.0


def test_the_more_it_moves_the_less_it_rounds():
    sizes = [rounding(0.01, scatter) for scatter in (0.0, 0.003, 0.0035, 0.004, 0.006, 0.01)]
    assert all(more >= less for more, less in itertools.pairwise(sizes))
    assert sizes[-1] < 1e-6


def test_turning_the_ring_takes_its_wedge_out():
    turned = named(replace(FACTS, turned="ring"))
    assert turned["wedge"].cancels
    assert not turned["axial"].cancels
    assert turned["repeatability"].u_mm == pytest.approx(u("repeatability") / math.sqrt(2.0))
    assert turned["seating"].u_mm == pytest.approx(u("seating") / math.sqrt(2.0))


def test_turning_the_arm_takes_the_spindles_rise_and_fall_out():
    turned = named(replace(FACTS, turned="arm"))
    assert turned["axial"].cancels
    assert turned["wedge"].u_mm == u("wedge")
    assert turned["seating"].u_mm == u("seating")


def test_a_bare_table_has_no_wedge_and_no_seat():
    assert {"wedge", "seating"} & set(named(replace(FACTS, seat="table"))) == set()


def test_a_block_has_no_wedge_and_sits_anew_at_every_spot():
    block = named(replace(FACTS, seat="block"))
    assert block["wedge"].cancels
    assert block["seating"].u_mm == pytest.approx(math.sqrt(2.0) * 0.0005 / math.sqrt(3.0))


@pytest.mark.parametrize("seat", ["ring", "plate"])
def test_what_is_swept_is_called_by_its_name(seat):
    found = named(replace(FACTS, seat=seat))
    assert en(found["wedge"].name) == f"The {seat}'s wedge"
    assert en(found["seating"].name) == f"How the {seat} sits"


def test_two_gauges_on_a_bar():
    both = named(replace(FACTS, second_radius_mm=100.0))
    assert both["axial"].cancels
    assert en(both["zero"].note) == "out by turning the bar half round"
    # Half of two gauges' scatter across twice the length.
    assert both["repeatability"].u_mm == pytest.approx(u("repeatability") / math.sqrt(2.0))
    assert both["resolution"].u_mm == pytest.approx(u("resolution") / math.sqrt(2.0))
    assert both["local"].u_mm == pytest.approx(u("local") / math.sqrt(2.0))
    assert both["radius"].u_mm == pytest.approx(u("radius") / math.sqrt(2.0))
    assert both["wedge"].u_mm == u("wedge")


@pytest.mark.parametrize(("axis", "pair"), [("side", (0.0, 180.0)), ("nod", (270.0, 90.0))])
def test_a_pair_check_is_a_difference_of_two(axis, pair):
    for azimuths in (pair, pair[::-1]):
        facts = replace(FACTS, azimuths_deg=azimuths, return_error_mm=0.0)
        assert u("repeatability", facts, axis=axis) == pytest.approx(math.sqrt(2.0) * 0.0007)
        assert u("resolution", facts, axis=axis) == pytest.approx(0.001 / math.sqrt(6.0))


@pytest.mark.parametrize(("axis", "pair"), [("nod", (0.0, 180.0)), ("side", (0.0, 90.0))])
def test_a_pair_of_another_axis_is_refused(axis, pair):
    with pytest.raises(ValueError, match=f"two opposite ones on {axis}"):
        terms(replace(FACTS, azimuths_deg=pair), Doubts(), axis)


@pytest.mark.parametrize("axis", AXES)
def test_what_is_left_of_a_drift_taken_out_of_four(axis):
    assert u("return", DRIFTING, axis=axis) == pytest.approx(0.002 / (2.0 * math.sqrt(3.0)))


def test_a_hump_in_the_drift_counts_for_more_where_nothing_balances_it():
    three = replace(FACTS, azimuths_deg=(270.0, 0.0, 180.0, 270.0), orders=EVEN[:4])
    steady = 0.002 / (2.0 * math.sqrt(3.0))
    assert u("return", three, axis="side") == pytest.approx(steady)
    # Nod is the front less the mean of right and left, doubled: both in between count one way.
    assert u("return", three, axis="nod") == pytest.approx(2.0 * steady)


def test_nothing_doubted_leaves_scatter_digit_and_drift():
    left = {t.code for t in terms(replace(FACTS, max_error_mm=0.0), SURE, "side") if t.u_mm > 0.0}
    assert left == {"term-repeatability", "term-resolution", "term-return"}


size = st.floats(0.0, 0.05)


@settings(derandomize=True)
@given(size, size, size, size)
def test_more_doubt_never_makes_a_result_surer(wedge, seating, axial, friction):
    doubts = Doubts(wedge=wedge, seating=seating, spindle_axial=axial, friction=friction)
    whole = combine(terms(DRIFTING, doubts, "nod")).u_mm
    for key in ("wedge", "seating", "spindle_axial", "friction"):
        less = replace(doubts, **{key: getattr(doubts, key) / 2.0})
        assert combine(terms(DRIFTING, less, "nod")).u_mm <= whole


@settings(derandomize=True)
@given(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1))
def test_the_sign_of_a_lean_does_not_matter(side, nod):
    one = replace(FACTS, d_mm=Both(side, nod))
    mirrored = replace(one, d_mm=Both(-side, -nod))
    for axis in AXES:
        assert terms(one, Doubts(), axis) == terms(mirrored, Doubts(), axis)


@settings(derandomize=True)
@given(st.floats(0.1, 50.0))
def test_everything_in_another_unit_is_the_same_uncertainty_in_that_unit(times):
    names = ("radius_mm", "sd_mm", "resolution_mm", "max_error_mm")
    names = (*names, "return_error_mm")
    facts = replace(DRIFTING, **{name: times * getattr(DRIFTING, name) for name in names})
    facts = replace(facts, d_mm=facts.d_mm.map(lambda mm: times * mm))
    names = ("wedge", "seating", "flatness", "drift", "spindle_axial", "friction", "radius")
    names = (*names, "thickness")
    known = Doubts(flatness=0.002)
    doubts = replace(known, **{name: times * getattr(known, name) for name in names})
    for axis in AXES:
        one, other = combine(terms(DRIFTING, known, axis)), combine(terms(facts, doubts, axis))
        assert other.u_mm == pytest.approx(times * one.u_mm, rel=1e-9)
        assert other.k == one.k
