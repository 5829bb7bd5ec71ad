"""By which rule an audit calls a head in, out or too close, seen through its decisions."""

import math

import pytest
from scipy import stats

from daq.audit.state import MachineState, Shop
from daq.checks.sweep.doubts import Doubts
from daq.metrology.rule import NOT_GOOD_ENOUGH, Rule
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, leans_mm, mill
from tests.words import en

LIMIT_MM = 0.025 * 200.0 / 300.0
"""The tolerance across this sweep."""

MIDDLE_MM = 1.2
PAST = {"last_good": "2026-01-05", "disposition": "none made since"}


def machine(rule=None, limit=0.025, gauge=None, **axes):
    """Its readings' scatter was measured once, from nine of them."""
    known = Doubts(repeatability_dof=8.0)
    setup = setup_of(limit=limit, height=400.0)
    given = {"verdict": rule or Rule(), "uncertainty": known}
    return changed(setup, machine=given, gauge=gauge, **axes)


def swept(setup, side_mm, nod_mm=0.0):
    """The as-found sweep of a head that reads these differences; the bench and its event."""
    b = Bench(setup).start()
    done = b.sweep(
        front=MIDDLE_MM + nod_mm / 2,
        right=MIDDLE_MM + side_mm / 2,
        back=MIDDLE_MM - nod_mm / 2,
        left=MIDDLE_MM - side_mm / 2,
    )
    return b, done


@pytest.mark.parametrize(
    ("side_mm", "simple", "guarded"),
    [
        (0.0, "in", "in"),
        (0.0165, "in", "close"),
        (-0.0165, "in", "close"),
        (0.0169, "out", "close"),
        (-0.0169, "out", "close"),
        (0.0210, "out", "out"),
        (-0.0210, "out", "out"),
    ],
)
def test_the_simple_rule_looks_at_the_number_and_the_guarded_at_its_doubt(side_mm, simple, guarded):
    assert swept(machine(Rule("simple")), side_mm)[1].results.side.word == simple
    assert swept(machine(), side_mm)[1].results.side.word == guarded


@pytest.mark.parametrize("together", ["each", "jointly", "vector"])
def test_the_simple_rule_signs_nothing_by_a_gauge_that_cannot_tell(together):
    """Radius 60 mm, a last digit of 0.0127 mm, ±0.010 mm; every reading the same."""
    setup = setup_of(radius=60.0, limit=0.010)
    rule = {"verdict": Rule("simple", together=together)}
    setup = changed(setup, machine=rule, gauge={"resolution": 0.0127}, both={"over": 120.0})
    b, done = swept(setup, 0.0)
    assert (done.results.side.word, done.results.nod.word) == ("close", "close")
    assert b.job.step == "clear"
    assert b.console["verdict"] == {"word": "close", "say": en(NOT_GOOD_ENOUGH)}
    b.do("cleared")
    (signed,) = b.do("sign", {"done_by": "T", **PAST})
    assert signed.verdict == "cannot-be-decided"


@pytest.mark.parametrize("coverage", [0.90, 0.95, 0.99])
@pytest.mark.parametrize("together", ["each", "jointly"])
def test_the_guard_is_students_t_of_the_budgets_degrees_of_freedom(coverage, together):
    """One-sided, the zone being over five standard uncertainties wide (scipy's t).

    Jointly each axis needs the root of the coverage (Šidák).
    """
    _, done = swept(machine(Rule(coverage=coverage, together=together)), 0.004, 0.008)
    each = math.sqrt(coverage) if together == "jointly" else coverage
    for result, budget in zip(done.results.values(), done.budgets.values(), strict=True):
        assert 5.0 * result.u_mm < 2.0 * LIMIT_MM
        assert (result.u_mm, result.dof) == (budget.u_mm, budget.dof)
        k = stats.t.ppf(each, math.floor(budget.dof))
        assert result.guard_mm == pytest.approx(k * result.u_mm, rel=1e-6)


@pytest.mark.parametrize("side_mm", [0.0, 0.010, 0.0165, 0.018, -0.018])
def test_the_probability_of_conforming_is_students_t_between_the_limits(side_mm):
    """The probability that the true error lies in the zone (scipy's t)."""
    _, done = swept(machine(), side_mm)
    t = stats.t(
        math.floor(done.results.side.dof),
        loc=done.results.side.error_mm,
        scale=done.results.side.u_mm,
    )
    expected = t.cdf(LIMIT_MM) - t.cdf(-LIMIT_MM)
    assert done.results.side.probability == pytest.approx(expected, abs=1e-6)


