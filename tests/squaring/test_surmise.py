"""What must have happened is told from the readings alone, on heads to which it was done."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from daq.squaring.equations import Doubt
from daq.squaring.learned import swung
from daq.squaring.response import stand
from daq.squaring.surmise import Riddle, as_if, surmise
from daq.words import AXES, OPPOSITE
from tests.benchmarks.heads.rigid import Hinge
from tests.benchmarks.heads.rigid import swung as on_a_swung_ram
from tests.squaring.heads import SCATTER, PlainHead, RigidHead, prior

DOUBT = Doubt(0.0007, 0.0003)
RADIUS = 100.0
ENDS_WHERE_IT_BEGAN = ("right", "back", "left", "front")
TRUTH = (0.0, 0.0, 400.0, 150.0, 0.0, 400.0, *(0.0,) * 4)


def plain(truth=TRUTH, seed=3, at=(0.001, 0.002, 1.0)):
    head = PlainHead(RADIUS, DOUBT, np.random.default_rng(seed), truth=truth, at=list(at))
    return head.read(*ENDS_WHERE_IT_BEGAN).read("front")


def riddle(head, began, known=None, **more):
    story = tuple(head.story)
    parts = story[:began], story[began:]
    return Riddle(*parts, known or prior(), RADIUS, DOUBT, SCATTER, **more)


def nodded(head, slope=-0.002):
    """The nod moved to its stop, and its pair read."""
    return head.move("nod", slope, "front").pair("nod", "front")


def sides(head):
    """The side's pair, as it stands after a nod; where it begins."""
    began = len(head.story)
    return head.pair("side", "right"), began


@pytest.mark.parametrize(
    "doubts", [((5.0, 40.0), 0.02), ((0.3, 0.5), 0.001)], ids=["file", "taught"]
)
def test_the_evidence_of_readings_is_their_density_given_what_came_before(doubts):
    """Against scipy's multivariate normal, by what `stand` expected of them."""
    head = plain().move("nod", -0.002, "front")
    known, began = prior(*doubts), len(head.story)
    before = stand(tuple(head.story), known, RADIUS, DOUBT, SCATTER, weighs=True)
    told = tuple(head.pair("nod", "front").story)
    after = stand(told, known, RADIUS, DOUBT, SCATTER, weighs=True)
    seen = head.story[began:]
    means, rows = zip(*(before.weights(entry.position) for entry in seen), strict=True)
    spread = np.array(rows) @ before.covariance @ np.array(rows).T
    spread += DOUBT.reading_mm**2 * np.eye(2)
    density = multivariate_normal.logpdf([entry.pushed_mm for entry in seen], means, spread)
    told = after.evidence - before.evidence - math.log(2.0 * math.pi)
    assert told == pytest.approx(density, abs=0.02)


def test_the_evidence_of_a_sweep_alone_knows_nothing_of_the_head():
    """Three of four readings fix leans and middle; what is left is the spare's, by scipy."""
    head = plain()
    story = tuple(head.story[:4])
    told = stand(story, prior(), RADIUS, DOUBT, SCATTER, weighs=True).evidence
    front, right, back, left = (
        next(e.pushed_mm for e in story if e.position == p)
        for p in ("front", "right", "back", "left")
    )
    spare = 0.5 * (front + back - right - left)
    sd = DOUBT.reading_mm
    # Leans and middle have no density: 2πσ² to the 3/2, by their design's determinant.
    design = np.array([[0, 100, 1], [100, 0, 1], [0, -100, 1], [-100, 0, 1]], dtype=float)
    free = 1.5 * math.log(sd * sd) - 0.5 * np.linalg.slogdet(design.T @ design)[1]
    density = multivariate_normal.logpdf(spare, 0.0, sd * sd) + 0.5 * math.log(2.0 * math.pi)
    density += math.log(sd) + free - 4.0 * math.log(sd)
    assert told == pytest.approx(density, abs=1e-6)


@pytest.mark.parametrize("deg", [30.0, -15.0, 8.0, 50.0])
def test_a_swung_ram_is_told_with_its_angle(deg):
    hinges = Hinge(0.0, 0.0, 400.0), Hinge(0.0, 150.0, 400.0)
    hinges = on_a_swung_ram(*hinges, math.radians(deg))
    head = RigidHead(RADIUS, DOUBT, np.random.default_rng(3), *hinges)
    head.stand(side=0.001, nod=0.002).sweep().read("front")
    first, second = surmise(riddle(*sides(nodded(head))))[:2]
    assert (first.kind, second.kind) == ("swung", "knocked")
    assert first.share > 0.85
    # As far as a coupling of 0.02 is an angle: 1.2 degrees.
    assert math.degrees(first.figure) == pytest.approx(deg, abs=1.2)


