import math
import statistics

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.settings import SettingsError, build, plain
from daq.squaring.tightening import (
    HEADS,
    BoltStep,
    Habit,
    ShiftStats,
    Tighten,
    is_over,
    next_step,
    over_limit,
    pull,
    scatter_of,
    steps,
    torque,
    whole,
)
from tests.words import en, troubled

CROSS = Tighten(("bolt 1", "bolt 3", "bolt 2", "bolt 4"), passes=3)
slopes = st.floats(-1e-4, 1e-4)


def seen(values):
    shifts = ShiftStats()
    for value in values:
        shifts = shifts.after(value)
    return shifts


def test_the_table_of_a_machines_file():
    table = {"bolts": ["bolt 1", "bolt 3"], "passes": 2, "limit": "0.0002 in"}
    built = build(Tighten, table, "mill.toml", under="nod.tighten")
    assert built == Tighten(("bolt 1", "bolt 3"), 2, pytest.approx(0.00508))
    assert build(Tighten, plain(built), "row", quantities="plain") == built


def test_a_file_without_the_table_has_no_bolts_to_watch():
    assert build(Tighten, {}, "mill.toml") == Tighten()
    assert steps(Tighten()) == ()
    assert next_step(Tighten(), 0) is None


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({"bolts": ["a", "b", "a"]}, "bolts: found 'a' twice"),
        ({"bolts": ["a", " "]}, "bolts: found one without a name"),
        ({"passes": 0}, "passes: found 0; allowed: at least 1"),
        ({"limit": 0.005}, "limit: found 0.005; allowed: a length"),
    ],
)
def test_a_table_that_cannot_be_used_is_refused(table, words):
    with troubled(SettingsError, match=words):
        build(Tighten, table, "mill.toml")


def test_the_pattern_goes_round_once_a_pass():
    """By thirds in a cross pattern: common practice, no source."""
    told = steps(CROSS)
    assert [step.bolt for step in told] == [*CROSS.bolts, *CROSS.bolts, *CROSS.bolts]
    assert [step.pass_no for step in told] == [1] * 4 + [2] * 4 + [3] * 4
    assert {step.of for step in told} == {3}


def test_the_next_step_follows_what_was_done():
    assert next_step(CROSS, 0) == BoltStep("bolt 1", 1, 3)
    assert next_step(CROSS, 5) == BoltStep("bolt 3", 2, 3)
    assert next_step(CROSS, 11) == BoltStep("bolt 4", 3, 3)
    assert next_step(CROSS, 12) is None


@pytest.mark.parametrize(
    ("passes", "said"),
    [
        (1, ["all the way"]),
        (2, ["half way", "all the way"]),
        (3, ["to a third", "to two thirds", "all the way"]),
        (5, [f"to {n}/5" for n in range(1, 5)] + ["all the way"]),
    ],
)
def test_each_pass_says_how_far(passes, said):
    alone = Tighten(("bolt 1",), passes)
    assert [en(pull(step, alone, "mm")) for step in steps(alone)] == said


@pytest.mark.parametrize(
    ("bolts", "order"),
    [
        (("one",), ["one", "one", "one"]),
        (("left", "right"), ["left", "right"] * 3),
        (("a", "b", "c"), ["a", "b", "c"] * 3),
    ],
)
def test_few_bolts_take_turns_a_third_each(bolts, order):
    """Left, right, left, a third each: common practice, no source."""
    told = steps(Tighten(bolts, passes=3))
    assert [step.bolt for step in told] == order
    assert [step.pass_no for step in told] == [n for n in (1, 2, 3) for _ in bolts]


