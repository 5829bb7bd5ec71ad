"""What an axis does when the hand leaves it, and how near a hand stops, against numpy's own."""

import math
from dataclasses import replace

import numpy as np
import pytest

from daq.squaring.equations import REST
from daq.squaring.response import stand
from daq.squaring.resting import RESTS, STOPS, fell_back, late_by, share
from daq.squaring.story import Happened, Seen
from daq.squaring.tightening import ShiftStats, scatter_of
from daq.words import AXES, OPPOSITE, PARKED
from tests.squaring.heads import QUIET, SCATTER, PlainHead, prior

TRUTH = (0.0, 0.0, 400.0, 150.0, 0.0, 400.0, 0.0, 0.0, 4e-5, 4e-5, 0.0, 0.0)


def let_go(axis, turns, radius=100.0, truth=TRUTH, seed=3, parked=None):
    """A head of next to no other scatter: turned so often, let go under the gauge, and checked."""
    head = PlainHead(radius, QUIET, np.random.default_rng(seed), truth=truth).sweep()
    place = parked or PARKED[axis]
    for slope in turns:
        head.read(place).move(axis, slope, read=place).read(place, stays=True)
        head.read(OPPOSITE[place])
    return head


def found(head, scatter=SCATTER):
    return stand(tuple(head.story), prior(), head.radius_mm, QUIET, scatter).answering


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("turns", [[1e-3], [1e-3, -4e-4], [-1e-3, 6e-4, 3e-4, -2e-4, 1e-4]])
def test_the_mean_is_that_of_least_squares_with_the_prior_as_one_more_row(axis, turns):
    """numpy's least squares on what truly came back, each against the way it was turned."""
    own, head = AXES.index(axis), let_go(axis, turns)
    leans = [stood[own] for stood in head.stood]
    part = share(head.radius_mm, (0.0, 150.0)[own])
    back = [
        (turned - now) * math.copysign(1.0, slope) / part
        for slope, turned, now in zip(turns, leans[1::2], leans[2::2], strict=True)
    ]
    rows = np.array([*[1.0 / RESTS.scatter] * len(back), 1.0 / RESTS.mean_sd])[:, None]
    aims = np.array([*(each / RESTS.scatter for each in back), 0.0])
    mean, *_ = np.linalg.lstsq(rows, aims, rcond=None)
    known = found(head)
    assert known.rest(axis) == pytest.approx(mean[0], rel=2e-3, abs=2e-8)
    assert known.rest_doubt(axis) == pytest.approx(1.0 / np.linalg.norm(rows), rel=1e-3)
    other = AXES[1 - own]
    assert known.rest_doubt(other) == pytest.approx(RESTS.mean_sd, rel=1e-6)
    # The height of its pivot, of which it knows nothing, is a hundredth part of this.
    seen_back = list(fell_back(tuple(head.story), axis, 100.0, (0.0, 150.0)[own]))
    assert seen_back == pytest.approx(back, rel=1e-2)


def test_one_move_is_enough_for_eight_microns():
    """8 µm at the parked gauge, 100 mm out: nine tenths of it are known after the first move."""
    rest = 0.008 / 100.0 / share(100.0, 0.0)
    head = let_go("side", [2e-3], truth=(*TRUTH[:8], rest, 0.0, 0.0, 0.0))
    (back,) = fell_back(tuple(head.story), "side", 100.0, 0.0)
    assert found(head).rest("side") > 0.9 * back > 0.7 * rest


@pytest.mark.parametrize("axis", AXES)
def test_parked_across_it_is_the_same(axis):
    """At the back a gauge sees a pivot 150 mm behind from its other side, the other way round."""
    head = let_go(axis, [1e-3, -1e-3], parked=OPPOSITE[PARKED[axis]])
    for back in fell_back(tuple(head.story), axis, 100.0, (0.0, 150.0)[AXES.index(axis)]):
        assert back == pytest.approx(4e-5, abs=3.5 * RESTS.scatter)


