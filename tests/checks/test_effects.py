import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.sweep.effects import Effect, Work, effects
from daq.screens.numbers import say_effect
from daq.settings import SettingsError, build, plain
from daq.words import Both
from tests.words import en, troubled

MRAD = 1e-3
slope = st.floats(-0.02, 0.02)
always = settings(derandomize=True)


def one(work: Work, side: float = 0.0, nod: float = 0.0) -> Effect:
    (effect,) = effects(Both(side, nod), work)
    return effect


def test_what_the_shop_did_not_tell_is_not_answered():
    assert effects(Both(MRAD, MRAD), Work()) == ()
    assert effects(Both(MRAD, MRAD), Work(cut_width=50.0)) == ()


def test_each_part_of_the_work_has_its_effect():
    work = Work(cutter=80.0, pass_step=60.0, hole_depth=50.0, bore_diameter=100.0)
    assert [effect.key for effect in effects(Both(MRAD, MRAD), work)] == [
        "dish",
        "step",
        "hole",
        "bore",
    ]


def test_a_dish_follows_the_lean_along_the_feed_only():
    along_x, along_y = Work(cutter=80.0), Work(cutter=80.0, feed="front-back")
    assert one(along_x, side=MRAD).exact_mm == pytest.approx(0.040, rel=1e-5)
    assert one(along_x, nod=MRAD).exact_mm == 0.0
    assert one(along_y, nod=MRAD).exact_mm == pytest.approx(0.040, rel=1e-5)
    assert one(along_y, side=MRAD).exact_mm == 0.0


def test_a_step_follows_the_lean_across_the_feed_only():
    along_x, along_y = Work(pass_step=60.0), Work(pass_step=60.0, feed="front-back")
    assert one(along_x, nod=MRAD).exact_mm == pytest.approx(0.060, rel=1e-5)
    assert one(along_x, side=MRAD).exact_mm == 0.0
    assert one(along_y, side=MRAD).exact_mm == pytest.approx(0.060, rel=1e-5)
    assert one(along_y, nod=MRAD).exact_mm == 0.0


@pytest.mark.parametrize(
    ("side", "nod", "toward"),
    [
        (MRAD, 0.0, "left"),
        (-MRAD, 0.0, "right"),
        (0.0, MRAD, "back"),
        (0.0, -MRAD, "front"),
        (MRAD, MRAD, "back-left"),
        (-MRAD, -MRAD, "front-right"),
        (MRAD, 0.3 * MRAD, "left"),
        (0.3 * MRAD, -MRAD, "front"),
        (0.0, 0.0, ""),
    ],
)
def test_a_hole_leans_away_from_where_the_spindles_top_leans(side, nod, toward):
    # Right low: the top leans right, so the tip points left.
    hole = one(Work(hole_depth=50.0), side, nod)
    assert hole.toward == toward
    assert hole.exact_mm == pytest.approx(50.0 * math.hypot(side, nod), rel=1e-5)


@always
@given(slope, slope, st.sampled_from(["left-right", "front-back"]))
def test_mirroring_the_lean_changes_no_size(side: float, nod: float, feed):
    work = Work(80.0, 70.0, 60.0, feed, 50.0, 100.0)
    for one_way in ((-side, nod), (side, -nod), (-side, -nod)):
        for here, there in zip(
            effects(Both(side, nod), work), effects(Both(*one_way), work), strict=True
        ):
            assert there.exact_mm == pytest.approx(here.exact_mm, rel=1e-9, abs=1e-15)
            assert there.textbook_mm == here.textbook_mm


@always
@given(slope, slope)
def test_turning_feed_and_lean_together_changes_nothing_but_the_way(side: float, nod: float):
    x, y = Work(80.0, 70.0, 60.0), Work(80.0, 70.0, 60.0, "front-back")
    for here, there in zip(effects(Both(side, nod), x), effects(Both(nod, side), y), strict=True):
        assert (there.exact_mm, there.textbook_mm) == (here.exact_mm, here.textbook_mm)


@always
@given(slope, slope)
def test_the_textbook_is_near_and_never_below_the_exact(side: float, nod: float):
    lean = math.hypot(side, nod)
    for effect in effects(Both(side, nod), Work(80.0, 70.0, 60.0, "left-right", 50.0, 100.0)):
        assert effect.textbook_mm == pytest.approx(effect.exact_mm, rel=3.0 * lean * lean + 1e-9)
        assert effect.exact_mm <= effect.textbook_mm * (1.0 + 2.0 * lean * lean) + 1e-15


def test_what_no_cutter_can_do_is_refused():
    with pytest.raises(ValueError, match=r"cut_width: found 90 mm; allowed: up to .* 80 mm"):
        Work(cutter=80.0, cut_width=90.0)
    with pytest.raises(ValueError, match="pass_step: found 81 mm"):
        Work(cutter=80.0, pass_step=81.0)
    with troubled(SettingsError, match="pass_step"):
        build(Work, {"cutter": "3 in", "pass_step": "4 in"}, "mill.toml", under="work")


def test_a_table_of_work_reads_and_reads_back():
    work = build(Work, {"cutter": "3 in", "feed": "front-back"}, "mill.toml")
    assert work == Work(cutter=pytest.approx(76.2), feed="front-back")
    assert build(Work, plain(work), "event", quantities="plain") == work


SENTENCES = [
    (
        Work(cutter=80.0, cut_width=60.0),
        (2e-4, 0.0),
        "A strip 60.0 mm wide, face-milled left to right with the 80.0 mm cutter, comes out "
        "hollow by 0.003 mm.",
    ),
    (
        Work(pass_step=50.0, feed="front-back"),
        (2e-4, 0.0),
        "Passes front to back, 50.0 mm apart, meet in steps of 0.010 mm.",
    ),
    (
        Work(hole_depth=50.0),
        (0.0, 1e-4),
        "A hole drilled 50.0 mm deep with the quill ends 0.005 mm off toward the back.",
    ),
    (
        Work(bore_diameter=100.0),
        (0.02, 0.0),
        "A bore of 100.0 mm, made by raising the table, comes out oval by 0.020 mm.",
    ),
    (
        Work(bore_diameter=100.0),
        (1e-4, 0.0),
        "A bore of 100.0 mm, made by raising the table, comes out oval by less than 0.001 mm.",
    ),
    (
        Work(hole_depth=50.0),
        (0.0, 0.0),
        "A hole drilled 50.0 mm deep with the quill ends less than 0.001 mm off.",
    ),
]


@pytest.mark.parametrize(("work", "lean", "sentence"), SENTENCES)
def test_each_is_said_in_one_sentence(work, lean, sentence):
    assert en(say_effect(one(work, *lean), "mm")) == sentence


def test_an_inch_shop_is_told_in_inches():
    assert en(say_effect(one(Work(hole_depth=50.8), nod=1e-4), "in")) == (
        "A hole drilled 2.000 in deep with the quill ends 0.0002 in off toward the back."
    )
    assert "less than 0.0001 in." in en(say_effect(one(Work(bore_diameter=50.0), nod=1e-4), "in"))
