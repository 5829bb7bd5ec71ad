"""What is learned of a head, and how sure one may be of it."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from scipy import stats

from daq.squaring.equations import FIRST, SHIFT, Doubt, Scatter
from daq.squaring.recognise import surprise
from daq.squaring.response import stand
from daq.squaring.story import Happened, Seen
from daq.squaring.tightening import HEADS
from daq.words import AXES, POSITIONS
from tests.benchmarks.heads.rigid import Hinge
from tests.squaring.heads import QUIET, SCATTER, PlainHead, RigidHead, prior

DOUBT = Doubt(0.0007, 0.0003)


def stood(head, known, doubt=None, scatter=SCATTER):
    return stand(tuple(head.story), known, head.radius_mm, doubt or head.doubt, scatter)


SIDE = Hinge(-20.0, 60.0, 420.0, 0.03)
NOD = Hinge(35.0, 180.0, 360.0, -0.02)
# P is −x + κ·y for side and +y − κ·x for nod: the distance of the hinge line's trace.
RIGHT = (20.0 + 0.03 * 60.0, 0.03, 420.0, 180.0 + 0.02 * 35.0, -0.02, 360.0)
WIDE = prior((50.0, 100.0), 0.1)


def rigid(radius, seed=1):
    rng = np.random.default_rng(seed)
    return RigidHead(radius, QUIET, rng, side=SIDE, nod=NOD)


@cache
def learned_at(radius):
    """Each axis turned to and fro, at first far and then near, and checked all round."""
    head = rigid(radius).sweep()
    for side, nod in ((0.004, 0.005), (-0.008, -0.009), (0.005, 0.003)):
        for axis, angle in (("side", side), ("nod", nod)):
            parked = "front" if axis == "nod" else "right"
            head.read(parked).move(axis, angle, read=parked).sweep()
    # Rotations of both axes do not quite add up: some 0.1 µm at these angles.
    bent = Doubt(1e-5, 1e-5, 2e-4, 1e-4, 2e-4)
    return stood(head, WIDE, bent)


@pytest.mark.parametrize("radius", [60.0, 100.0, 150.0])
def test_the_six_of_an_exact_rotation_come_out_right_at_any_radius(radius):
    found = learned_at(radius).answering
    for axis in AXES:
        pivot, coupling, height = RIGHT[FIRST[axis] : FIRST[axis] + 3]
        assert found.pivot_mm(axis) == pytest.approx(pivot, abs=0.05)
        assert found.coupling(axis) == pytest.approx(coupling, abs=1e-5)
        assert found.height_mm(axis) == pytest.approx(height, abs=15.0)
        assert found.pivot_doubt_mm(axis) < 0.05


@pytest.mark.parametrize(("axis", "parked"), [("side", "right"), ("nod", "front")])
def test_what_was_learned_at_one_radius_predicts_at_another(axis, parked):
    """Learned at 60 mm; at 150 mm one parked reading then tells both leans of a move."""
    head = rigid(150.0, seed=2)
    head.stand(side=0.003, nod=-0.002).sweep().read(parked).move(axis, -0.004, read=parked)
    learned = learned_at(60.0).answering
    found = stood(head, learned, Doubt(1e-5, 1e-5, 2e-4, 1e-4, 2e-4))
    for each, lean in zip(AXES, head.leans(), strict=True):
        assert found.lean(each) == pytest.approx(lean, abs=0.0005 / 300.0)
    for position in POSITIONS:
        assert found.reading(position)[0] == pytest.approx(head.true_mm(position), abs=0.0007)


def test_the_prior_alone_would_have_been_out_by_far_more():
    """The same move with nothing learned: it is the learning that tells."""
    head = rigid(150.0, seed=2)
    head.sweep().read("front").move("nod", -0.004, read="front")
    found = stood(head, prior(), DOUBT)
    assert abs(found.lean("nod") - head.leans()[1]) * 300.0 > 0.05
    assert abs(found.lean("nod") - head.leans()[1]) < 3.0 * found.lean_doubt("nod")


def first_audit(rng, known):
    """A head drawn from what is said of heads, squared once as a machinist would."""
    truth = rng.multivariate_normal(known.mean, known.covariance)
    start = [*rng.normal(0.0, 0.0015, 2), 1.0]
    head = PlainHead(100.0, DOUBT, rng, truth=truth, at=start).sweep()
    for axis, parked in (("nod", "front"), ("side", "right"), ("nod", "front")):
        head.read(parked, stays=head.story[-1].position == parked)
        own = AXES.index(axis)
        head.move(axis, -head.at[own] + rng.normal(0.0, 2e-4), read=parked)
        head.pair(axis, parked).tighten(axis).read(parked, stays=True).pair(axis, parked)
    return head.zero(rng.normal(0.0, 1.0)).sweep()


@cache
def scores():
    """What 400 heads were out by, in doubts of the twelve and the leans, and squared together."""
    rng, known = np.random.default_rng(20), prior()
    single, together = [], []
    for _ in range(400):
        head = first_audit(rng, known)
        found = stood(head, known)
        off = found.values - [*head.truth, *head.at]
        single.append(off / np.sqrt(np.diag(found.covariance)))
        twelve = found.covariance[:12, :12]
        together.append(off[:12] @ np.linalg.solve(twelve, off[:12]))
    return np.array(single), np.array(together)


QUANTITIES = {
    "pivot": [FIRST["side"], FIRST["nod"]],
    "coupling": [FIRST["side"] + 1, FIRST["nod"] + 1],
    "shift": [SHIFT["side"], SHIFT["nod"]],
    "rest": [8, 9],
    "late": [10, 11],
    "lean": [12, 13],
}


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_what_is_said_of_the_doubt_is_so(quantity):
    """The scores of both axes of 400 heads: their scatter is one, and they are normal."""
    found = scores()[0][:, QUANTITIES[quantity]].ravel()
    assert 0.9 < np.std(found) < 1.1
    assert abs(np.mean(found)) < 4.0 / math.sqrt(len(found))
    assert stats.kstest(found, "norm").pvalue > 0.01


def test_the_doubts_of_the_twelve_belong_together():
    """The squared distances of all twelve follow chi-squared with twelve (textbook)."""
    assert stats.kstest(scores()[1], "chi2", args=(12,)).pvalue > 0.01


def test_a_doubt_said_wrong_would_have_been_seen():
    """The same heads with readings twice as scattered as is said: the leans' scores tell."""
    rng, known, off = np.random.default_rng(21), prior(), []
    for _ in range(60):
        head = first_audit(rng, known)
        found = stood(head, known, Doubt(0.00035, 0.00015))
        off += [(found.lean(a) - head.at[i]) / found.lean_doubt(a) for i, a in enumerate(AXES)]
    assert np.std(off) > 1.3


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("times", [1, 2, 5])
def test_the_mean_shift_is_shrunk_by_its_doubt(axis, times):
    """n·s₀²/(n·s₀² + s²) of what was seen, and the doubt s₀·s/√(n·s₀² + s²), when nothing
    scatters but the shifts themselves (textbook: normal mean, normal prior)."""
    shift, n = 3e-5, times
    head = PlainHead(100.0, QUIET, np.random.default_rng(5)).sweep()
    parked = "front" if axis == "nod" else "right"
    for _ in range(times):
        own = AXES.index(axis)
        head.happened("tightened", axis).at[own] += shift
        head.pair(axis, parked)
    found = stood(head, prior()).answering
    s0, s = HEADS.mean_sd, HEADS.scatter
    known = n * s0 * s0 + s * s
    assert found.shift(axis) == pytest.approx(n * s0 * s0 / known * shift, rel=1e-3)
    assert found.shift_doubt(axis) == pytest.approx(s0 * s / math.sqrt(known), rel=1e-3)
    other = AXES[1 - AXES.index(axis)]
    assert found.shift(other) == pytest.approx(0.0, abs=1e-9)
    assert found.shift_doubt(other) == pytest.approx(s0, rel=1e-6)


