"""Go or no-go: closed forms of plane geometry, and faces against cutters stepped over them."""

import math

import hypothesis
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.checks.sweep.callouts import Bore, Face, Leans, Wall, enough
from daq.checks.sweep.effects import Work, effects
from daq.metrology.rule import Rule
from daq.settings import SettingsError, build
from daq.words import Both
from tests.words import troubled

steady = hypothesis.settings(deadline=None, derandomize=True)
slopes = st.floats(-1e-3, 1e-3).map(lambda slope: round(slope, 6))
GUARDED, SIMPLE = Rule(), Rule("simple")
MRAD = 1e-3


def sure(side, nod, u=0.0, dof=None):
    return Leans(side, nod, u, u, dof)


def test_a_bore_runs_off_by_its_depth_times_the_lean():
    """3, 4 and 5: 0.00003 and 0.00004 are 0.00005, over 80 mm 0.004."""
    told = enough(Bore(80.0, 0.01), sure(3e-5, -4e-5), GUARDED)
    assert (told.does_mm, told.word) == (pytest.approx(0.004), "in")


@pytest.mark.parametrize(
    ("faces", "does"), [("right-left", 0.03), ("front-back", 0.04), ("any", 0.05)]
)
def test_a_wall_stands_off_by_the_lean_toward_it(faces, does):
    told = enough(Wall(50.0, 0.035, faces), sure(0.6 * MRAD, -0.8 * MRAD), GUARDED)
    assert told.does_mm == pytest.approx(does)
    assert told.word == ("in" if faces == "right-left" else "out")


@steady
@given(slopes, slopes, st.sampled_from(["left-right", "front-back"]))
def test_a_flat_face_is_hollow_as_the_textbook_says(side, nod, feed):
    """Held against what the same lean is said to do to the shop's own work."""
    work = Work(cutter=80.0, cut_width=60.0, feed=feed)
    (dish,) = effects(Both(side, nod), work)
    assert Face(60.0, 0.01, 80.0, feed=feed).does(side, nod) == pytest.approx(dish.textbook_mm)


def stepped(p, q, cutter, width, step=None):
    """The face a leaning cutter leaves in its last passes: the lowest of all, by brute force."""
    r = cutter / 2.0
    y = np.linspace(-width / 2.0, width / 2.0, 20_001)
    left = np.full_like(y, np.inf)
    for middle in [0.0] if step is None else np.arange(-40, 41) * step:
        under = abs(y - middle) <= r
        off = y[under] - middle
        z = -(q * off + abs(p) * np.sqrt(np.maximum(r * r - off * off, 0.0)))
        left[under] = np.minimum(left[under], z)
    return float(left.max() - left.min())


sizes = st.integers(20, 100).map(float)


@steady
@given(slopes, slopes, sizes, st.integers(5, 100))
def test_a_face_in_one_pass_is_the_one_a_stepped_cutter_leaves(p, q, cutter, percent):
    width = cutter * percent / 100.0
    does = Face(width, 0.01, cutter, to="parallel").does(p, q)
    assert does == pytest.approx(stepped(p, q, cutter, width), rel=2e-3, abs=1e-8)


@steady
@given(slopes, slopes, sizes, st.integers(10, 100))
def test_a_face_in_several_passes_is_the_one_a_stepped_cutter_leaves(p, q, cutter, percent):
    step = cutter * percent / 100.0
    does = Face(4.0 * cutter, 0.01, cutter, step).does(p, q)
    brute = stepped(p, q, cutter, 3.0 * step, step)
    assert does == pytest.approx(brute, rel=5e-3, abs=(abs(p) + abs(q)) * cutter * 2e-3)


def test_the_step_between_passes_is_the_textbooks():
    assert Face(300.0, 0.01, 80.0, 60.0).does(0.0, MRAD) == pytest.approx(0.060)
    assert Face(300.0, 0.01, 80.0, 60.0, feed="front-back").does(MRAD, 0.0) == pytest.approx(0.060)


def test_straight_along_the_feed_passes_leave_the_dish_of_one_step():
    alone = Face(60.0, 0.01, 80.0).does(MRAD, 0.0)
    assert Face(300.0, 0.01, 80.0, 60.0).does(MRAD, 0.0) == pytest.approx(alone)


@pytest.mark.parametrize(
    ("does", "word"), [(0.0, "in"), (0.0067, "in"), (0.0068, "close"), (0.0133, "out")]
)
def test_the_answer_keeps_the_doubt_away_from_the_zone(does, word):
    """0.002 at one sigma, 95 %: 1.645 · 0.002 = 0.00329 within 0.010, and beyond it."""
    leans = Leans(does / 100.0, 0.0, 0.002 / 100.0, 0.0)
    told = enough(Wall(100.0, 0.010, "right-left"), leans, GUARDED)
    assert told.u_mm == pytest.approx(0.002)
    assert told.guard_mm == pytest.approx(0.00329, abs=1e-5)
    assert told.word == word


def test_by_the_simple_rule_the_number_is_taken_as_it_is():
    leans = Leans(0.0099 / 100.0, 0.0, 0.002 / 100.0, 0.0)
    assert enough(Wall(100.0, 0.010, "right-left"), leans, SIMPLE).word == "in"


@pytest.mark.parametrize("rule", [GUARDED, SIMPLE])
def test_a_sweep_too_coarse_for_the_zone_says_so(rule):
    told = enough(Bore(100.0, 0.002), sure(0.0, 0.0, u=0.002 / 100.0), rule)
    assert (told.good_enough, told.word) == (False, "close")


def test_one_callout_is_one_limit_however_axes_are_judged_together():
    leans = sure(5e-5, 0.0, u=1e-5)
    each = enough(Bore(80.0, 0.01), leans, GUARDED)
    for together in ("jointly", "vector"):
        assert enough(Bore(80.0, 0.01), leans, Rule(together=together)) == each


@pytest.mark.parametrize(
    "callout",
    [Bore(80.0, 0.01), Wall(80.0, 0.01), Face(70.0, 0.01, 80.0, to="parallel")],
    ids=lambda callout: type(callout).__name__,
)
def test_what_is_just_too_much_is_seldom_called_good_enough(callout):
    """A head that does exactly what the zone allows, read a thousand times: 5 % or fewer in."""
    rng = np.random.default_rng(5)
    u = 0.0015 / 80.0
    called = 0
    for angle in rng.uniform(0.0, 2.0 * math.pi, 1000):
        side, nod = math.cos(angle), math.sin(angle)
        size = callout.zone / callout.does(side, nod)
        read = rng.normal((size * side, size * nod), u)
        called += enough(callout, Leans(*read, u, u), GUARDED).word == "in"
    assert called <= 65  # 50 expected at the most; two standard deviations of the count more


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ({"width": "90 mm"}, "width: found 90 mm; allowed: up to the cutter's 80 mm"),
        ({"width": "90 mm", "pass_step": "81 mm"}, "pass_step: found 81 mm; allowed: up to the"),
        ({"width": "90 mm", "zone": "0 mm"}, "zone: found 0.0 mm; allowed: at least 0.0001 mm"),
    ],
)
def test_a_face_the_cutter_cannot_cover_is_refused(table, said):
    with troubled(SettingsError, match=said):
        build(Face, {"cutter": "80 mm", "zone": "0.01 mm", **table}, "callout")
