from itertools import pairwise

from daq.checks.sweep.plan import FOUR, Plan
from daq.words import PARKED, POSITIONS


def test_four_goes_round_once_and_back_to_front():
    assert FOUR.sequence == ("front", "right", "back", "left", "front")
    assert set(FOUR.positions) == set(POSITIONS)


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
