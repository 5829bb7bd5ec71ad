"""What a head starts from, and what is carried from audit to audit."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.settings import build, plain
from daq.squaring.equations import FIRST, Doubt
from daq.squaring.learned import AxisPrior, Learned, from_file
from daq.squaring.response import Answering, stand
from daq.squaring.resting import LATER, RESTS
from daq.squaring.tightening import HEADS, ShiftStats
from daq.words import AXES, PARKED, Both
from tests.benchmarks.heads.rigid import Hinge, swung
from tests.squaring.heads import QUIET, SCATTER, PlainHead, RigidHead

SIDE = AxisPrior(12.0, 5.0, 420.0, 75.0, 0.0, 0.02)
NOD = AxisPrior(180.0, 40.0, 360.0, 60.0, 0.0, 0.03)
ANGLES = [-15.0, -5.0, 0.0, 5.0, 15.0]
angles = st.floats(-0.5, 0.5)


def test_what_a_file_says_is_worked_out_once():
    """A decision asks for it at every turn of its way."""
    one, again = (from_file(Both(replace(SIDE), replace(NOD)), 0.1, 0.0) for _ in range(2))
    assert one is again
    assert one != from_file(Both(SIDE, NOD), 0.2, 0.0)


def answers(ram_deg, couplings=(0.0, 0.0), radius=100.0):
    """How the hinge lines of a swung ram answer, by tiny turns of exact rotations: P and κ.

    Side's line passes 12 mm left of the spindle, nod's 180 mm behind it.
    """
    straight = Hinge(-12.0, 0.0, 420.0, couplings[0]), Hinge(0.0, 180.0, 360.0, couplings[1])
    hinges = swung(*straight, math.radians(ram_deg))
    head = RigidHead(radius, QUIET, np.random.default_rng(1), *hinges)
    found = {}
    for axis in AXES:
        ends = []
        for angle in (1e-5, -1e-5):
            head.stand(**{axis: angle})
            ends.append((*head.leans(), head.middle_mm()))
        side, nod, middle = np.subtract(*ends)
        own, other = (side, nod) if axis == "side" else (nod, side)
        found[axis] = (middle / own, other / own)
    return found


@pytest.mark.parametrize("radius", [60.0, 150.0])
@pytest.mark.parametrize("ram_deg", ANGLES)
def test_a_swung_ram_is_a_rotation_of_the_hinge_lines(ram_deg, radius):
    prior = from_file(Both(SIDE, NOD), math.radians(ram_deg), 0.0).answering
    for axis, (pivot, coupling) in answers(ram_deg, radius=radius).items():
        assert prior.pivot_mm(axis) == pytest.approx(pivot, rel=1e-6)
        assert prior.coupling(axis) == pytest.approx(coupling, abs=1e-8)


@pytest.mark.parametrize("ram_deg", ANGLES)
def test_a_heads_own_coupling_beside_the_rams_is_right_within_its_doubt(ram_deg):
    """The file's and the tangent are added; two slants do not quite add up."""
    side, nod = replace(SIDE, coupling=0.02), replace(NOD, coupling=-0.02)
    prior = from_file(Both(side, nod), math.radians(ram_deg), 0.0).answering
    for axis, (pivot, coupling) in answers(ram_deg, (0.02, -0.02)).items():
        assert abs(prior.coupling(axis) - coupling) < 0.1 * prior.coupling_doubt(axis)
        assert abs(prior.pivot_mm(axis) - pivot) < 0.1 * prior.pivot_doubt_mm(axis)


def test_an_anticlockwise_ram_turns_nod_partly_into_side():
    prior = from_file(Both(SIDE, NOD), math.radians(15.0), 0.0).answering
    assert prior.coupling("nod") == pytest.approx(0.267949, abs=1e-6)
    assert prior.coupling("side") == pytest.approx(-0.267949, abs=1e-6)
    assert prior.pivot_mm("nod") == pytest.approx(180.0 / 0.9659258, abs=1e-4)


def test_the_file_is_the_prior_of_a_square_ram():
    side, nod = replace(SIDE, coupling=0.01), replace(NOD, coupling=-0.03)
    known = from_file(Both(side, nod), 0.0, 0.0)
    assert known.answering.mean == (12.0, 0.01, 420.0, 180.0, -0.03, 360.0, *[0] * 6)
    doubts = np.sqrt(np.diag(known.answering.covariance))
    told = [
        5.0,
        0.02,
        75.0,
        40.0,
        0.03,
        60.0,
        *[HEADS.mean_sd] * 2,
        *[RESTS.mean_sd] * 2,
        *[LATER.mean_sd] * 2,
    ]
    assert doubts == pytest.approx(told, rel=1e-12)
    assert np.count_nonzero(known.answering.covariance) == 12
    assert (known.audits, known.shift_stats.side, known.shift_stats.nod) == (
        0,
        ShiftStats(),
        ShiftStats(),
    )
    assert known.rest_stats == known.stop_stats == Both(ShiftStats(), ShiftStats())


def test_nothing_is_expected_of_tightening_beforehand():
    prior = from_file(Both(SIDE, NOD), 0.1, 0.0).answering
    for axis in AXES:
        assert prior.shift(axis) == 0.0
        assert prior.shift_doubt(axis) == pytest.approx(HEADS.mean_sd)