@pytest.mark.parametrize(
    ("bolts", "said"),
    [
        (1, "Slacken it, then pull it up more gently."),
        (2, "Slacken it, pull up the other one, then come back to it."),
        (3, "Slacken it, pull up the other two, then come back to it."),
        (4, "Slacken it, pull up the one across from it, then come back to it."),
        (6, "Slacken it, pull up the one across from it, then come back to it."),
    ],
)
def test_only_what_has_one_across_is_told_of_it(bolts, said):
    tighten = Tighten(tuple(f"bolt {n}" for n in range(bolts)))
    assert en(over_limit("bolt 0", 0.012, tighten, "mm")).endswith(f"allowed is 0.005. {said}")


LBF_FT = 1.3558179483314004
"""Newton metres in one, NIST SP 811, appendix B.8."""


@pytest.mark.parametrize(
    ("nm", "unit", "passes", "said"),
    [
        (60.0, "mm", 3, ["to 20 N·m", "to 40 N·m", "to 60 N·m"]),
        (22.5, "mm", 1, ["to 22.5 N·m"]),
        (22.0, "mm", 3, ["to 7.3 N·m", "to 14.7 N·m", "to 22 N·m"]),
        (45.0 * LBF_FT, "in", 3, ["to 15 lbf·ft", "to 30 lbf·ft", "to 45 lbf·ft"]),
        (0.5, "mm", 2, ["to 0.25 N·m", "to 0.5 N·m"]),
    ],
)
def test_where_the_file_gives_a_torque_each_pass_says_its_share(nm, unit, passes, said):
    tighten = Tighten(("bolt 1",), passes, torque=nm)
    assert [en(pull(step, tighten, unit)) for step in steps(tighten)] == said


@given(st.floats(0.1, 5000.0), st.sampled_from(["mm", "in"]))
@settings(derandomize=True)
def test_a_torque_is_shown_within_one_per_cent(nm, unit):
    shown = float(en(torque(nm, unit)).split()[0])
    assert shown * {"mm": 1.0, "in": LBF_FT}[unit] == pytest.approx(nm, rel=0.0101)


def test_what_bolts_are_pulled_up_to_in_the_end():
    assert whole(Tighten(), "mm") is None
    assert en(whole(Tighten(torque=60.0), "mm")) == "60 N·m"
    assert en(whole(Tighten(torque=60.0, wrench="7"), "mm")) == "60 N·m, wrench no. 7"


@given(
    st.lists(st.text("abcdef", min_size=1), unique=True, max_size=6).map(tuple), st.integers(1, 5)
)
@settings(derandomize=True)
def test_every_bolt_is_pulled_up_once_a_pass(bolts, passes):
    tighten = Tighten(bolts, passes)
    done = []
    while (step := next_step(tighten, len(done))) is not None:
        done.append(step)
    assert len(done) == len(bolts) * passes
    assert {(s.bolt, s.pass_no) for s in done} == {
        (b, n) for b in bolts for n in range(1, passes + 1)
    }


def test_the_bolt_that_moved_the_head_is_named_with_both_numbers():
    said = en(over_limit("nod bolt 3", 0.012, CROSS, "mm"))
    assert said == (
        "Nod bolt 3 moved the head by 0.012; allowed is 0.005. "
        "Slacken it, pull up the one across from it, then come back to it."
    )


def test_in_inches_a_shift_has_four_places():
    assert en(over_limit("A", -0.0127, Tighten(limit=0.00508), "in")).startswith(
        "A moved the head by 0.0005; allowed is 0.0002."
    )


def test_a_step_within_the_limit_is_not_spoken_of():
    assert over_limit("bolt 1", 0.004, Tighten(), "mm") is None
    assert over_limit("bolt 1", 0.005, Tighten(), "mm") is None


@given(st.floats(-1.0, 1.0), st.floats(1e-4, 0.5))
@settings(derandomize=True)
def test_a_limit_holds_either_way(shift, limit):
    tighten = Tighten(limit=limit)
    assert is_over(shift, tighten) == is_over(-shift, tighten)
    assert is_over(shift, tighten) == bool(over_limit("b", shift, tighten, "mm"))
    if is_over(shift, tighten):
        assert abs(shift) > limit


