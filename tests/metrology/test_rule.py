import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from daq.metrology.rule import (
    NOT_GOOD_ENOUGH,
    Judged,
    Limits,
    Rule,
    conformity,
    judge,
    judge_vector,
)
from daq.settings import SettingsError, build, plain
from daq.words import Both
from tests.words import en, troubled

EVEN = Limits(-0.010, 0.010)
SIMPLE = Rule(name="simple", share=1.0)
VECTOR = Rule(together="vector")

errors = st.floats(-0.05, 0.05)
doubts = st.floats(1e-5, 0.02)
dofs = st.none() | st.integers(1, 100).map(float)
rules = st.builds(
    Rule,
    st.sampled_from(["simple", "guarded"]),
    st.floats(0.6, 0.999),
    st.sampled_from(["each", "jointly", "vector"]),
)


@pytest.mark.parametrize(
    ("error_mm", "word"),
    [(0.0, "in"), (0.0083, "in"), (0.0084, "close"), (0.010, "close"), (0.0116, "close"),
     (0.0117, "out"), (-0.0083, "in"), (-0.0084, "close"), (-0.0117, "out")],
)  # fmt: skip
def test_guarded_keeps_1_645_u_to_either_side(error_mm: float, word: str):
    judged = judge(error_mm, 0.001, None, EVEN, Rule())
    assert (judged.word, judged.good_enough) == (word, True)
    assert judged.guard_mm == pytest.approx(0.001645, abs=1e-6)
    assert en(judged.basis) == "95 % to one side"


@pytest.mark.parametrize(("error_mm", "word"), [(0.010, "in"), (0.01001, "out"), (-0.02, "out")])
def test_simple_looks_at_the_number_only(error_mm: float, word: str):
    judged = judge(error_mm, 0.001, 5.0, EVEN, SIMPLE)
    assert (judged.word, judged.k, judged.guard_mm) == (word, 0.0, 0.0)
    assert judged.basis.code == "no-guard"


@pytest.mark.parametrize(
    ("error_mm", "word"),
    [(0.0, "close"), (0.009, "close"), (0.0217, "close"), (-0.0217, "close"), (0.0218, "out")],
)
def test_simple_compares_nothing_while_the_uncertainty_is_larger_than_the_limit(error_mm, word):
    """U = 1.960 · 0.006 = 0.01176 > 0.010: nothing is in, and out only beyond the limit by U."""
    judged = judge(error_mm, 0.006, None, EVEN, SIMPLE)
    assert (judged.word, judged.good_enough) == (word, False)
    assert judged.guard_mm == pytest.approx(1.959964 * 0.006)
    risks = {"close": "Too close to call: it may be off by 118 % of the limit.",
             "out": "Outside the limit by more than it may be off."}  # fmt: skip
    assert en(judged.said).startswith(risks[word])
    assert en(judged.basis) == "95 % between both limits"


@pytest.mark.parametrize(("u_mm", "word"), [(0.0051, "in"), (0.00511, "close"), (0.02, "close")])
def test_simple_calls_in_while_the_uncertainty_is_no_larger_than_the_limit(u_mm, word):
    """0.010 / 1.959964 = 0.005102 (tables of the normal distribution)."""
    assert judge(0.001, u_mm, None, EVEN, SIMPLE).word == word


def test_simple_does_so_jointly_and_for_the_whole_lean_too():
    """Jointly k is 2.236, each axis at √0.95; a circle's least radius is 2.448 u, √(−2 ln 0.05)."""
    joint, whole = (Rule("simple", together=t, share=1.0) for t in ("jointly", "vector"))
    words = [judge(0.0, u, None, EVEN, joint).word for u in (0.010 / 2.235, 0.010 / 2.237)]
    assert words == ["close", "in"]
    words = [
        judge_vector(Both(0.0, 0.0), Both(u, u), None, 0.01, whole).word
        for u in (0.01 / 2.447, 0.01 / 2.449)
    ]
    assert words == ["close", "in"]


