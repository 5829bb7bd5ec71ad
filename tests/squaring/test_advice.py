import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.squaring.advice import (
    advise,
    is_blind,
    pivot_from_parked,
    sees_too_little,
    sensitivity,
    stop_at,
)

slopes = st.floats(-0.01, 0.01)
lengths = st.floats(20.0, 400.0)


def test_the_story_of_the_nod_adjuster():
    """R 100 mm, pivot 150 mm behind: base 1.200 and 0.080 low at front stop at 1.100."""
    told = advise("nod", "front", 1.200, 0.080 / 200.0, 0.0, 100.0, 150.0, 400.0)
    assert told.stop_mm == pytest.approx(1.100, abs=0.0005)
    assert told.change_mm == pytest.approx(-0.100, abs=0.0005)
    assert told.sensitivity_mm == 250.0
    assert (told.axis, told.position, told.base_mm) == ("nod", "front", 1.200)
    assert (told.t, told.wanted) == (0.0004, 0.0)


def test_advice_is_the_stop_at_for_the_pivot_seen_from_there():
    told = advise("side", "left", 0.5, 2e-3, 1e-4, 100.0, 10.0, 300.0)
    assert told.stop_mm == stop_at(0.5, 2e-3, 1e-4, 100.0, -10.0, 300.0)
    assert told.sensitivity_mm == 90.0


def test_over_the_spindle_half_the_difference_is_turned_away():
    assert stop_at(1.0, 0.05 / 200.0, 0.0, 100.0, 0.0, 0.0) == pytest.approx(1.0 - 0.05 / 2.0)


@settings(derandomize=True)
@given(slopes, lengths, lengths, lengths)
def test_nothing_to_correct_is_nothing_to_turn(t: float, radius: float, p: float, h: float):
    assert stop_at(1.2, t, t, radius, p, h) == pytest.approx(1.2, abs=1e-12)


@settings(derandomize=True)
@given(slopes, slopes, slopes, lengths, lengths, lengths)
def test_two_moves_are_one(t: float, v: float, w: float, radius: float, p: float, h: float):
    part_way = stop_at(1.2, t, v, radius, p, h)
    assert stop_at(part_way, v, w, radius, p, h) == pytest.approx(
        stop_at(1.2, t, w, radius, p, h), abs=1e-12
    )


@settings(derandomize=True)
@given(slopes, lengths, lengths, lengths)
def test_a_mirrored_lean_is_turned_the_other_way(t: float, radius: float, p: float, h: float):
    one = stop_at(0.0, t, 0.0, radius, p, h) - stop_at(0.0, -t, 0.0, radius, p, h)
    assert one == pytest.approx(-2.0 * (radius + p) * t, abs=1e-12)


def test_the_pivot_counts_away_from_the_usual_parked_position():
    assert pivot_from_parked("nod", "front", 150.0) == 150.0
    assert pivot_from_parked("nod", "back", 150.0) == -150.0
    assert pivot_from_parked("side", "right", 10.0) == 10.0
    assert pivot_from_parked("side", "left", 10.0) == -10.0


def test_a_position_beside_the_axis_is_refused():
    with pytest.raises(ValueError, match='parked for nod: found "right"; allowed: front or back'):
        pivot_from_parked("nod", "right", 150.0)
    with pytest.raises(ValueError, match='parked for side: found "back"; allowed: right or left'):
        pivot_from_parked("side", "back", 0.0)


def test_sensitivity_is_the_distance_from_contact_to_pivot():
    assert sensitivity(100.0, 150.0) == 250.0
    assert sensitivity(100.0, -150.0) == -50.0


def test_at_the_back_over_the_pivot_front_is_named():
    assert sees_too_little("back", 100.0, -100.0, 100.0) == "front"
    assert sees_too_little("back", 100.0, -150.0, 150.0) == "front"
    assert sees_too_little("front", 100.0, 150.0, -150.0) is None


def test_a_pivot_over_the_spindle_lets_either_side_park():
    assert sees_too_little("right", 100.0, 0.0, 0.0) is None
    assert sees_too_little("left", 100.0, 0.0, 0.0) is None


def test_half_the_sensitivity_is_just_enough():
    assert sees_too_little("left", 90.0, -30.0, 30.0) is None
    assert sees_too_little("left", 90.0, -30.1, 30.1) == "right"


def test_a_pivot_in_front_makes_the_back_the_place_to_park():
    assert sees_too_little("front", 100.0, -120.0, 120.0) == "back"


@pytest.mark.parametrize(
    ("away_mm", "doubt_mm", "blind"),
    [(190.0, 40.0, False), (190.0, 500.0, True), (-140.0, 4.0, True), (-191.0, 4.0, False)],
)
def test_a_pivot_that_might_be_anywhere_gives_no_stop_at(away_mm, doubt_mm, blind):
    assert is_blind(145.0, away_mm, doubt_mm) == blind
