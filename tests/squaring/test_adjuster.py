from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from daq.settings import SettingsError, build, plain
from daq.squaring.adjuster import (
    Adjust,
    approach,
    comes_from_wrong_side,
    past_mm,
    reverse,
    say_turns,
    turns,
    worth_moving,
)
from tests.words import en, troubled

NOD = Adjust(finish_raising="front")
differences = st.floats(-1.0, 1.0)


def test_the_table_of_a_machines_file():
    table = {"kind": "rack", "finish_raising": "front", "lead": "0.5 mm/300 mm", "backlash": "1 mm"}
    built = build(Adjust, table, "mill.toml", under="nod.adjust")
    assert built == Adjust("rack", "front", pytest.approx(0.5 / 300.0), 1.0)
    assert build(Adjust, plain(built), "row", quantities="plain") == built


def test_a_file_without_the_table_has_a_worm():
    assert build(Adjust, {}, "mill.toml") == Adjust("worm", "", None, None, None)


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({"kind": "screw"}, 'kind: found "screw"'),
        ({"finish_raising": "up"}, 'finish_raising: found "up"'),
        ({"kind": "shim"}, 'kind: found "shim" without bolt_spacing; allowed: both together'),
        ({"lead": "0 mm/m"}, "lead: found .*; allowed: above 0"),
        ({"shim_places": ["behind"]}, "shim_places: found 1; allowed: two"),
        ({"shim_places": ["behind", ""]}, "shim_places: found 2; allowed: two"),
    ],
)
def test_a_table_that_cannot_be_used_is_refused(table, words):
    with troubled(SettingsError, match=words):
        build(Adjust, table, "mill.toml")


def test_turns_need_the_lead():
    assert turns(1e-4, Adjust()) is None
    assert say_turns(None) is None
    assert turns(-1e-4, Adjust(lead=4e-4)) == pytest.approx(-0.25)


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (0.33, "about a third of a turn"),
        (-0.33, "about a third of a turn"),
        (0.47, "about half a turn"),
        (0.12, "about an eighth of a turn"),
        (0.71, "about three quarters of a turn"),
        (0.97, "about one turn"),
        (1.04, "about one turn"),
        (1.52, "about one and a half turns"),
        (2.11, "about 2 turns"),
        (2.26, "about 2 and a quarter turns"),
        (2.95, "about 3 turns"),
        (9.97, "about 10 turns"),
        (17.6, "about 18 turns"),
        (0.025, "about 9 degrees"),
        (0.003, "about 1 degree"),
    ],
)
def test_turns_are_said_in_plain_fractions(count, said):
    assert en(say_turns(count)) == said


@given(st.floats(1e-3, 40.0))
@settings(derandomize=True)
def test_what_is_said_is_near_what_is_meant(count):
    """Within an eighth of a turn: half the widest gap between two fractions that are said."""
    named = {
        "an eighth": 1 / 8,
        "a sixth": 1 / 6,
        "a quarter": 1 / 4,
        "a third": 1 / 3,
        "a half": 1 / 2,
        "half a": 1 / 2,
        "two thirds": 2 / 3,
        "three quarters": 3 / 4,
    }
    said = en(say_turns(count))
    first = said.split()[1]
    if "degree" in said:
        told = float(first) / 360.0
        assert abs(told - count) <= 1.0 / 360.0
        return
    whole = 1.0 if "one" in said else float(first) if first.isdigit() else 0.0
    part = max((value for name, value in named.items() if name in said), default=0.0)
    assert abs(whole + part - count) <= (0.5 if count >= 10.0 else 0.126)


def test_raising_the_nod_from_the_front_ends_the_right_way():
    """Parked at the front: a lean that falls there raises the front; one that grows lowers it."""
    assert not comes_from_wrong_side(-1e-4, "front", "front")
    assert comes_from_wrong_side(1e-4, "front", "front")
    assert not comes_from_wrong_side(1e-4, "back", "front")
    assert comes_from_wrong_side(-1e-4, "back", "front")
    assert comes_from_wrong_side(-1e-4, "right", "left")


@given(st.floats(-1e-2, 1e-2), st.sampled_from(["front", "back", "left", "right"]))
@settings(derandomize=True)
def test_without_a_finish_side_either_way_will_do(change, parked):
    assert not comes_from_wrong_side(change, parked, "")
    assert past_mm(change, parked, Adjust(backlash=0.3)) == 0.0