@given(errors, doubts, dofs, st.sampled_from(["each", "jointly"]))
def test_simple_never_calls_in_what_no_gauge_like_this_could(error_mm, u_mm, dof, together):
    judged = judge(error_mm, u_mm, dof, EVEN, Rule("simple", together=together, share=1.0))
    assert judged.good_enough or judged.word != "in"


def test_a_poor_gauge_still_finds_what_is_far_out():
    judged = judge(0.05, 0.006, None, EVEN, Rule())
    assert (judged.word, judged.good_enough) == ("out", False)
    assert en(judged.said).startswith("Outside the limit, with the uncertainty allowed for: ")
    assert en(judged.said).endswith(en(NOT_GOOD_ENOUGH))


def test_the_words_of_each_verdict_say_its_risk():
    says = [en(judge(e, 0.001, None, EVEN, Rule()).said) for e in (0.0, 0.0095, 0.02)]
    assert says == [
        "Inside the limit, with the uncertainty allowed for: of what is called in, "
        "at most 5 % is out. Truly inside: 99.9 %.",
        "Too close to call: the limit lies within the uncertainty. Truly inside: 69.1 %.",
        "Outside the limit, with the uncertainty allowed for: of what is called out, "
        "at most 5 % is in. Truly inside: 0.1 %.",
    ]
    assert en(judge(0.010, 0.001, None, EVEN, SIMPLE).said) == (
        "Inside the limit as it reads. At the limit it would be as likely out as in: "
        "a risk of up to 50 %. Truly inside, for this one: 50 %."
    )
    assert en(judge(0.011, 0.001, None, EVEN, SIMPLE).said) == (
        "Outside the limit as it reads. At the limit it would be as likely in as out: "
        "a risk of up to 50 %. Truly inside, for this one: 15.9 %."
    )


def test_where_k_comes_from_is_named():
    few = judge(0.0, 0.001, 8.7, EVEN, Rule())
    assert en(few.basis) == "95 % to one side; Student's t, 8 degrees of freedom"
    one = judge(0.0, 0.0001, 1.0, Limits(None, 1.0), Rule())
    assert en(one.basis) == "95 % to one side; Student's t, 1 degree of freedom"
    narrow = judge(0.0, 0.0055, None, EVEN, Rule(coverage=0.9))
    assert en(narrow.basis) == "90 % between both limits"
    joint = judge(0.0, 0.001, None, EVEN, Rule(together="jointly"))
    assert en(joint.basis) == "97.47 % to one side, so that both reach 95 %"
    assert en(judge_vector(Both(0.0, 0.0), Both(0.001, 0.001), None, 0.01, VECTOR).basis) == (
        "95 % inside the circle"
    )


def test_one_sided_limits_leave_the_other_way_free():
    nod = Limits(0.0, None)
    assert judge(5.0, 0.001, None, nod, Rule()).word == "in"
    assert judge(-0.002, 0.001, None, nod, Rule()).word == "out"
    assert judge(0.0, 100.0, None, nod, Rule()).good_enough


def test_unequal_limits():
    limits = Limits(-0.005, 0.020)
    words = [judge(e, 0.001, None, limits, Rule()).word for e in (-0.007, -0.004, 0.015, 0.022)]
    assert words == ["out", "close", "in", "out"]


@settings(derandomize=True, deadline=None)
@given(errors, doubts, dofs, st.floats(0.001, 0.04), st.floats(0.001, 0.04), rules)
def test_mirrored_errors_and_limits_are_judged_alike(error, u, dof, below, above, rule):
    one = judge(error, u, dof, Limits(-below, above), rule)
    assert judge(-error, u, dof, Limits(-above, below), rule) == one