def test_shifts_that_lie_wide_apart_are_believed_less():
    """The scatter is given from outside; with twice as much the mean is less sure."""
    head = PlainHead(100.0, QUIET, np.random.default_rng(5)).sweep()
    head.happened("tightened", "nod").at[1] += 3e-5
    head.pair("nod", "front")
    near, wide = (
        stood(
            head, prior(), scatter=dict.fromkeys(AXES, Scatter(part * HEADS.scatter, 0.0))
        ).answering
        for part in (1.0, 4.0)
    )
    assert wide.shift("nod") < near.shift("nod") < 3e-5
    assert wide.shift_doubt("nod") > near.shift_doubt("nod")


TRUTH = (0, 0, 400, 150, 0, 400, *[0] * 6)


def at_rest(known):
    """The same of a head that is known to stay where it is let go."""
    rows = np.array(known.covariance)
    rows[range(8, 12), range(8, 12)] = 1e-18
    return replace(known, covariance=tuple(map(tuple, rows.tolist())))


def two_moves(*between):
    """Side turned, then nod, then a sweep; `between` the two moves these places are read."""
    head = PlainHead(100.0, DOUBT, np.random.default_rng(8), truth=TRUTH)
    head.at = [0.003, 0.003, 1.0]
    head.sweep().read("right").move("side", -0.003, read="right").read(*between)
    head.move("nod", -0.003, read="front").sweep()
    return stood(head, at_rest(prior((40.0, 40.0), 0.2))).answering


