"""Bolts, adjusters, slack, drop and shift."""

import dataclasses
import random
import statistics

import pytest

from daq.virtual import JointSpec, MillSpec
from daq.virtual.head import Head
from daq.virtual.standing import UNWOUND, HeadState
from daq.virtual.store import StateFileError
from daq.words import AXES, Axis

FIRM = JointSpec(pivot_y_mm=150.0, backlash_mm=0.0, drop_mm=0.0, shift_mm=0.0, shift_sd_mm=0.0)
SPEC = MillSpec(side=FIRM, nod=FIRM, wedge_mm=0.0)


def head(spec: MillSpec = SPEC, seed: int = 1) -> Head:
    return Head(spec, random.Random(seed))


def across(one: Head, axis: Axis) -> float:
    """The true lean across the sweep, mm."""
    return one.leans()[AXES.index(axis)] * 2.0 * one.spec.radius_mm


def slack(backlash_mm: float) -> Head:
    joint = dataclasses.replace(FIRM, backlash_mm=backlash_mm)
    one = head(dataclasses.replace(SPEC, side=joint))
    one.state.side.tight = False
    one.turn("side", 1.0)
    return one


def test_a_fresh_head_is_half_a_millimetre_out_on_both_axes_either_way() -> None:
    signs = set()
    for seed in range(20):
        one = head(MillSpec(), seed)
        for axis in AXES:
            assert abs(across(one, axis)) == pytest.approx(0.5, abs=1e-9)
        signs.add((across(one, "side") > 0.0, across(one, "nod") > 0.0))
    assert len(signs) == 4


def test_the_same_seed_throws_the_same_head() -> None:
    assert head(MillSpec(), 5).state == head(MillSpec(), 5).state
    assert MillSpec.drawn(5) == MillSpec.drawn(5) != MillSpec.drawn(6)


def test_an_adjuster_turned_against_tight_bolts_moves_nothing() -> None:
    one = head()
    before = one.leans()
    one.turn("nod", 0.2)
    assert one.leans() == before


def test_an_adjuster_moves_its_axis_by_the_amount_turned() -> None:
    one = head()
    one.state.nod.tight = False
    before = across(one, "nod"), across(one, "side")
    one.turn("nod", 0.2)
    assert across(one, "nod") - before[0] == pytest.approx(0.2, rel=1e-4)
    assert across(one, "side") == pytest.approx(before[1], rel=1e-4)


def test_turning_back_takes_up_the_slack_first() -> None:
    one = slack(0.010)
    before = across(one, "side")
    one.turn("side", -0.008)
    assert across(one, "side") == before
    one.turn("side", -0.008)
    assert across(one, "side") - before == pytest.approx(-0.006, rel=1e-4)
    one.turn("side", 0.010)
    assert across(one, "side") - before == pytest.approx(-0.006, rel=1e-4)
    one.turn("side", 0.001)
    assert across(one, "side") - before == pytest.approx(-0.005, rel=1e-3)


def test_slack_does_not_depend_on_how_the_turn_is_cut_up() -> None:
    whole, parts = slack(0.010), slack(0.010)
    whole.turn("side", -0.03)
    for _ in range(30):
        parts.turn("side", -0.001)
    assert across(parts, "side") == pytest.approx(across(whole, "side"), abs=1e-12)


def test_drop_and_tightening_keep_to_their_specification() -> None:
    joint = dataclasses.replace(FIRM, drop_mm=0.03, shift_mm=0.006, shift_sd_mm=0.002)
    one = head(dataclasses.replace(SPEC, nod=joint))
    drops = [one.drop_mm("nod") for _ in range(400)]
    assert min(drops) >= 0.021
    assert max(drops) <= 0.039
    shifts, lifts = zip(*(one.tightening_mm("nod") for _ in range(4000)), strict=True)
    # Four standard errors: a fair generator strays further once in 16,000 runs.
    assert statistics.mean(shifts) == pytest.approx(0.006, abs=4 * 0.002 / 4000**0.5)
    assert statistics.stdev(shifts) == pytest.approx(0.002, rel=0.05)
    assert statistics.stdev(lifts) == pytest.approx(joint.lift_sd_mm, rel=0.05)


def test_tightening_does_not_turn_about_the_pivot() -> None:
    """A lift moves the number everywhere alike and leaves the lean."""
    one = head()
    one.set_down()
    before, lean = one.compression(), one.leans()
    one.shift("side", 0.0, 0.002)
    assert one.compression() - before == pytest.approx(-0.002, abs=1e-7)
    assert one.leans() == lean


def test_set_down_gives_the_usual_preload_and_lifting_gives_none() -> None:
    one = head()
    assert one.compression() == 0.0
    for _ in range(50):
        one.set_down()
        assert one.compression() == pytest.approx(SPEC.gauge.preload_mm, rel=0.06)


def test_the_cable_unwinds_on_the_way_back_to_the_front() -> None:
    angles = [UNWOUND["front"], UNWOUND["right"], UNWOUND["back"], UNWOUND["left"]]
    assert angles == sorted(angles)
    assert max(angles) - min(angles) == 270.0


def test_a_knock_moves_the_number_and_the_head() -> None:
    one = head()
    one.set_down()
    before, lean = one.compression(), one.leans()
    one.knock()
    assert abs(one.compression() - before) > 0.01
    assert one.leans() != lean


def test_a_head_is_restored_from_its_plain_state() -> None:
    one = head(MillSpec(), 9)
    one.set_down()
    again = Head(MillSpec(), random.Random(0), HeadState.restored(one.state.plain()))
    assert again.state == one.state
    assert again.compression() == one.compression()


@pytest.mark.parametrize(
    "spoilt",
    [
        {"position": "above"},
        {"contact": "maybe"},
        {"lift_mm": "high"},
        {"side": {"angle_rad": 0.0}, "nod": {"lean": 1}},
        {"nod": {"angle_rad": "1", "tight": True, "slack_rad": 0.0}},
    ],
)
def test_a_spoilt_state_is_refused(spoilt: dict[str, object]) -> None:
    plain = {**head().state.plain(), **spoilt}
    with pytest.raises(StateFileError):
        HeadState.restored(plain)