def test_the_budget_is_the_root_of_the_sum_of_squares_of_its_terms():
    _, done = swept(machine(), 0.004, 0.3)
    for budget in done.budgets.values():
        total = math.sqrt(sum(term.u_mm**2 for term in budget.terms))
        assert budget.u_mm == pytest.approx(total, rel=1e-12)
        cancelling = {term.code.removeprefix("term-") for term in budget.terms if term.cancels}
        assert cancelling == {"zero", "sag", "force"}
    # The scale's and the radius's share grow with the difference.
    assert done.budgets.nod.u_mm > done.budgets.side.u_mm


def test_jointly_a_head_must_be_further_inside_than_axis_by_axis():
    _, done = swept(machine(), 0.0)
    # Between 1.65 u and 1.95 u from the limit, with room for a count.
    near = LIMIT_MM - 1.8 * done.results.side.u_mm
    b, done = swept(machine(), near, near)
    assert (done.results.side.word, b.job.step) == ("in", "clear")
    b, done = swept(machine(Rule(together="jointly")), near, near)
    assert (done.results.side.word, b.job.step) == ("close", "park")


def test_as_a_vector_two_leans_inside_may_together_be_outside():
    """0.0125 each way is 0.0177 long, over the limit of 0.0167 (Pythagoras)."""
    b, done = swept(machine(Rule("simple")), 0.0125, 0.0125)
    assert (done.results.side.word, done.results.nod.word, done.whole) == ("in", "in", None)
    assert b.job.step == "clear"
    b, done = swept(machine(Rule("simple", together="vector")), 0.0125, 0.0125)
    assert done.whole.word == "out"
    assert b.job.step == "park"


def test_as_a_vector_the_guard_is_that_of_a_circle():
    """Between 1.70 u and 1.77 u where the limit is 5 to 10 u (non-central χ², computed);
    a little more with Student's t. By axis it is 1.66 u."""
    rule = Rule(together="vector")
    _, done = swept(machine(rule), 0.0)
    u = max(done.results.side.u_mm, done.results.nod.u_mm)
    assert 5.0 < LIMIT_MM / u < 10.0
    assert swept(machine(rule), LIMIT_MM - 1.69 * u)[1].whole.word == "close"
    assert swept(machine(rule), LIMIT_MM - 1.85 * u)[1].whole.word == "in"
    assert swept(machine(), LIMIT_MM - 1.69 * u)[1].results.side.word == "in"


def test_a_head_out_as_a_vector_is_squared_until_its_vector_is_in():
    setup = machine(Rule(together="vector"))
    m = Machinist(Bench(setup), RigidHead(mill(), 0.0165, 0.0165)).start()
    signed = m.finish()
    assert signed.moves > 0
    assert signed.verdict == "conforms"
    assert math.hypot(*leans_mm(m.head).values()) < LIMIT_MM


def test_unequal_limits_judge_each_side_by_its_own():
    setup = machine(side={"limit_low": 0.010})
    assert swept(setup, 0.012)[1].results.side.word == "in"
    b, done = swept(setup, -0.012)
    assert done.results.side.word == "out"
    assert (done.results.side.low_mm, done.results.side.high_mm) == pytest.approx(
        (-0.010 / 1.5, 0.025 / 1.5)
    )
    assert b.console["axes"][0]["limit"] == "right end low 0.017, left end low 0.007"


def test_unequal_limits_are_aimed_at_their_middle():
    """The middle of -0.0067 and +0.0167 is +0.005."""
    setup = machine(side={"limit_low": 0.010})
    m = Machinist(Bench(setup), RigidHead(mill(), -0.2, 0.0)).start()
    assert m.finish().verdict == "conforms"
    assert m.head.true_mm("side") == pytest.approx(0.005, abs=0.0015)


ONE_SIDED = [
    ("side", "right", 1.0),
    ("side", "left", -1.0),
    ("nod", "front", 1.0),
    ("nod", "back", -1.0),
]


@pytest.mark.parametrize(("axis", "low", "way"), ONE_SIDED)
def test_a_one_sided_limit_lets_only_that_side_be_low(axis, low, way):
    setup = machine(**{axis: {"one_sided": low}})

    def word(mm):
        _, done = swept(setup, *((mm, 0.0) if axis == "side" else (0.0, mm)))
        return done.results[axis].word

    assert word(way * 0.008) == "in"
    assert word(way * -0.005) == "out"
    assert word(way * 0.022) == "out"
    assert word(0.0) == "close"


@pytest.mark.parametrize(("axis", "low", "way"), ONE_SIDED)
def test_a_one_sided_limit_is_aimed_at_its_middle(axis, low, way):
    setup = machine(**{axis: {"one_sided": low}})
    start = (0.15, 0.0) if axis == "side" else (0.0, 0.15)
    m = Machinist(Bench(setup), RigidHead(mill(), *start)).start()
    assert m.finish().verdict == "conforms"
    assert m.head.true_mm(axis) == pytest.approx(way * LIMIT_MM / 2.0, abs=0.002)