@pytest.mark.parametrize("angle", [-0.6, 0.2, 0.5])
def test_a_ram_swings_its_pivots_and_couplings_as_a_body_does(angle):
    side, nod = Hinge(8.0, 5.0, 400.0, 0.03), Hinge(-4.0, 180.0, 400.0, -0.02)

    def acting(side, nod):
        return (-side.x_mm + side.coupling * side.y_mm, side.coupling), (
            nod.y_mm - nod.coupling * nod.x_mm,
            nod.coupling,
        )

    (p, k), (q, m) = acting(side, nod)
    known = replace(prior(), mean=(p, k, 400.0, q, m, *prior().mean[5:]))
    there = swung(known, angle)
    truth = acting(*on_a_swung_ram(side, nod, angle))
    for axis, (pivot, coupling) in zip(AXES, truth, strict=True):
        assert there.coupling(axis) == pytest.approx(coupling, abs=1e-9)
        assert there.pivot_mm(axis) == pytest.approx(pivot, abs=1e-9)
    doubted = swung(known, angle, 0.05)
    assert doubted.coupling_doubt("nod") > 0.05
    back = swung(there, -angle)
    assert back.mean == pytest.approx(known.mean, abs=1e-9)


@pytest.mark.parametrize(
    "knock", [(0.02, 0.02, 0.05), (-0.03, 0.01, -0.02), (0.3, -0.2, 0.4)], ids=str
)
def test_a_knock_is_told_from_all_else(knock):
    head, began = sides(nodded(plain()).knock(*knock))
    first = surmise(riddle(head, began))[0]
    assert first.kind == "knocked" and first.share > 0.9


def test_a_knock_that_lifts_nothing_may_be_a_ram_a_little_swung():
    head, began = sides(nodded(plain()).knock(0.02, -0.01, 0.002))
    shares = {guess.kind: guess.share for guess in surmise(riddle(head, began))}
    assert sum(shares.values()) == pytest.approx(1.0)
    assert shares["knocked"] > shares["swung"] > 0.05


@pytest.mark.parametrize("kind", ["zeroed", "exchanged", "other-way"])
def test_what_was_done_to_the_readings_is_told_and_told_right_again(kind):
    head = nodded(plain())
    if kind == "zeroed":
        head.zero_mm += 1.0
    head, began = sides(head)
    if kind == "exchanged":
        head.story[began:] = [replace(e, position=OPPOSITE[e.position]) for e in head.story[began:]]
    if kind == "other-way":
        swap = {"right": "left", "left": "right"}
        walked = [replace(e, position=swap.get(e.position, e.position)) for e in head.story[:4]]
        head.story[:4] = walked
    asked = riddle(head, began)
    shares = {guess.kind: guess.share for guess in surmise(asked)}
    # A pair that was exchanged, or a sweep that was: the same until the pair is read again.
    alike = {"exchanged", "other-way"}
    assert sum(shares[each] for each in (alike if kind in alike else {kind})) > 0.8
    assert shares["exchanged"] == pytest.approx(shares["other-way"], rel=0.1, abs=1e-9)
    right = asked.fit(as_if(kind, asked.story, asked.since))
    assert right.misfit < 4.0
    assert right.lean("side") == pytest.approx(0.001, abs=0.00002)


def turned(truth, *, sees, known=None, other=False, back=0.0, **more):
    """A nod brought to its stop-at from what is believed, `sees` mm a slope; the riddle."""
    head = plain(truth)
    meant = -head.at[1] * sees
    own, axis = (truth[0], "side") if other else (RADIUS + truth[3], "nod")
    head._turn(axis, meant / own)
    head.happened("moved", "nod").stop("front")
    head._turn("nod", back / (2.0 * RADIUS))
    head.happened("rested", "nod", -1)
    began = len(head.story)
    head.pair("nod", "front")
    return riddle(head, began, known, turned="nod", turn_mm=-0.4, **more)


@pytest.mark.parametrize("pivot", [-150.0, -195.0, -260.0])
def test_a_pivot_on_the_other_side_is_told_where_it_is(pivot):
    """However near a gauge over the pivot, which hardly moves, comes to it."""
    truth = (*TRUTH[:3], pivot, *TRUTH[4:])
    first = surmise(turned(truth, sees=RADIUS + 150.0))[0]
    assert first.kind in ("other-side", "elsewhere")
    assert first.figure == pytest.approx(pivot, abs=3.0)


def test_a_pivot_far_from_its_file_is_told_where_it_is():
    truth = (*TRUTH[:3], 400.0, *TRUTH[4:])
    first = surmise(turned(truth, sees=RADIUS + 150.0))[0]
    assert first.kind == "elsewhere" and first.figure == pytest.approx(400.0, abs=3.0)


@pytest.mark.parametrize(("back_mm", "kind"), [(0.05, "fell-back"), (0.0, "crept")])
def test_a_head_that_goes_back_when_let_go_was_not_knocked(back_mm, kind):
    gone_mm = 0.03 if back_mm else 0.012
    known = prior((0.5, 0.5), 0.001)
    asked = turned(TRUTH, sees=RADIUS + 150.0, back=gone_mm, known=known, back_mm=back_mm)
    first = surmise(asked)[0]
    assert first.kind == kind and first.figure == pytest.approx(gone_mm, abs=0.003)
    onward = replace(asked, turn_mm=-asked.turn_mm)
    assert {g.kind: g.share for g in surmise(onward)}[kind] == 0.0


def test_the_other_adjuster_is_told():
    """The side's was turned until the number parked for nod had come as far as it goes."""
    known = prior(pivots=(30.0, 150.0))
    asked = turned((30.0, *TRUTH[1:]), sees=RADIUS + 150.0, other=True, known=known)
    assert surmise(asked)[0].kind == "other-adjuster"
