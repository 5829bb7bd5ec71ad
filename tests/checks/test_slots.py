"""Which spots stand in a table's slot, and the next radii that stand clear: by brute force.

The brute force knows nothing of intervals: it walks the circle's spots by a unit vector and
measures to every slot, a hundredth of a millimetre at a time.
"""

import cmath
import math

import hypothesis
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.checks.sweep.slots import Slots, in_a_slot, next_clear
from daq.settings import SettingsError, build, plain
from daq.words import FOUR_POSITIONS, POSITIONS
from tests.words import troubled

steady = hypothesis.settings(deadline=None, derandomize=True, max_examples=200)
THREE = Slots(14.0, 63.0, -63.0, 3)
EIGHT = tuple(POSITIONS)
GRID = 0.01


def clears(slots, position, radius):
    """How far the contact's middle stays beyond what it must from the nearest edge, mm."""
    spot = cmath.rect(1.0, math.radians(POSITIONS[position]))
    at = np.asarray(radius) * (spot.imag if slots.direction == "left-right" else spot.real)
    middles = [slots.offset + n * slots.pitch for n in range(slots.count)]
    away = np.min([abs(at - middle) for middle in middles], axis=0)
    return away - slots.width / 2.0 - slots.clear


def stand(slots, positions, radii, by):
    """Whether every spot stands clear, for each radius."""
    return np.all([clears(slots, position, radii) >= by for position in positions], axis=0)


tables = st.builds(
    lambda width, land, offset, count, direction, clear: Slots(
        width, width + land, offset, count, direction, clear
    ),
    st.integers(8, 30).map(float),
    st.integers(10, 120).map(float),
    st.integers(-200, 100).map(float),
    st.integers(1, 5),
    st.sampled_from(["left-right", "front-back"]),
    st.integers(0, 12).map(float),
)
sweeps = st.lists(st.sampled_from(EIGHT), min_size=3, max_size=8, unique=True).map(tuple)
radii = st.integers(20, 300).map(float)


@steady
@given(tables, sweeps, radii)
def test_a_spot_is_in_a_slot_where_it_is_nearer_than_it_may(slots, positions, radius):
    inside = in_a_slot(slots, positions, radius)
    for position in positions:
        room = clears(slots, position, radius)
        if abs(room) > 1e-6:
            assert (position in inside) == (room < 0.0)


@steady
@given(tables, sweeps, radii, st.sampled_from(["larger", "smaller"]))
def test_the_next_clear_radius_is_the_one_brute_force_finds(slots, positions, radius, way):
    found = next_clear(slots, positions, radius, way)
    end = (1000.0 if way == "larger" else 5.0) if found is None else found
    steps = int(abs(end - radius) / GRID)
    sign = 1.0 if way == "larger" else -1.0
    between = radius + sign * GRID * np.arange(steps)
    assert not stand(slots, positions, between, by=1e-6).any()
    if found is not None:
        assert (found >= radius) if way == "larger" else (found <= radius)
        assert stand(slots, positions, found, by=-1e-8)


@steady
@given(tables, sweeps, radii, st.sampled_from(["larger", "smaller"]), st.sampled_from([0.1, 0.127]))
def test_in_whole_steps_it_stands_clear_and_nothing_nearer_does(
    slots, positions, radius, way, step
):
    found = next_clear(slots, positions, radius, way, step)
    if found is None:
        return
    last = round(found / step)
    assert found / step == pytest.approx(last, abs=1e-9)
    assert in_a_slot(slots, positions, found) == ()
    first = math.ceil(radius / step) if way == "larger" else math.floor(radius / step)
    passed = np.arange(first, last, 1 if way == "larger" else -1) * step
    assert not stand(slots, positions, passed, by=1e-6).any()


def test_the_edges_to_the_last_digit():
    """63 less 7 less 3 is 53, and 63 and 7 and 3 are 73: there a contact stands, within not."""
    for radius in (53.0, 73.0):
        assert in_a_slot(THREE, ("front", "back"), radius) == ()
    for radius in (53.001, 63.0, 72.999):
        assert in_a_slot(THREE, ("front", "back"), radius) == ("front", "back")
        assert next_clear(THREE, ("front", "back"), radius, "smaller") == 53.0
        assert next_clear(THREE, ("front", "back"), radius, "larger") == 73.0


def test_what_stands_clear_is_left_where_it_is():
    for way in ("larger", "smaller"):
        assert next_clear(THREE, ("front", "back"), 100.0, way) == 100.0


def test_a_slot_right_below_the_spindle_takes_right_and_left_at_any_radius():
    assert in_a_slot(THREE, FOUR_POSITIONS, 100.0) == ("right", "left")
    for way in ("larger", "smaller"):
        assert next_clear(THREE, FOUR_POSITIONS, 100.0, way) is None


def test_slots_the_other_way_take_the_other_spots():
    turned = Slots(14.0, 63.0, -63.0, 3, "front-back")
    assert in_a_slot(turned, FOUR_POSITIONS, 100.0) == ("front", "back")


def test_below_the_smallest_sweep_there_is_none():
    assert next_clear(Slots(30.0, 40.0, 0.0, 1), ("front",), 10.0, "smaller") is None


def test_it_may_take_several_slots_to_come_clear():
    """Lands of 4 mm between slots kept clear of by 3: the next stand is beyond the last."""
    narrow = Slots(16.0, 20.0, 0.0, 4)
    assert next_clear(narrow, ("back",), 22.0, "larger") == 60.0 + 8.0 + 3.0


def test_the_table_of_a_machines_file():
    table = {"width": "14 mm", "pitch": "63 mm", "offset": "-63 mm", "count": 3}
    built = build(Slots, table, "mill.toml")
    assert built == THREE
    assert build(Slots, plain(built), "row", quantities="plain") == built
    with troubled(SettingsError, match="width: found 63 mm; allowed: below pitch"):
        build(Slots, {**table, "width": "63 mm"}, "mill.toml")
