"""The share of the limit that the simple rule lets U be, and what a verdict carries."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.metrology.rule import Limits, Rule, judge, judge_vector
from daq.words import Both
from tests.words import en

EVEN = Limits(-0.010, 0.010)
HALF = Rule("simple", share=0.5)


@pytest.mark.parametrize(
    ("u_mm", "error_mm", "word"),
    [(0.00255, 0.010, "in"), (0.00255, 0.0101, "out"),
     (0.00256, 0.0, "close"), (0.00256, -0.010, "close"), (0.00256, 0.0150, "close"),
     (0.00256, 0.0151, "out"), (0.0255, 0.0, "close")],
)  # fmt: skip
def test_nothing_is_in_while_the_uncertainty_is_more_than_the_share(u_mm, error_mm, word):
    """U = 1.959964 u: half of 0.010 at u = 0.002551 (tables of the normal distribution)."""
    assert judge(error_mm, u_mm, None, EVEN, HALF).word == word


def test_the_share_is_of_half_the_zone_or_of_a_single_limits_distance():
    """The same u, 1.959964 u = 0.005: of unequal and one-sided zones half the width counts."""
    u_mm = 0.00255
    zones = {Limits(-0.005, 0.015): "in", Limits(0.0, 0.020): "in", Limits(0.0, 0.0198): "close",
             Limits(None, 0.010): "in", Limits(None, 0.0099): "close",
             Limits(-0.0099, None): "close", Limits(0.0, None): "in"}  # fmt: skip
    assert {zone: judge(0.003, u_mm, None, zone, HALF).word for zone in zones} == zones
    assert judge(-1.0, u_mm, None, Limits(None, 0.0099), HALF).word == "close"


def test_the_share_holds_jointly_and_for_a_vector():
    """k 2.236 jointly (each axis at the root of 0.95); a circle's 2.448, √(−2 ln 0.05)."""
    joint, whole = (Rule("simple", together=t, share=0.5) for t in ("jointly", "vector"))
    words = [judge(0.0, u, None, EVEN, joint).word for u in (0.005 / 2.235, 0.005 / 2.237)]
    assert words == ["close", "in"]
    at = Both(0.0, 0.0)
    words = [
        judge_vector(at, Both(u, 0.0001), None, 0.01, whole).word
        for u in (0.005 / 2.447, 0.005 / 2.449)
    ]
    assert words == ["close", "in"]


@given(
    st.floats(-0.05, 0.05),
    st.floats(1e-5, 0.02),
    st.none() | st.integers(1, 100).map(float),
    st.sampled_from(["each", "jointly"]),
    st.floats(0.1, 1.0),
)
def test_a_share_lets_nothing_more_through_and_turns_no_word_round(e, u_mm, dof, together, share):
    off = judge(e, u_mm, dof, EVEN, Rule("simple", together=together, share=1.0))
    on = judge(e, u_mm, dof, EVEN, Rule("simple", together=together, share=share))
    assert on.word in (off.word, "close")
    assert on.good_enough or on.word != "in"


def test_a_verdict_carries_its_rule():
    ruling = judge(0.0, 0.001, None, EVEN, Rule("simple", 0.9, "jointly", 0.6)).ruling
    assert (ruling.name, ruling.coverage, ruling.together, ruling.share) == (
        "simple", 0.9, "jointly", 0.6
    )  # fmt: skip
    assert en(ruling.assumes) == "The axes are taken as independent of each other."
    whole = judge_vector(
        Both(0.0, 0.0), Both(0.001, 0.002), None, 0.01, Rule(together="vector")
    ).ruling
    assert (whole.share, en(whole.assumes)) == (
        None, "The larger uncertainty of the two stands for both axes."
    )  # fmt: skip