def correlation(found, one, other):
    rows = found.covariance
    return rows[one][other] / math.sqrt(rows[one][one] * rows[other][other])


def test_two_moves_with_nothing_between_cannot_tell_coupling_from_pivot_distance():
    """How far side's pivot is and how nod follows into side go wholly together: neither is
    known, only what one is if the other were. One reading between them is not enough."""
    for blind in (two_moves(), two_moves("front")):
        assert correlation(blind, FIRST["side"], FIRST["nod"] + 1) > 0.998
        assert blind.pivot_doubt_mm("side") > 10.0
        assert blind.coupling_doubt("nod") > 0.1


def test_a_pair_check_between_two_moves_tells_them_apart():
    seeing = two_moves("left", "right")
    assert abs(correlation(seeing, FIRST["side"], FIRST["nod"] + 1)) < 0.2
    assert seeing.pivot_doubt_mm("side") < 0.5
    assert seeing.coupling_doubt("nod") < 0.004
    # Side's own following waits for a reading across from it, which parking for nod is.
    assert seeing.coupling_doubt("side") > 0.1
    arrived = two_moves("left", "right", "front")
    assert arrived.coupling_doubt("side") < 0.005
    assert arrived.pivot_doubt_mm("nod") < 1.0


def with_zeros(by_mm, times=1):
    """An audit in which the gauge is zeroed after the first pair check."""
    head = PlainHead(100.0, DOUBT, np.random.default_rng(11), truth=TRUTH)
    head.at = [0.002, -0.003, 1.0]
    head.sweep().read("front", stays=True).move("nod", 0.003, read="front").pair("nod", "front")
    for _ in range(times):
        head.zero(by_mm)
    return head.read("front", stays=True).sweep()


def apart(one, other):
    """How far two covariances differ, in parts of the doubts; the middle's own zero apart."""
    doubts = np.sqrt(np.diag(other.covariance))
    return np.max(np.abs((one.covariance - other.covariance) / np.outer(doubts, doubts))[:-1, :-1])


def unzeroed():
    head = with_zeros(0.0)
    head.story = [entry for entry in head.story if entry != Happened("zeroed")]
    return head


@pytest.mark.parametrize("by_mm", [-1.0, 0.02, 3.0])
def test_a_zero_between_readings_changes_no_lean_and_no_doubt(by_mm):
    """However far the zero went: beside the doubt of any reading, 20 mm hold nothing."""
    one, other = (stood(with_zeros(by), prior()) for by in (0.0, by_mm))
    off = (other.values - one.values) / np.sqrt(np.diag(one.covariance))
    assert np.max(np.abs(off[:-1])) < 1e-6
    assert other.values[-1] - one.values[-1] == pytest.approx(by_mm, abs=1e-5)
    assert apart(other, one) < 1e-5


def test_a_zero_costs_exactly_one_unknown():
    """One direction is freed: all doubts together grow by a matrix of rank one (textbook),
    but for where the two stories' answers lie apart."""
    head = with_zeros(0.7)
    found, plain = stood(head, prior()), stood(unzeroed(), prior())
    at = head.story.index(Happened("zeroed"))
    assert sum(isinstance(entry, Seen) for entry in head.story[at:]) == 5
    grown = (found.covariance - plain.covariance)[:-1, :-1]
    scale = np.sqrt(np.diag(plain.covariance))[:-1]
    sizes = np.linalg.svd(grown / np.outer(scale, scale), compute_uv=False)
    assert sizes[0] > 0.01
    assert sizes[1] < 0.005 * sizes[0]


def test_a_second_zero_at_once_costs_nothing_more():
    once, twice = (stood(with_zeros(0.3, times), prior()) for times in (1, 2))
    assert apart(twice, once) < 1e-4


def test_a_move_no_gauge_saw_may_have_turned_its_axis_by_anything_and_no_more():
    """A shim goes in while gauge and arm are away: as far as any head ever stood out, 20 mm."""
    head = rigid(100.0).sweep()
    head.story += [Happened("moved", "nod"), Happened("rested", "nod"), Happened("zeroed")]
    at = stood(head, WIDE, DOUBT)
    assert at.lean_doubt("nod") * 200.0 == pytest.approx(20.0, rel=0.01)
    pair = Seen("back", 1.0), Seen("front", 1.3)
    assert 0.0 < surprise(at, pair, DOUBT.reading_mm) < 1.0
