"""The clock of hands: an audit counted by hand, and the same seconds on the product's clock."""

import ast
from pathlib import Path

import pytest

from daq.service.in_memory import InMemory
from tests.benchmarks.heads import clock as clock_file
from tests.benchmarks.heads import population
from tests.benchmarks.heads.cells import GOOD, PLAIN
from tests.benchmarks.heads.clock import Clock
from tests.benchmarks.heads.codes import in_codes
from tests.benchmarks.heads.measure import spread, stands
from tests.benchmarks.heads.mill import Mill
from tests.benchmarks.heads.rider import ride
from tests.benchmarks.heads.shop import setup

OPENING = ("open", "readied", "warmed", "prepared", "take", "pushed")


def opened():
    clock = Clock()
    for kind in OPENING:
        clock.presses(kind)
    return clock


def swept(clock):
    """Round from the front to the left and back the same way: 48 s of swings, five readings."""
    for place in ("front", "right", "back", "left"):
        clock.swings(place)
        clock.presses("take")
    clock.swings("front", back=True)
    clock.presses("take")


def test_opening_takes_a_minute_however_many_presses_it_has():
    assert opened().seconds == 60.0
    few = Clock()
    few.presses("open")
    assert few.presses("pushed") == 50.0
    assert few.presses("take") == 3.0


def test_a_whole_audit_is_the_sum_that_was_counted_by_hand():
    clock = opened()
    swept(clock)
    assert clock.seconds == 60 + 48 + 5 * 3
    for axis, there in (("nod", "back"), ("side", "left")):
        parked = {"nod": "front", "side": "right"}[axis]
        clock.swings(parked)
        clock.presses("take")
        clock.cracks(axis)
        clock.presses("loosened")
        clock.turns()
        clock.presses("stopped")
        clock.swings(there)
        clock.presses("take")
        clock.swings(parked)
        clock.presses("take")
        clock.tightens(axis)
        clock.presses("tightened")
    # Two axes: three presses of 2 s, three readings, 40 + 40 + 60 s of bolts and adjuster, a
    # swing across and back; and once a quarter from the front to the right.
    assert clock.seconds == 123 + 2 * (6 + 9 + 140 + 32) + 8
    clock.swings("front")
    swept(clock)
    for kind in ("cleared", "sign"):
        clock.presses(kind)
    assert clock.seconds == 505 + 8 + 63 + 60


def test_back_the_way_it_came_is_three_quarters_and_else_one():
    assert [clock_after("front", "right", "back", "left").swings("front", back=back) for back in
            (True, False)] == [24.0, 8.0]  # fmt: skip
    assert clock_after("front", "back").wound_deg == -180.0
    assert clock_after("left", "front", "right", "back").wound_deg == 270.0
    assert clock_after("left", "front", "right", "back", "front").wound_deg == 90.0


def clock_after(*places):
    clock = Clock()
    for place in places:
        clock.swings(place)
    return clock


def test_both_axes_at_once_cost_less_than_one_after_the_other():
    clock = Clock(opening=False)
    assert clock.cracks("nod") + clock.presses("loosened") + clock.cracks("side") == 62.0
    assert clock.tightens("nod") + clock.tightens("side") == 90.0
    assert clock.cracks("nod") + clock.turns() + clock.cracks("side") == 120.0
    assert clock.tightens("side", 0.25) + clock.tightens("side", 0.25) == 30.0


def test_a_block_is_carried_and_a_ring_is_turned():
    clock = Clock(blocks=True, opening=False)
    assert [clock.swings(place) for place in ("front", "front", "right")] == [10.0, 0.0, 18.0]
    assert clock.turns_ring() == 30.0
    assert clock.waits(25.0) == 25.0


def test_the_product_sees_the_seconds_that_were_spent():
    """A head found in: opening, one sweep, signing; 20 ms more on the clock a number sent.

    Back to the front is not swung at all, or a quarter on, or three back.
    """
    visit = stands(GOOD, 1, 1, 0)
    house = InMemory(setup(GOOD.files, visit.radius_mm), in_codes)
    began = house.ns
    outcome = ride(Mill(population.head(1, 1), PLAIN, visit), house)
    assert outcome.moves == 0
    swung_s = 60.0 * outcome.minutes - 60 - 60 - 3 * outcome.readings
    back_s = {4: [0], 5: [8, 24]}[outcome.readings]
    assert round(swung_s, 6) in [24 + each for each in back_s]
    spent_s = (house.ns - began - 20_000_000 * house.n) / 1e9
    assert spent_s == pytest.approx(60.0 * outcome.minutes)


def test_the_clock_takes_nothing_from_the_house_but_the_words():
    tree = ast.parse(Path(clock_file.__file__).read_text(encoding="utf-8"))
    found = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    assert [name for name in found if name.startswith("daq")] == ["daq.words"]


def test_a_spread_is_mean_error_and_what_most_keep_to():
    """The standard error of 1 to 4 is √(5/3) over 2."""
    found = spread([1, 2, 3, 4])
    assert (found.mean, found.most) == (2.5, 4)
    assert found.error == pytest.approx((5 / 3) ** 0.5 / 2)
    assert spread([]).mean == 0.0