@settings(derandomize=True, deadline=None)
@given(errors, doubts, dofs, rules, st.sampled_from([0.25, 2.0, 1024.0]))
def test_another_unit_changes_lengths_only(error, u, dof, rule, factor):
    assume(rule.name == "guarded")
    one = judge(error, u, dof, EVEN, rule)
    # A length within a billionth of a millimetre of the edge may fall either way.
    assume(abs(min(EVEN.room(error)) - one.guard_mm) > 1e-6)
    assume(abs(min(EVEN.room(error)) + one.guard_mm) > 1e-6)
    other = judge(error * factor, u * factor, dof, Limits(-0.01 * factor, 0.01 * factor), rule)
    assert (other.word, other.good_enough) == (one.word, one.good_enough)
    assert other.guard_mm == pytest.approx(one.guard_mm * factor, rel=1e-9)
    assert other.probability == pytest.approx(one.probability, rel=1e-9)


@settings(derandomize=True, deadline=None)
@given(errors, errors, doubts, dofs)
def test_farther_from_the_middle_is_less_probable(one, other, u, dof):
    near, far = sorted((one, other), key=abs)
    assert conformity(far, u, dof, EVEN) <= conformity(near, u, dof, EVEN) + 1e-12


@settings(derandomize=True, deadline=None)
@given(errors, doubts, dofs, st.floats(0.001, 0.04), rules)
def test_the_words_keep_their_promise(error, u, dof, limit, rule):
    assume(rule.name == "guarded")
    judged = judge(error, u, dof, Limits(-limit, limit), rule)
    if judged.word == "in":
        assert judged.good_enough
        assert 1.0 - judged.probability <= 1.008 * (1.0 - rule.each_axis) + 1e-5
    if judged.word == "out":
        assert 1.0 - judged.probability >= rule.each_axis - 1e-5


@settings(derandomize=True, deadline=None)
@given(errors, doubts, st.floats(0.001, 0.04), rules)
def test_more_doubt_never_makes_a_verdict(error, u, limit, rule):
    assume(rule.name == "guarded")
    limits = Limits(-limit, limit)
    sharp, blurred = (judge(error, u * times, None, limits, rule).word for times in (1.0, 1.3))
    assert blurred in (sharp, "close")


def test_nothing_uncertain_needs_no_guard():
    words = [judge(e, 0.0, None, EVEN, Rule()).word for e in (0.0, 0.010, -0.010, 0.0101)]
    assert words == ["in", "in", "in", "out"]
    assert [conformity(e, 0.0, None, EVEN) for e in (0.010, 0.0101)] == [1.0, 0.0]


def test_a_limit_reached_by_arithmetic_is_not_lost_to_the_last_bit():
    assert judge(0.1 + 0.2, 0.001, None, Limits(-0.3, 0.3), SIMPLE).word == "in"
    assert judge(0.1 + 0.2, 0.0, None, Limits(-0.3, 0.3), Rule()).word == "in"


@settings(derandomize=True, deadline=None)
@given(st.floats(0.0, 0.02), st.floats(0.0, 2.0 * math.pi), dofs, rules)
def test_a_vector_is_judged_by_its_length(length, angle, dof, rule):
    side, nod = length * math.cos(angle), length * math.sin(angle)
    one = judge_vector(Both(side, nod), Both(0.001, 0.001), dof, 0.010, rule)
    assume(abs(0.010 - length - one.guard_mm) > 1e-6)
    assume(abs(0.010 - length + one.guard_mm) > 1e-6)
    other = judge_vector(Both(length, 0.0), Both(0.001, 0.001), dof, 0.010, rule)
    assert (one.word, one.k) == (other.word, other.k)
    assert one.probability == pytest.approx(other.probability, abs=1e-9)


def test_a_vector_takes_the_larger_uncertainty():
    one = judge_vector(Both(0.002, 0.001), Both(0.002, 0.0003), 9.0, 0.010, VECTOR)
    assert one == judge_vector(Both(0.002, 0.001), Both(0.0003, 0.002), 9.0, 0.010, VECTOR)
    assert one == judge_vector(Both(0.002, 0.001), Both(0.002, 0.002), 9.0, 0.010, VECTOR)


