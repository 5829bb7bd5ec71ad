"""Which shim sets an axis, of any thickness or of those that the shop has."""

import math
from itertools import combinations_with_replacement

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from daq.audit.views.shims import say_shim
from daq.squaring.adjuster import Adjust
from daq.squaring.shims import Shim, shim, thickness, worth_shimming
from tests.words import en

SHIMMED = Adjust(kind="shim", bolt_spacing=250.0)
differences = st.floats(-1.0, 1.0)
shelves = st.lists(st.integers(1, 1000), min_size=1, max_size=8)


def test_a_shim_is_slope_times_the_spacing_of_the_bolts():
    """0.080 across 200 mm with bolts 250 mm apart: 0.080 / 200 × 250, by similar triangles."""
    needed = shim(0.080, 200.0, SHIMMED)
    assert needed == Shim(pytest.approx(0.100), "the lower bolts")
    assert en(say_shim(needed, "mm")) == "0.100 shim behind the lower bolts"
    assert (
        en(say_shim(Shim(0.254, "the upper bolts"), "in")) == "0.0100 shim behind the upper bolts"
    )


def test_a_head_on_a_flange_is_square_after_its_shim():
    """Turned about the upper bolts by thickness over spacing, the front comes up by the lean."""
    needed = shim(0.080, 200.0, SHIMMED)
    angle = math.asin(needed.thickness_mm / 250.0)
    assert 0.080 - 200.0 * math.tan(angle) == pytest.approx(0.0, abs=1e-8)


@given(differences.filter(bool), st.floats(50.0, 400.0))
@settings(derandomize=True)
def test_the_other_way_the_same_shim_goes_in_the_other_place(d, diameter):
    one, other = shim(d, diameter, SHIMMED), shim(-d, diameter, SHIMMED)
    assert one.thickness_mm == other.thickness_mm >= 0.0
    assert {one.place, other.place} == set(SHIMMED.shim_places)


def test_without_the_spacing_there_is_no_shim():
    with pytest.raises(ValueError, match="bolt_spacing: found none"):
        shim(0.08, 200.0, Adjust())


@given(differences.filter(bool), shelves, st.sampled_from([120.0, 200.0]))
@example(0.35, [50, 300], 250.0)
@example(0.35, [100, 250, 300, 50], 250.0)
@settings(derandomize=True)
def test_of_those_there_are_no_one_or_two_come_nearer(d, microns, diameter):
    """Against every one and every two of them; places and sign as with any thickness."""
    adjust = Adjust("shim", bolt_spacing=250.0, shims=tuple(each / 1000.0 for each in microns))
    found, wanted = shim(d, diameter, adjust), shim(d, diameter, SHIMMED)
    pairs = combinations_with_replacement(microns, 2)
    every = [*microns, *(sum(pair) for pair in pairs)]
    nearest = min(abs(each / 1000.0 - wanted.thickness_mm) for each in every)
    assert abs(found.thickness_mm - wanted.thickness_mm) == pytest.approx(nearest, abs=2e-6)
    assert found.place == wanted.place
    assert found.thickness_mm == pytest.approx(sum(found.stack))
    assert {*found.stack} <= {*adjust.shims}
    # What it leaves and what it takes are the difference.
    takes = math.copysign(found.thickness_mm / 250.0 * diameter, d)
    assert takes + found.leaves_mm == pytest.approx(d, abs=1e-12)


@given(differences.filter(bool), st.integers(5, 100))
@settings(derandomize=True)
def test_of_a_step_no_multiple_comes_nearer(d, microns):
    adjust = Adjust("shim", bolt_spacing=250.0, shim_step=microns / 1000.0)
    found, needed = shim(d, 200.0, adjust), thickness(d, 200.0, adjust)
    counts = found.thickness_mm / adjust.shim_step
    assert counts == pytest.approx(round(counts), abs=1e-6)
    assert round(counts) >= 1
    assert (
        abs(found.thickness_mm - needed)
        <= max(0.5 * adjust.shim_step, adjust.shim_step - needed) + 1e-6
    )
    assert len(found.stack) == 1


def test_one_is_taken_before_two_and_a_thick_one_with_a_thin_one_before_two_alike():
    adjust = Adjust("shim", bolt_spacing=200.0, shims=(0.05, 0.15, 0.2, 0.3, 0.35))
    assert shim(0.35, 200.0, adjust).stack == (0.35,)
    assert shim(0.4, 200.0, adjust).stack == (0.35, 0.05)
    told = shim(-0.4, 200.0, adjust)
    assert en(say_shim(told, "mm")) == "0.350 + 0.050 shims behind the upper bolts"


def test_without_a_shelf_any_thickness_leaves_nothing():
    told = shim(0.123, 200.0, SHIMMED)
    assert (told.stack, told.leaves_mm, told.word) == ((), 0.0, None)


@pytest.mark.parametrize(
    ("off", "leaves", "word", "worth"),
    [
        (0.026, -0.024, "out", False),
        (0.025, 0.025, "out", False),
        (0.020, -0.030, "out", False),
        (0.200, 0.024, "out", True),
        (-0.020, 0.005, "out", True),
        (0.016, 0.002, "close", True),
        (0.016, 0.015, "close", False),
        (0.016, 0.000, "in", False),
    ],
)
def test_no_shim_goes_in_that_betters_nothing(off, leaves, word, worth):
    """The limit 0.017, 0.014 of it inside for sure, readings within 0.002."""
    assert worth_shimming(off, leaves, 0.014, 0.002, word) is worth


def test_where_nothing_can_be_called_in_it_goes_in_to_bring_the_axis_nearer():
    assert worth_shimming(0.2, 0.01, -0.001, 0.002, "out")
    assert not worth_shimming(0.011, 0.01, -0.001, 0.002, "out")