@given(angles, angles)
@settings(derandomize=True)
def test_the_ram_it_was_for_is_remembered(ram, file_ram):
    known = from_file(Both(SIDE, NOD), ram, file_ram)
    assert (known.ram, known.file_ram) == (ram, file_ram)


@given(angles)
@settings(derandomize=True)
def test_a_mirrored_ram_couples_the_other_way_and_pivots_as_far(ram):
    one, other = (from_file(Both(SIDE, NOD), angle, 0.0).answering for angle in (ram, -ram))
    for axis in AXES:
        assert other.coupling(axis) == pytest.approx(-one.coupling(axis))
        assert other.pivot_mm(axis) == pytest.approx(one.pivot_mm(axis))
        assert other.height_mm(axis) == one.height_mm(axis)


def knowing(seed):
    """A head of which something was learned: any covariance with all of it correlated."""
    rng = np.random.default_rng(seed)
    scale = np.array([1.0, 1e-3, 20.0, 3.0, 1e-3, 20.0, *[5e-6] * 6])
    root = rng.normal(0.0, 1.0, (12, 12)) * scale[:, None]
    rows = tuple(tuple(row) for row in (root @ root.T).tolist())
    answering = Answering(tuple(rng.normal(0.0, scale).tolist()), rows)
    return Learned(
        answering, 0.1, 0.05, 3, Both(ShiftStats(4, 1e-5, 1e-12), ShiftStats(2, -1e-5, 1e-13))
    )


@pytest.mark.parametrize("seed", range(5))
def test_carrying_only_widens(seed):
    """What is added is a covariance of its own: no combination of the twelve gets surer."""
    known = knowing(seed)
    before, after = (np.array(k.answering.covariance) for k in (known, known.carried()))
    added = after - before
    assert np.all(np.linalg.eigvalsh(added) > 0.0)
    assert np.count_nonzero(np.abs(added - np.diag(np.diag(added))) > 1e-9 * np.abs(before)) == 0
    assert np.all(np.diag(after) > np.diag(before))


@pytest.mark.parametrize("seed", range(5))
def test_carrying_changes_nothing_but_the_doubt(seed):
    known = knowing(seed)
    carried = known.carried()
    assert carried.answering.mean == known.answering.mean
    put_back = replace(carried, answering=known.answering)
    assert put_back == known


def test_carried_often_it_is_known_no_worse_than_a_tape_measures():
    """Ten audits on: the pivot is still known to a millimetre, the coupling to 0.001."""
    known = knowing(0)
    row = tuple(tuple(1e-12 * (i == j) for j in range(12)) for i in range(12))
    known = replace(known, answering=replace(known.answering, covariance=row))
    for _ in range(10):
        known = known.carried()
    for axis in AXES:
        assert 0.1 < known.answering.pivot_doubt_mm(axis) < 1.0
        assert known.answering.coupling_doubt(axis) < 0.001
        assert known.answering.shift_doubt(axis) < HEADS.mean_sd


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("seed", range(3))
def test_of_a_pivot_on_the_other_side_nothing_is_known_any_more(axis, seed):
    """Wherever a pivot can be; what is known of the rest stays, and goes with it no longer."""
    known = knowing(seed)
    unsure = known.unsure_of(axis)
    at = FIRST[axis]
    rest = [i for i in range(12) if i != at]
    before, after = (np.array(k.answering.covariance) for k in (known, unsure))
    assert np.array_equal(after[np.ix_(rest, rest)], before[np.ix_(rest, rest)])
    assert not after[at, rest].any() and not after[rest, at].any()
    assert unsure.answering.pivot_doubt_mm(axis) >= 300.0
    assert np.all(np.linalg.eigvalsh(after / np.outer(*[np.sqrt(np.diag(after))] * 2)) > 0.0)
    assert replace(unsure, answering=known.answering) == known
    assert unsure.answering.mean == known.answering.mean


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("pivot", [-250.0, -40.0, 400.0])
def test_one_move_and_its_check_find_a_pivot_of_which_nothing_is_known(axis, pivot):
    """The file has it 12 and 180 away; the readings scatter by a micrometre each."""
    truth = [12.0, 0.0, 420.0, 180.0, 0.0, 360.0, *[0.0] * 6]
    truth[FIRST[axis]] = pivot
    doubt = Doubt(0.0007, 0.0007)
    head = PlainHead(100.0, doubt, np.random.default_rng(6), truth=truth, at=[0.002, 0.002, 1.0])
    place = PARKED[axis]
    head.sweep().read(place).move(axis, -0.002, read=place).pair(axis, place)
    prior = from_file(Both(SIDE, NOD), 0.0, 0.0).unsure_of(axis).answering
    found = stand(tuple(head.story), prior, 100.0, doubt, SCATTER).answering
    assert found.pivot_mm(axis) == pytest.approx(pivot, abs=3.0)
    assert abs(found.pivot_mm(axis) - pivot) < 3.0 * found.pivot_doubt_mm(axis)


def test_what_is_known_survives_a_record():
    known = knowing(2)
    assert build(Learned, plain(known), "row", quantities="plain") == known
