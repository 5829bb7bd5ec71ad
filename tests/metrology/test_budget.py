import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.budget import Budget, Term, combine
from daq.metrology.student import t_quantile
from daq.settings import build, plain
from daq.words import Said

lengths = st.floats(1e-6, 1.0)
dofs = st.none() | st.floats(1.0, 200.0)
parts = st.lists(st.tuples(lengths, dofs), min_size=1, max_size=8)


def terms(pairs: list[tuple[float, float | None]]) -> list[Term]:
    return [Term(Said(f"t{i}"), u, dof) for i, (u, dof) in enumerate(pairs)]


def test_three_and_four_make_five():
    budget = combine(terms([(0.003, None), (0.004, None)]))
    assert budget.u_mm == pytest.approx(0.005, rel=1e-15)
    assert budget.dof is None
    # The last line of the tables of Student's t.
    assert round(budget.k, 3) == 1.960
    assert budget.expanded_mm == budget.k * budget.u_mm


def test_one_part_keeps_its_degrees_of_freedom():
    budget = combine(terms([(0.0007, 8.0)]))
    assert budget.dof == pytest.approx(8.0, rel=1e-12)
    # Table of Student's t, 97.5 %, 8 degrees of freedom.
    assert round(budget.k, 3) == 2.306


def test_two_equal_parts_add_their_degrees_of_freedom():
    # Welch-Satterthwaite with u1 = u2: (2u²)² / (u⁴/ν + u⁴/ν) = 2ν.
    assert combine(terms([(1.0, 5.0), (1.0, 5.0)])).dof == pytest.approx(10.0, rel=1e-12)


def test_k_uses_whole_degrees_of_freedom_and_never_fewer_than_one():
    budget = combine(terms([(1.0, 5.9)]))
    assert budget.dof == pytest.approx(5.9)
    assert budget.k == t_quantile(0.975, 5.0)
    assert combine(terms([(1.0, 0.5)])).k == t_quantile(0.975, 1.0)


@settings(derandomize=True, deadline=None)
@given(parts)
def test_effective_degrees_of_freedom_lie_between_the_least_and_the_sum(pairs):
    budget = combine(terms(pairs))
    given_dofs = [dof for _, dof in pairs if dof is not None]
    if budget.dof is None:
        assert not given_dofs
        return
    assert budget.dof >= min(given_dofs) * (1.0 - 1e-9)
    if len(given_dofs) == len(pairs):
        assert budget.dof <= math.fsum(given_dofs) * (1.0 + 1e-9)


@settings(derandomize=True, deadline=None)
@given(parts, st.permutations(range(8)))
def test_the_order_of_the_parts_does_not_matter(pairs, order):
    mixed = [pairs[i] for i in order if i < len(pairs)]
    one, other = combine(terms(pairs)), combine(terms(mixed))
    assert other.u_mm == pytest.approx(one.u_mm, rel=1e-14)
    assert other.dof == (one.dof if one.dof is None else pytest.approx(one.dof, rel=1e-12))


@settings(derandomize=True, deadline=None)
@given(parts, st.floats(0.01, 100.0))
def test_another_unit_changes_lengths_only(pairs, factor):
    one = combine(terms(pairs))
    other = combine(terms([(u * factor, dof) for u, dof in pairs]))
    assert other.u_mm == pytest.approx(factor * one.u_mm, rel=1e-12)
    assert other.dof == (one.dof if one.dof is None else pytest.approx(one.dof, rel=1e-9))


def test_what_cancels_is_listed_and_adds_nothing():
    zero = Term(Said("zero"), 0.0, note=Said("alike"), cancels=True)
    budget = combine([*terms([(0.002, 7.0)]), zero])
    assert budget.terms[-1] is zero
    assert budget.u_mm == 0.002
    assert budget.dof == pytest.approx(7.0, rel=1e-12)


@pytest.mark.parametrize("none", [[], [Term(Said("a"), 0.0, 3.0)]])
def test_nothing_uncertain(none: list[Term]):
    budget = combine(none)
    assert (budget.u_mm, budget.dof, budget.expanded_mm) == (0.0, None, 0.0)


def test_a_higher_coverage_reaches_further():
    # Table of Student's t: 99.5 %, 16 degrees of freedom.
    budget = combine(terms([(1.0, 16.0)]), coverage=0.99)
    assert budget.coverage == 0.99
    assert round(budget.k, 3) == 2.921


def test_a_budget_survives_its_way_through_a_record():
    budget = combine(terms([(0.001, 8.0), (0.002, None)]))
    assert build(Budget, plain(budget), "event", quantities="plain") == budget


@pytest.mark.parametrize("u_mm", [-1.0, math.nan, math.inf])
def test_what_is_no_uncertainty_is_refused(u_mm: float):
    with pytest.raises(ValueError, match=r"wedge: found .* mm; allowed: 0 mm or more"):
        Term(Said("wedge"), u_mm)


@pytest.mark.parametrize("dof", [0.0, -2.0, math.nan, math.inf])
def test_what_are_no_degrees_of_freedom_is_refused(dof: float):
    with pytest.raises(ValueError, match=r"found .* degrees of freedom; allowed: 0.1 or more"):
        Term(Said("repeat"), 0.001, dof)


def test_what_cancels_must_be_zero():
    with pytest.raises(ValueError, match="it cancels, so its uncertainty is 0 mm"):
        Term(Said("sag"), 0.001, cancels=True)


@pytest.mark.parametrize("coverage", [0.0, 1.0, 95.0])
def test_what_is_no_coverage_is_refused(coverage: float):
    with pytest.raises(ValueError, match="allowed: a probability between 0 and 1"):
        combine([], coverage)