def test_a_turn_of_which_nobody_knows_the_way_teaches_no_mean():
    head = let_go("nod", [1e-3, 1e-3])
    head.story = [replace(e, way=0) if isinstance(e, Happened) else e for e in head.story]
    known = found(head)
    assert known.rest("nod") == pytest.approx(0.0, abs=1e-8)
    assert known.rest_doubt("nod") == pytest.approx(RESTS.mean_sd, rel=1e-6)
    assert not list(fell_back(tuple(head.story), "nod", 100.0, 150.0))


@pytest.mark.parametrize(
    "after",
    [
        Happened("zeroed"),
        Happened("unknown"),
    ],
)
def test_only_what_the_gauge_saw_with_nothing_done_between_is_counted(after):
    told = (Seen("front", 0.2, stays=True), Happened("rested", "nod", 1), after)
    assert not list(fell_back((*told, Seen("front", 0.1)), "nod", 100.0, 150.0))
    seen = (*told[:2], Seen("back", 0.3), Seen("front", 0.19), Seen("front", 0.1))
    (back,) = fell_back(seen, "nod", 100.0, 150.0)
    assert back == pytest.approx(0.01 / 250.0 / math.sqrt(200.0 / 250.0))
    assert not list(fell_back(seen, "side", 100.0, 0.0))


def test_over_the_pivot_nothing_is_seen_of_it():
    seen = (Seen("back", 0.2), Happened("rested", "nod", 1), Seen("back", 0.1, stays=True))
    assert not list(fell_back(seen, "nod", 100.0, 95.0))
    assert list(fell_back(seen, "nod", 100.0, 0.0))


def test_the_unit_lies_half_way_between_an_angle_and_what_the_gauge_sees():
    """From 60 to 150 mm a gauge sees 2.5 times as much; it is off by the root of it either way."""
    near, far = share(60.0, 0.0), share(150.0, 0.0)
    assert near / far == pytest.approx(math.sqrt(2.5))
    assert share(100.0, 100.0) == share(100.0, -100.0) == pytest.approx(1.0)


@pytest.mark.parametrize("radius", [60.0, 100.0, 150.0])
def test_what_is_said_of_the_doubt_is_so(radius):
    """The scores of both axes of 60 heads drawn from the prior: their scatter is one."""
    rng, known, off = np.random.default_rng(int(radius)), prior(), []
    for _ in range(60):
        truth = rng.multivariate_normal(known.mean, known.covariance)
        axis = AXES[rng.integers(2)]
        head = let_go(axis, rng.normal(0.0, 1e-3, 2), radius, truth, int(rng.integers(1e9)))
        answers = found(head)
        off.append((answers.rest(axis) - truth[REST[axis]]) / answers.rest_doubt(axis))
    assert 0.8 < np.std(off) < 1.2
    assert abs(np.mean(off)) < 4.0 / math.sqrt(len(off))


def seen(values):
    stats = ShiftStats()
    for value in values:
        stats = stats.after(value)
    return stats


def test_a_hand_that_is_late_each_time_is_known_by_it():
    late = seen([0.006, 0.0058, 0.0061])
    assert late_by(late, scatter_of(late, STOPS)) == pytest.approx(late.mean, rel=0.03)
    assert late_by(ShiftStats(), STOPS.scatter) == 0.0


def test_a_hand_that_only_scatters_is_hardly_corrected():
    """Against the mean taken as it is: less than a third of its square, on average."""
    rng, shrunk, plain = np.random.default_rng(5), [], []
    for _ in range(400):
        stats = seen(rng.uniform(-0.002, 0.002, rng.integers(1, 6)))
        shrunk.append(late_by(stats, scatter_of(stats, STOPS)) ** 2)
        plain.append(stats.mean**2)
    assert np.mean(shrunk) < np.mean(plain) / 3.0


def test_a_wide_hand_is_not_taken_for_a_late_one():
    stats = seen([0.012, -0.009, 0.014, 0.003, -0.013])
    wide = scatter_of(stats, STOPS)
    assert wide > 0.007
    assert late_by(stats, wide) == 0.0