def test_a_vector_out_and_too_close():
    words = [
        judge_vector(Both(0.8 * mm, -0.6 * mm), Both(0.001, 0.001), None, 0.010, VECTOR).word
        for mm in (0.0082, 0.0084, 0.0116, 0.0118)
    ]
    assert words == ["in", "close", "close", "out"]


def test_a_certain_vector():
    judged = [
        judge_vector(Both(0.6 * e, 0.8 * e), Both(0.0, 0.0), None, 0.01, VECTOR)
        for e in (0.01, 0.0101)
    ]
    assert [(j.word, j.probability, j.guard_mm) for j in judged] == [
        ("in", 1.0, 0.0),
        ("out", 0.0, 0.0),
    ]


def test_a_vector_by_the_simple_rule():
    rule = Rule(name="simple", together="vector", share=1.0)
    words = [
        judge_vector(Both(0.6 * e, 0.8 * e), Both(0.002, 0.002), None, 0.01, rule).word
        for e in (0.01, 0.0101)
    ]
    assert words == ["in", "out"]


def test_both_axes_at_once_ask_more_of_each():
    each, joint = (judge(0.0, 0.001, 12.0, EVEN, Rule(together=t)) for t in ("each", "jointly"))
    assert joint.k > each.k
    assert Rule(coverage=0.81, together="jointly").each_axis == pytest.approx(0.9)


def test_the_rule_of_a_file():
    table = {"name": "simple", "coverage": 0.99, "together": "vector"}
    assert build(Rule, table, "mill.toml") == Rule("simple", 0.99, "vector")
    assert build(Rule, {}, "mill.toml") == Rule()
    with troubled(SettingsError, match=r"coverage: found 95.*at least 0.5 and at most 0.9999"):
        build(Rule, {"coverage": 95}, "mill.toml")


def test_a_verdict_survives_its_way_through_a_record():
    judged = judge(0.003, 0.001, 8.0, EVEN, Rule())
    assert build(Judged, plain(judged), "event", quantities="plain") == judged
    assert build(Limits, plain(Limits(None, 0.01)), "event", quantities="plain").low_mm is None


@pytest.mark.parametrize("pair", [(None, None), (0.01, 0.01), (0.02, 0.01), (math.nan, 1.0)])
def test_what_limits_nothing_is_refused(pair):
    with pytest.raises(ValueError, match=r"limits: found .*; allowed: "):
        Limits(*pair)


@pytest.mark.parametrize("infinite", [(math.inf, None), (None, -math.inf), (-math.inf, 1.0)])
def test_no_limit_is_written_as_none(infinite):
    with pytest.raises(ValueError, match=r"limits: found .*; allowed: the lower below the upper"):
        Limits(*infinite)


@pytest.mark.parametrize("u_mm", [-0.001, math.nan, math.inf])
def test_what_is_no_uncertainty_is_refused(u_mm: float):
    for refused in (
        lambda: judge(0.0, u_mm, None, EVEN, Rule()),
        lambda: conformity(0.0, u_mm, None, EVEN),
        lambda: judge_vector(Both(0.0, 0.0), Both(u_mm, 0.001), None, 0.01, VECTOR),
        lambda: judge_vector(Both(0.0, 0.0), Both(0.001, u_mm), None, 0.01, VECTOR),
    ):
        with pytest.raises(ValueError, match=r"u_mm: found .*; allowed: 0 mm or more"):
            refused()


@pytest.mark.parametrize("limit_mm", [0.0, -0.01, math.nan, math.inf])
def test_a_vector_needs_a_limit(limit_mm: float):
    with pytest.raises(ValueError, match=r"limit_mm: found .*; allowed: a length above 0 mm"):
        judge_vector(Both(0.0, 0.0), Both(0.001, 0.001), None, limit_mm, VECTOR)