@given(st.floats(1e-6, 1e-2), st.sampled_from(["front", "back"]))
@settings(derandomize=True)
def test_one_way_is_wrong_and_the_other_right(change, finish):
    wrong = [comes_from_wrong_side(way * change, "front", finish) for way in (1.0, -1.0)]
    assert sorted(wrong) == [False, True]


def test_a_turn_from_the_wrong_side_goes_past_by_more_than_the_backlash():
    assert past_mm(1e-4, "front", NOD) == 0.05
    assert past_mm(1e-4, "front", Adjust(finish_raising="front", backlash=0.1)) == 0.2
    assert past_mm(1e-4, "front", Adjust(finish_raising="front", backlash=0.001)) == 0.05
    assert past_mm(-1e-4, "front", NOD) == 0.0
    assert past_mm(0.0, "front", NOD) == 0.0


@pytest.mark.parametrize("kind", ["hand", "shim", "none"])
def test_only_what_is_turned_goes_past(kind):
    adjust = Adjust(kind=kind, finish_raising="front", bolt_spacing=250.0)
    assert past_mm(1e-4, "front", adjust) == 0.0


def test_each_kind_of_adjuster_has_its_way():
    assert en(approach(Adjust())) == "Come to it slowly, always from the same side."
    assert en(approach(NOD)) == "Come to it slowly, with the front of the head rising."
    assert "a little at a time" in en(approach(Adjust(kind="hand")))
    assert "shims" in en(approach(Adjust(kind="shim", bolt_spacing=250.0)))
    assert en(approach(Adjust(kind="none"))).startswith("Report only")


def test_a_number_that_goes_away_from_the_stop_at_is_the_wrong_way():
    assert reverse(1.2, 1.1, 1.25, 0.002)
    assert not reverse(1.2, 1.1, 1.15, 0.002)
    assert not reverse(1.2, 1.1, 1.05, 0.002)
    assert not reverse(1.2, 1.1, 1.201, 0.002)


@given(differences, differences, differences, st.floats(0.0, 0.01))
@example(0.0, 1.0, -1e-20, 0.0)
@example(1.0, 0.0, 1.0 + 2.0**-52, 0.0)
@settings(derandomize=True)
def test_the_wrong_way_ends_further_off(base, stop, stopped, noise):
    """In exact fractions: a difference of floats may round away how much further it is."""
    assert reverse(-base, -stop, -stopped, noise) == reverse(base, stop, stopped, noise)
    if reverse(base, stop, stopped, noise):
        began, wanted, ended = (Fraction(each) for each in (base, stop, stopped))
        assert abs(ended - wanted) > abs(began - wanted)


@given(differences, st.floats(1e-6, 1.0), st.floats(1e-6, 1.0), st.floats(0.0, 0.01))
@settings(derandomize=True)
def test_further_off_by_more_than_noise_is_the_wrong_way(base, wanted, gone, noise):
    """What a rounding may hide lies within 1e-12."""
    for way in (1.0, -1.0):
        found = reverse(base, base + way * wanted, base - way * gone, noise)
        assert found == (gone > noise) or abs(gone - noise) < 1e-12
        assert not reverse(base, base + way * wanted, base + way * gone, noise)


def test_an_axis_inside_is_left_alone():
    assert not worth_moving(0.009, 0.010, 1e-4, "in")


def test_too_close_to_call_is_moved_when_that_is_likelier_than_not_to_end_inside():
    """Half of a normal distribution lies within 0.6745 standard deviations (tables)."""
    assert worth_moving(0.009, 0.00675, 0.010, "close")
    assert not worth_moving(0.009, 0.00674, 0.010, "close")


def test_where_nothing_could_be_called_in_too_close_to_call_is_left():
    assert not worth_moving(0.009, 0.0, 0.002, "close")
    assert not worth_moving(0.009, -0.003, 0.002, "close")


def test_an_axis_out_is_moved_with_any_hope_or_when_it_is_far_out():
    assert worth_moving(0.011, 0.010, 0.008, "out")
    assert worth_moving(0.011, 0.001, 0.008, "out")
    assert not worth_moving(0.011, 0.0, 0.008, "out")
    assert worth_moving(0.0121, 0.0, 0.008, "out")


@given(
    st.floats(-0.02, 0.02),
    st.floats(-0.01, 0.02),
    st.floats(1e-4, 0.01),
    st.sampled_from(["in", "out", "close"]),
)
@settings(derandomize=True)
def test_a_mirrored_error_is_worth_as_much(off, within, leaves, word):
    assert worth_moving(off, within, leaves, word) == worth_moving(-off, within, leaves, word)
