"""A few heads of the benchmark: the mill is right, and the product brings every one inside.

The figures that a thousand heads reach stand in the table that head_rows.py prints; with a
few heads they are kept to with a margin of several standard errors of the mean.
"""

import ast
import math
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from daq.virtual import geometry
from daq.virtual.spec import JointSpec, MillSpec
from daq.words import POSITIONS
from tests.benchmarks.heads import by_hand, mill, population, rigid
from tests.benchmarks.heads.by_hand import WAYS
from tests.benchmarks.heads.cells import BY_KEY
from tests.benchmarks.heads.measure import Measured, audits, measure, percentile, spread
from tests.benchmarks.heads.measure import by_hand as hands
from tests.benchmarks.heads.mill import Conditions, Mill
from tests.benchmarks.heads.table import BY_HAND, HEADS, line, line_by_hand, table

FEW, HEADS_A_CELL = 12, 24
QUIET = Conditions(sigma_mm=0.0, resolution_mm=1e-7, wedge_mm=0.0, stop_error_mm=0.0)
PLACES = ("front", "right", "back", "left")


def stood(number=0, conditions=QUIET):
    return Mill(population.head(1, number), conditions, population.visit(1, number, 0))


def imported(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module if not node.level else f"own.{node.module}"


def test_the_mill_shares_nothing_with_the_product_but_the_words():
    """Otherwise a mistake in the geometry would be measured with itself."""
    for module in (rigid, mill, population, by_hand):
        names = set(imported(Path(module.__file__)))
        assert {n for n in names if n.startswith("daq")} <= {"daq.words"}
        outside = {n.split(".")[0] for n in names} - {"daq", "own", "numpy"}
        assert outside <= sys.stdlib_module_names


@pytest.mark.parametrize("number", range(5))
def test_the_gauge_reads_as_on_the_practice_mill(number):
    """Two exact mills written apart agree on every reading and on the leans, turn by turn."""
    one = stood(number)
    side, nod = (
        JointSpec(h.x_mm, h.y_mm, h.height_mm, h.coupling) for h in (one.head.side, one.head.nod)
    )
    spec = MillSpec(side=side, nod=nod)
    flat = geometry.surface_normal(0.0, 0.0)
    zero = None
    for axis, place in (("nod", "front"), ("side", "right"), ("nod", "front")):
        at = geometry.pose(spec, one.angles["side"], one.angles["nod"])
        seen = {
            p: geometry.surface_height(at, flat, one.visit.radius_mm, POSITIONS[p]) for p in PLACES
        }
        zero = seen["front"] if zero is None else zero
        for p in PLACES:
            assert one.indication(p) == pytest.approx(seen[p] - zero, abs=1e-6)
        leans = [slope * one.across_mm for slope in geometry.leans(at)]
        assert one.differences() == pytest.approx(leans, abs=1e-9)
        one.turn(axis, place, one.indication(place) - 0.2)


@pytest.mark.parametrize("place", POSITIONS)
@pytest.mark.parametrize("ram_deg", [0.0, 15.0])
def test_the_body_turns_as_a_reference_library_turns_points(place, ram_deg):
    """Two points of the plunger's line, turned by scipy about the hinge lines one by one."""
    side, nod = rigid.Hinge(-20.0, 60.0, 420.0, 0.03), rigid.Hinge(35.0, 180.0, 360.0, -0.02)
    body = rigid.Rigid(*rigid.swung(side, nod, math.radians(ram_deg)), 150.0)
    body.swing("side", 0.003)
    body.swing("nod", -0.002)
    phi = math.radians(POSITIONS[place])
    foot = np.array([150.0 * math.cos(phi), 150.0 * math.sin(phi), 0.0])
    points = foot + np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
    ram = Rotation.from_euler("z", ram_deg, degrees=True)
    for hinge, along, angle in ((side, (0.03, 1.0), 0.003), (nod, (1.0, -0.02), -0.002)):
        on = ram.apply([hinge.x_mm, hinge.y_mm, hinge.height_mm])
        line = ram.apply([*along, 0.0]) / math.hypot(*along)
        points = Rotation.from_rotvec(angle * line).apply(points - on) + on
    start, above = points[:, 2]
    assert body.pushed(place) == pytest.approx(-start / (above - start), abs=1e-9)


def test_the_head_starts_as_far_out_as_it_was_drawn():
    for number in range(20):
        one = stood(number)
        assert one.differences() == pytest.approx(one.visit.start_mm, abs=1e-9)
        read = {place: one.indication(place) for place in PLACES}
        found = (read["right"] - read["left"], read["front"] - read["back"])
        assert found == pytest.approx(one.visit.start_mm, abs=1e-6)


def test_the_ring_adds_its_wedge_and_no_lean():
    one, ringed = stood(), stood(conditions=replace(QUIET, wedge_mm=0.003))
    assert ringed.differences() == pytest.approx(one.differences(), abs=1e-6)
    thick = math.radians(ringed.visit.ring_deg)
    for (near, far), share in (
        (("right", "left"), math.cos(thick)),
        (("back", "front"), math.sin(thick)),
    ):
        plain = one.indication(near) - one.indication(far)
        shown = ringed.indication(near) - ringed.indication(far)
        assert shown - plain == pytest.approx(0.003 * share, abs=2e-6)


def test_the_hand_stops_where_it_is_told_within_its_error():
    one = stood(conditions=replace(QUIET, stop_error_mm=0.002))
    off = []
    for k in range(200):
        stop = 0.01 * (k % 7) - 0.03
        one.turn("nod", "front", stop)
        off.append(one.indication("front") - stop)
    assert max(map(abs, off)) <= 0.002 + 1e-6
    assert max(off) > 0.0018
    assert min(off) < -0.0018


def test_tightening_leans_its_own_axis_and_relaxing_creeps_back():
    one = stood(conditions=replace(QUIET, shift_mm=0.005, shift_scatter=0.0, relax_mm=0.004))
    before = one.differences()
    one.pull("side", 1.0)
    after = one.differences()
    sign = one.head.shift_sign[0]
    assert after[0] - before[0] == pytest.approx(sign * 0.005 * one.across_mm / 200, rel=1e-3)
    assert after[1] == pytest.approx(before[1], abs=1e-5)
    one.turn("side", "right", one.indication("right") + 0.1)
    stopped = one.indication("right")
    one.let_go("side", "right")
    assert -0.009 < one.indication("right") - stopped < 0.0


def test_a_bump_shows_at_the_gauge_and_in_both_leans():
    one = stood(conditions=replace(QUIET, bump_chance=1.0))
    before, shown = one.differences(), one.indication("front")
    for _ in range(population.READINGS_AN_AUDIT):
        last = one.indication("front")
    assert last != pytest.approx(shown, abs=1e-4)
    for was, now in zip(before, one.differences(), strict=True):
        assert now != pytest.approx(was, abs=1e-5)


def test_the_population_is_as_wide_as_it_says():
    """Means and standard deviations of what is drawn (a uniform one's: its width over √12)."""
    visits = [population.visit(1, number, 0) for number in range(2000)]
    starts = [mm for each in visits for mm in each.start_mm]
    assert math.sqrt(sum(mm * mm for mm in starts) / len(starts)) == pytest.approx(0.45, rel=0.06)
    behind = [population.head(1, number).nod.y_mm for number in range(2000)]
    mean = sum(behind) / len(behind)
    spread = math.sqrt(sum((mm - mean) ** 2 for mm in behind) / len(behind))
    assert mean == pytest.approx(190, abs=4)
    assert spread == pytest.approx(140 / math.sqrt(12), rel=0.06)
    assert len({population.visit(1, 0, audit).radius_mm for audit in range(4)}) == 4


def test_percentile_is_the_smallest_that_enough_keep_to():
    assert percentile(range(1, 101), 0.99) == 99
    assert percentile([2] * 99 + [9], 0.99) == 2
    assert percentile([2] * 98 + [9, 9], 0.99) == 9


@pytest.fixture(scope="module", params=[FEW, pytest.param(HEADS_A_CELL, marks=pytest.mark.long)])
def measured(request):
    """The first audit of each head and those after it, in one process."""
    cells = [BY_KEY[key] for key in ("first-10", "one-10", "three-10")]
    return {row.cell.key: row for row in measure(cells, request.param)}


def test_every_audit_ends_with_the_head_read_inside(measured):
    for row in measured.values():
        assert [each.lost for each in row.lost] == []
        assert row.verdict("conforms") == 1.0
        limit = row.cell.series.files.limit_mm
        assert all(max(map(abs, each.read_mm)) <= limit + 1e-9 for each in row.outcomes)


def test_what_was_read_is_where_the_head_stands_within_wedge_and_noise(measured):
    """The wedge is 3 µm at most; a difference of two readings scatters by about 1.1 µm."""
    for row in measured.values():
        for each in row.outcomes:
            for read, true in zip(each.read_mm, each.true_mm, strict=True):
                assert abs(read - true) < 0.003 + 5 * 0.0011


@pytest.mark.parametrize(("key", "mean", "most"), [("first-10", 3.4, 5), ("one-10", 2.7, 4)])
def test_moves_stay_few(measured, key, mean, most):
    """After one audit 2.2 are to be reached, and 12 heads tell that to within 0.18 (one sd)."""
    assert measured[key].mean <= mean
    assert measured[key].most <= most


@pytest.mark.parametrize(
    ("key", "minutes"), [("first-10", 11.3), ("one-10", 10.0), ("three-10", 8.7)]
)
def test_an_audit_takes_few_minutes(measured, key, minutes):
    assert measured[key].minutes.mean <= minutes


def test_a_head_known_from_three_audits_takes_a_move_an_axis(measured):
    assert measured["three-10"].mean <= 2.12
    assert measured["three-10"].most <= 3


def test_a_turn_is_not_followed_by_another_with_nothing_read_between():
    """This head's axes were each foreseen well inside, and turned again and again."""
    (outcome,) = audits(BY_KEY["first-10"].series, 1, 1, 16)
    assert outcome.lost == ""
    assert outcome.moves <= 4


def test_by_hand_takes_several_times_as_many(measured):
    row = measured["first-10"]
    for way in ("halving", "guessing"):
        moves = [each.moves for each in hands(row, way, 1, 1)]
        assert percentile(moves, 0.5) >= 2 * row.mean


def test_dividing_by_the_last_turn_takes_about_as_many_as_the_product(measured):
    """And knowing the pivot fewer: half of the difference is what is wrong by hand."""
    row = measured["first-10"]
    moves = [spread([x.moves for x in hands(row, way, 1, 1)]).mean for way in WAYS]
    assert moves[3] < moves[2] < 4.5 < moves[0]


def test_the_same_heads_by_hand_stand_beside_it(measured):
    row = measured["first-10"]
    slow = [replace(each, minutes=99.0) for each in hands(row, "halving", 1, 1)]
    mixed = [replace(slow[0], minutes=0.0), *slow[1:]]
    told = line_by_hand(row, "dividing", mixed)
    assert len(told) == len(BY_HAND)
    assert told[-3:] == (f"{1 - 1 / len(row.outcomes):.1%}", "70%", "yes")
    assert line_by_hand(row, "halving", slow)[-3:] == ("100.0%", "", "")


def test_a_coarse_gauge_cannot_decide():
    (row,) = measure([BY_KEY["coarse"]], 10)
    assert row.verdict("cannot-be-decided") == 1.0


def test_the_table_tells_a_cell_in_every_column(measured):
    row = measured["first-10"]
    lines = table([line(row)]).splitlines()
    assert len(lines) == 2
    assert len(line(row)) == len(HEADS)
    assert lines[1].startswith("first-10")
    lost = Measured(row.cell, [replace(row.outcomes[0], lost="check: nowhere", verdict="lost")])
    assert len(lost.lost) == 1
    assert lost.inside == 0.0