def test_a_one_sided_limit_does_not_make_its_axis_the_worst():
    """Side 0.007 on the side that may not be low at all, nod six times its limit."""
    setup = machine(side={"one_sided": "left"})
    b, done = swept(setup, 0.007, 0.100)
    assert (done.results.side.word, done.results.nod.word) == ("out", "out")
    assert b.job.axis == "nod"


def test_a_wanted_lean_is_what_is_aimed_for_and_judged_by():
    """The front 0.010 low over 200 for heel clearance."""
    setup = machine(nod={"wanted_lean": 0.010 / 200.0})
    b, done = swept(setup, 0.0, 0.010)
    assert done.results.nod.error_mm == pytest.approx(0.0, abs=1e-9)
    assert (done.results.nod.word, b.job.step) == ("in", "clear")
    assert swept(setup, 0.0, -0.012)[1].results.nod.word == "out"
    m = Machinist(Bench(setup), RigidHead(mill(), 0.0, 0.2)).start()
    assert m.finish().verdict == "conforms"
    assert m.head.true_mm("nod") == pytest.approx(0.010, abs=0.0015)


COARSE = {"resolution": 0.0127}
"""Counts of 0.0005 in."""


def test_a_gauge_that_is_not_good_enough_decides_nothing():
    """0.010 mm across the sweep with counts of 0.0005 in: narrower than 3.92 u."""
    b, done = swept(machine(limit=0.015, gauge=COARSE), 0.0)
    assert 2.0 * done.results.side.high_mm < 3.92 * done.results.side.u_mm
    assert not done.results.side.good_enough
    assert (done.results.side.word, done.results.nod.word) == ("close", "close")
    # Nothing that is turned would better it.
    assert b.job.step == "clear"
    assert b.console["verdict"] == {"word": "close", "say": en(NOT_GOOD_ENOUGH)}
    b.do("cleared")
    b.do("sign", {"done_by": "T", **PAST})
    assert b.shop.machine("mill").last.signed.verdict == "cannot-be-decided"


def test_a_gauge_that_is_not_good_enough_still_shows_a_head_far_out():
    b, done = swept(machine(limit=0.015, gauge=COARSE), 0.3)
    assert (done.results.side.word, b.job.axis) == ("out", "side")


def test_what_cannot_be_set_closer_is_left():
    """Between in and out, and a move is likelier to end there again than inside."""
    b, done = swept(machine(limit=0.0075), 0.003)
    assert (done.results.side.word, b.job.step) == ("close", "clear")
    assert b.console["detail"] == "Leave it: as good as this gauge can tell."


def test_too_close_to_call_is_moved_where_a_move_would_likely_end_inside():
    b, done = swept(machine(limit=0.010), 0.006)
    assert (done.results.side.word, b.job.axis, b.job.step) == ("close", "side", "park")


def test_the_numbers_behind_the_verdict_are_shown():
    b, done = swept(machine(), 0.004, 0.002)
    numbers = b.console["numbers"]
    side = numbers["axes"][0]
    assert numbers["rule"] == "Guarded: 95 % sure, each axis by itself."
    assert side["error"] == "+0.0040 mm" and side["word"] == "in"
    assert float(side["u"].split()[0]) == pytest.approx(done.results.side.u_mm, abs=5e-5)
    assert side["guard_say"].startswith("95 % to one side; Student's t")
    assert {term["key"]: term["value"] for term in side["terms"]}["term-zero"] == "cancels"


def test_the_numbers_of_a_vector_are_those_it_was_judged_by():
    """Its guard is that of a circle, wider than the one an axis would have by itself."""
    b, done = swept(machine(Rule(together="vector")), 0.004, 0.002)
    side = b.console["numbers"]["axes"][0]
    assert "to one side" not in side["guard_say"]
    assert float(side["guard"].split()[0]) > 1.69 * done.results.side.u_mm


def test_what_nobody_measured_of_the_scatter_is_assumed_until_visits_outweigh_it():
    """JCGM 100, G.4.2: a bound of judgement has no degrees of freedom to count."""
    guessed = changed(machine(), machine={"uncertainty": Doubts()})
    for visits, dof, says in (
        ((), None, "assumed until more visits tell"),
        ((0.001,) * 7, None, "assumed until more visits tell"),
        ((0.001,) * 8, 8.0, "pooled over visits"),
    ):
        b = Bench(guessed)
        b.shop = Shop({"mill": MachineState("mill", visits={"arm": visits})})
        done = b.start().sweep(front=1.0, right=1.002, back=1.0, left=0.998)
        term = next(t for t in done.budgets.side.terms if t.code == "term-repeatability")
        shown = b.console["numbers"]["axes"][0]["terms"]
        note = next(t["note"] for t in shown if t["key"] == "term-repeatability")
        assert (term.dof, note.split(";")[0]) == (dof, says)
