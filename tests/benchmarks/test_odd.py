"""The odd heads do what their conditions say, and somebody else's head is one."""

import ast
import math
import statistics
from pathlib import Path

import pytest

from tests.benchmarks.heads import odd, other, population
from tests.benchmarks.heads.cells import BY_KEY
from tests.benchmarks.heads.measure import Measured, audits, mill_of
from tests.benchmarks.heads.odd import KNOCKED_BY, Odd, OddMill
from tests.benchmarks.heads.other import HAND_MM, LANDS_MM, WOUND_RAD, Screwed
from tests.benchmarks.heads.rider import Outcome
from tests.benchmarks.heads.table import reached

STILL = {"sigma_mm": 0.0, "resolution_mm": 1e-7, "wedge_mm": 0.0, "stop_error_mm": 0.0}
BACK_MM = (0.003, 0.008)


def stood(audit=0, **how):
    visit = population.visit(1, 0, audit)
    return OddMill(population.head(1, 0), Odd(**STILL, **how), visit, "1 0")


def crept(one, axis, place, by_mm):
    """How far back the number goes after a turn by so much."""
    one.turn(axis, place, one.indication(place) + by_mm)
    stopped = one.indication(place)
    one.let_go(axis, place)
    return -math.copysign(1.0, by_mm) * (one.indication(place) - stopped)


@pytest.mark.parametrize(("axis", "place"), [("side", "right"), ("nod", "front")])
def test_each_axis_of_a_head_creeps_back_by_its_own_mean(axis, place):
    firm = {"creep_mm": BACK_MM, "relax_scatter": 0.0}
    back = {crept(stood(audit, **firm), axis, place, by) for audit in (0, 1) for by in (0.1, -0.1)}
    assert max(back) - min(back) < 1e-5
    assert BACK_MM[0] <= min(back) <= BACK_MM[1]
    one = stood(creep_mm=BACK_MM)
    each = [crept(one, axis, place, 0.1 if k % 2 else -0.1) for k in range(200)]
    assert statistics.fmean(each) == pytest.approx(min(back), rel=0.06)
    assert statistics.stdev(each) == pytest.approx(0.25 * min(back), rel=0.2)


def test_slow_creep_goes_on_as_the_seconds_pass():
    one = stood(creep_mm=BACK_MM, creep_s=60.0, relax_scatter=0.0)
    assert crept(one, "nod", "front", 0.1) == 0.0
    whole = crept(stood(creep_mm=BACK_MM, relax_scatter=0.0), "nod", "front", 0.1)
    began = one.indication("front")
    for _ in range(30):
        one.passes(2.0)
    assert began - one.indication("front") == pytest.approx(whole * (1 - math.exp(-1)), rel=1e-3)
    one.passes(3600.0)
    assert began - one.indication("front") == pytest.approx(whole, rel=1e-3)


def test_a_head_sinks_in_its_backlash_unless_it_was_raised():
    one = stood(backlash_mm=0.05)
    sunk = []
    for _ in range(40):
        assert crept(one, "nod", "front", -0.2) == 0.0
        sunk.append(-crept(one, "nod", "front", 0.2))
    assert min(sunk) >= 0.0
    assert 0.04 < max(sunk) <= 0.05 + 1e-6


def test_the_ram_is_swung_and_the_pivot_stands_in_front():
    """A ram swung by 30° makes each hinge lean the other axis by tan 30°, about."""
    for number in range(6):
        swung = mill_of(BY_KEY["first-ram"].series, 1, number, 0).head
        for hinge in (swung.side, swung.nod):
            assert abs(hinge.coupling) == pytest.approx(math.tan(math.radians(30)), abs=0.12)
        assert mill_of(BY_KEY["first-front"].series, 1, number, 0).head.nod.y_mm < -100.0


def test_nod_stands_only_where_whole_shims_put_it():
    one = stood(shim_mm=0.05)
    began, step_mm = one.differences()[1], 0.05 / 200.0 * one.across_mm
    for stop in (-0.31, 0.12, -0.02):
        one.turn("nod", "front", one.indication("front") + stop)
        steps = (one.differences()[1] - began) / step_mm
        assert steps == pytest.approx(round(steps), abs=1e-3)


def test_a_knock_of_every_audit_comes_while_it_is_read():
    for number in range(20):
        one = mill_of(BY_KEY["first-knock"].series, 1, number, 0)
        assert one.visit.bump_at <= KNOCKED_BY
        assert one.conditions.bump_chance == 1.0


def test_a_knock_is_counted_where_nothing_else_was_named():
    told = (
        Outcome(2, "conforms", strange=("bumped",)),
        Outcome(2, "conforms", strange=("bumped",), named=("swung",)),
        Outcome(2, "conforms", named=("knocked",)),
        Outcome(2, "conforms"),
    )
    row = Measured(BY_KEY["first-ram"], told)
    assert (row.knocked, row.named) == (0.5, 0.25)
    assert reached(row) is False


def test_a_shop_with_shims_gets_to_the_end_of_an_audit():
    """Read again after the arm was out, both spots are in one boundless doubt."""
    (outcome,) = audits(BY_KEY["first-shims"].series, 1, 1, 1)
    assert outcome.lost == ""


def test_the_other_head_shows_its_lean_within_landing_and_wedge():
    one = Screwed("1 4", 0, 90.0, (0.3, -0.2))
    assert one.differences() == pytest.approx((0.3, -0.2), abs=0.02)
    side_mm, nod_mm = one.differences()
    assert one.reads("right") - one.reads("left") == pytest.approx(side_mm, abs=0.0075)
    assert one.reads("front") - one.reads("back") == pytest.approx(nod_mm, abs=0.0075)


def test_the_other_head_is_wound_up_by_its_friction_and_lets_go_of_it_when_cracked():
    one = Screwed("1 4", 0, 90.0, (0.0, 0.0))
    one.turn("nod", "front", 0.1)
    assert one.reads("front") == pytest.approx(0.1, abs=HAND_MM + 2 * LANDS_MM + 0.001)
    before = one.joints["nod"]
    one.crack("nod")
    assert one.joints["nod"] - before == pytest.approx(WOUND_RAD)
    one.crack("nod")
    assert one.joints["nod"] - before == pytest.approx(WOUND_RAD)


def test_the_other_head_shares_nothing_with_any_of_ours():
    for module, allowed in ((other, {"daq.words"}), (odd, {"daq.words", "mill", "rigid"})):
        tree = ast.parse(Path(module.__file__).read_text(encoding="utf-8"))
        own = [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
        assert {n.module for n in own if n.level or n.module.startswith("daq")} <= allowed