@given(st.lists(slopes, min_size=1, max_size=40))
@settings(derandomize=True)
def test_running_statistics_are_those_of_all_values(values):
    """Against the standard library's `statistics`."""
    shifts = seen(values)
    assert shifts.n == len(values)
    assert shifts.mean == pytest.approx(statistics.fmean(values), abs=1e-18)
    assert shifts.m2 == pytest.approx(len(values) * statistics.pvariance(values), abs=1e-20)


def test_shifts_survive_a_record():
    shifts = seen([2e-5, 3e-5])
    assert build(ShiftStats, plain(shifts), "row", quantities="plain") == shifts


def test_nothing_seen_the_habit_is_supposed():
    assert scatter_of(ShiftStats()) == pytest.approx(HEADS.scatter)
    assert scatter_of(ShiftStats(), Habit(scatter=3e-5)) == pytest.approx(3e-5)
    assert (HEADS.mean_sd * 200.0, HEADS.scatter * 200.0) == pytest.approx((0.005, 0.0015))


@given(slopes)
@settings(derandomize=True)
def test_one_shift_says_nothing_of_how_far_they_lie_apart(value):
    assert scatter_of(seen([value])) == pytest.approx(HEADS.scatter)


@given(st.lists(slopes, min_size=2, max_size=12), st.floats(1e-6, 1e-4))
@settings(derandomize=True)
def test_the_heads_own_scatter_is_pooled_with_the_habits(values, habit):
    """By degrees of freedom (textbook); the habit's count as four, the own against `statistics`."""
    own = len(values) - 1
    pooled = (4.0 * habit**2 + own * statistics.variance(values)) / (4.0 + own)
    assert scatter_of(seen(values), Habit(scatter=habit)) == pytest.approx(math.sqrt(pooled))


@given(st.lists(slopes, min_size=2, max_size=12), slopes)
@settings(derandomize=True)
def test_where_the_shifts_lie_and_which_way_does_not_count(values, aside):
    told = scatter_of(seen(values))
    assert scatter_of(seen([-value for value in values])) == pytest.approx(told)
    assert scatter_of(seen([value + aside for value in values])) == pytest.approx(told, rel=1e-6)


def test_a_head_that_shifts_as_it_likes_lies_further_apart():
    steady, wild = seen([2e-5] * 4), seen([-2e-5, 6e-5, -2e-5, 6e-5])
    assert steady.mean == pytest.approx(wild.mean)
    assert scatter_of(steady) < HEADS.scatter < scatter_of(wild)


def test_one_odd_tightening_does_not_undo_what_the_others_showed():
    """Nine alike and one 12 µm over 200 mm aside: by hand √((4·2.25 + 129.6)/13) = 3.27 µm."""
    values = [0.0] * 9 + [0.012 / 200.0]
    assert scatter_of(seen(values)) * 200.0 == pytest.approx(0.00327, abs=0.00001)


@pytest.mark.parametrize("often", [2, 5, 20])
def test_heads_as_supposed_come_out_as_supposed(often):
    """1,000 heads: the squares average to the habit's (an unbiased variance, textbook)."""
    rng = np.random.default_rng(7)
    squares = []
    for _ in range(1000):
        values = rng.normal(rng.normal(0.0, HEADS.mean_sd), HEADS.scatter, often)
        squares.append(scatter_of(seen(values.tolist())) ** 2)
    assert np.mean(squares) == pytest.approx(HEADS.scatter**2, rel=0.05)


def test_the_more_was_seen_the_more_the_heads_own_counts():
    """A head of three times the habit's scatter: from the habit toward its own."""
    rng = np.random.default_rng(9)
    values = rng.normal(1e-5, 3.0 * HEADS.scatter, 400).tolist()
    told = [scatter_of(seen(values[:n])) / HEADS.scatter for n in (1, 8, 400)]
    assert told == sorted(told)
    assert told[0] == pytest.approx(1.0)
    assert told[2] == pytest.approx(3.0, rel=0.1)
