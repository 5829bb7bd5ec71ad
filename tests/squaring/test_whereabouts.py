import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.squaring.whereabouts import Agrees, LooksLike, LooksLikeNothing, compare, relabel
from daq.words import FOUR_POSITIONS, OPPOSITE, Position

SWEPT: dict[Position, float] = {"front": 0.040, "right": -0.060, "back": -0.040, "left": 0.060}
LIMIT = 0.012


@pytest.mark.parametrize("position", sorted(FOUR_POSITIONS))
def test_its_own_reading_agrees(position: Position):
    assert compare(SWEPT[position] + LIMIT, position, SWEPT, LIMIT) == Agrees()
    assert compare(SWEPT[position] - LIMIT, position, SWEPT, LIMIT) == Agrees()


def test_a_circle_walked_the_other_way_round_looks_like_the_opposite():
    """This spot read −0.060, now +0.060."""
    assert compare(0.060, "right", SWEPT, LIMIT) == LooksLike("left")


def test_a_reading_of_no_position_says_how_far_it_is():
    found = compare(0.240, "front", SWEPT, LIMIT)
    assert found == LooksLikeNothing(pytest.approx(0.200))
    assert compare(-0.160, "front", SWEPT, LIMIT) == LooksLikeNothing(pytest.approx(-0.200))


def test_of_several_others_the_opposite_one_is_named():
    alike: dict[Position, float] = {"front": 0.5, "right": 0.0, "back": 0.01, "left": -0.5}
    assert compare(0.005, "front", alike, LIMIT) == LooksLike("back")


def test_a_reading_like_two_that_are_not_opposite_is_like_none():
    alike: dict[Position, float] = {"front": 0.5, "right": 0.0, "back": -0.5, "left": 0.01}
    assert compare(0.005, "front", alike, LIMIT) == LooksLikeNothing(pytest.approx(-0.495))


def test_its_own_is_believed_before_another():
    nearly_square: dict[Position, float] = {
        "front": 0.001,
        "right": 0.0,
        "back": -0.001,
        "left": 0.0,
    }
    assert compare(0.0, "right", nearly_square, 0.002) == Agrees()
    assert compare(-0.001, "front", nearly_square, 0.002) == Agrees()


def test_not_only_four_positions_are_compared():
    pair: dict[Position, float] = {"right": -0.060, "left": 0.060}
    assert compare(0.060, "right", pair, LIMIT) == LooksLike("left")


@settings(derandomize=True)
@given(
    st.tuples(*[st.floats(-1.0, 1.0)] * 4),
    st.sampled_from(sorted(FOUR_POSITIONS)),
    st.floats(0.001, 0.1),
)
def test_after_relabelling_the_spot_agrees(
    read: tuple[float, ...], position: Position, limit: float
):
    """Whoever walked the other way round finds, labels put right, what the gauge shows."""
    truth = dict(zip(("front", "right", "back", "left"), read, strict=True))
    mislabelled = relabel(truth)
    assert compare(truth[position], position, relabel(mislabelled), limit) == Agrees()
    found = compare(truth[position], position, mislabelled, limit)
    if isinstance(found, LooksLike):
        assert abs(mislabelled[found.other] - truth[position]) <= limit + 1e-9


def test_relabelling_exchanges_left_and_right_when_front_came_first():
    assert relabel(SWEPT) == {"front": 0.040, "left": -0.060, "back": -0.040, "right": 0.060}


def test_relabelling_from_the_right_exchanges_front_and_back():
    assert relabel(SWEPT, start="right") == {
        "back": 0.040,
        "right": -0.060,
        "front": -0.040,
        "left": 0.060,
    }


@pytest.mark.parametrize("start", sorted(FOUR_POSITIONS))
def test_relabelling_twice_is_nothing(start: Position):
    assert relabel(relabel(SWEPT, start), start) == SWEPT
    assert relabel(SWEPT, start) == relabel(SWEPT, OPPOSITE[start])
