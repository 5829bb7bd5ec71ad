from itertools import pairwise
from typing import cast

import pytest

from daq.checks.sweep.plan import FOUR, Plan, plan_of
from daq.words import FOUR_POSITIONS, PARKED, POSITIONS, Position

EIGHT = plan_of(tuple(POSITIONS))


def test_four_goes_round_once_and_back_to_front():
    assert FOUR.sequence == ("front", "right", "back", "left", "front")
    assert set(FOUR.positions) == set(FOUR_POSITIONS)


def test_four_ends_parked_for_nod():
    assert FOUR.sequence[-1] == PARKED["nod"]


def test_the_cable_never_passes_270_degrees():
    quarters = [POSITIONS[p] for p in FOUR.positions]
    turned = [(azimuth - quarters[0]) % 360.0 for azimuth in quarters]
    assert turned == [0.0, 90.0, 180.0, 270.0]


def test_each_next_position_a_quarter_turn_on():
    for before, after in pairwise(FOUR.positions):
        assert (POSITIONS[after] - POSITIONS[before]) % 360.0 == 90.0


def test_a_plan_of_other_positions_without_return():
    pair = Plan(positions=("right", "left"), returns=False)
    assert pair.sequence == ("right", "left")


def test_eight_goes_round_by_eighths_without_passing_315_degrees_and_back_to_front():
    azimuths = [POSITIONS[p] for p in EIGHT.positions]
    turned = [(azimuth - azimuths[0]) % 360.0 for azimuth in azimuths]
    assert turned == [0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0]
    assert EIGHT.sequence[0] == EIGHT.sequence[-1] == "front" == PARKED["nod"]
    assert len(EIGHT.sequence) == 9


def test_eight_reads_the_four_in_the_order_of_four():
    assert tuple(p for p in EIGHT.positions if p in FOUR.positions) == FOUR.positions


@pytest.mark.parametrize(
    "positions",
    [
        ("front", "right", "left"),
        ("left", "front", "right"),
        ("front", "right", "back-right", "back-left", "left"),
    ],
)
def test_any_plan_keeps_its_order_and_returns_to_its_first(positions: tuple[Position, ...]):
    plan = plan_of(positions)
    assert plan.positions == positions
    assert plan.sequence == (*positions, positions[0])


def test_a_list_makes_the_same_plan():
    assert plan_of(list(FOUR_POSITIONS)) == FOUR


@pytest.mark.parametrize(
    ("positions", "said"),
    [
        ((), "positions: found none; .* missing: front, right, left"),
        (("right", "left"), "three places or more, .* missing: front$"),
        (("front", "right", "back"), "found front, right, back; .* missing: left$"),
        (("front", "front-right", "back-right", "back", "left"), "missing: right$"),
        (("front", "right", "left", "front"), "front stands there more than once"),
        (("front", "right", "left", "rear"), "found front, right, left, rear; allowed: front, "),
    ],
)
def test_what_cannot_be_swept_is_refused_in_plain_words(positions: tuple[str, ...], said: str):
    with pytest.raises(ValueError, match=said):
        plan_of(cast(tuple[Position, ...], positions))
