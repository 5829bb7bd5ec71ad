"""Machines and gauges on which the usual way would lead nowhere."""

from dataclasses import replace

import pytest

from daq.audit.head import park_at
from daq.checks.sweep.plan import plan_of
from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, leans_mm, mill

FIXED = {"adjust": Adjust(kind="none")}
VECTOR = Rule("guarded", 0.95, "vector")


def made(**more):
    return changed(setup_of(limit=0.025, nod_pivot=150.0, height=400.0), **more)


def work(setup, head, *until):
    return Machinist(Bench(setup), head).start().work(*until)


@pytest.mark.parametrize("pivot", [-80.0, -60.0])
def test_a_pivot_in_front_with_no_back_to_park_at_is_squared_from_the_front(pivot):
    places = ("front", "right", "left")
    setup = changed(setup_of(limit=0.025, nod_pivot=pivot), machine={"positions": places})
    head = RigidHead(mill(nod=(pivot, 0.0), height_mm=0.0), 0.0, -0.3)
    m = Machinist(Bench(replace(setup, plan=plan_of(places))), head).start()
    assert m.finish().verdict == "conforms"
    assert abs(head.true_mm("nod")) < 0.0167


def test_of_a_lean_judged_as_a_whole_the_axis_that_can_be_set_is_set():
    """0.012 and 0.011 are 0.0163 together, too close to 0.0167; without the 0.011 it is inside."""
    setup = made(machine={"verdict": VECTOR}, side=FIXED)
    m = work(setup, RigidHead(mill(), 0.012, 0.011), "park", "clear")
    assert (m.bench.job.step, m.bench.job.axis) == ("park", "nod")
    assert m.finish().verdict == "conforms"


def test_where_the_fixed_axis_alone_is_too_far_out_nothing_is_turned():
    setup = made(machine={"verdict": VECTOR}, side=FIXED)
    m = work(setup, RigidHead(mill(), 0.030, 0.011), "park", "clear")
    assert m.bench.job.step == "clear"


@pytest.mark.parametrize("axes", [{"side": FIXED, "nod": FIXED}])
def test_with_nothing_to_set_the_lean_as_a_whole_is_reported(axes):
    m = work(
        made(machine={"verdict": VECTOR}, **axes), RigidHead(mill(), 0.0, 0.1), "park", "clear"
    )
    assert m.bench.job.step == "clear"


@pytest.mark.parametrize(
    ("nod_mm", "step"),
    [(0.010, "clear"), (0.020, "park")],
    ids=["half a count at the parked gauge", "a whole count"],
)
def test_too_close_to_call_an_axis_is_left_where_less_than_a_count_would_be_turned(nod_mm, step):
    """A gauge of 0.01 on a nod seen as far as a side is: a count is 0.02 across the sweep."""
    setup = changed(
        setup_of(limit=0.025, nod_pivot=0.0),
        machine={"verdict": Rule("guarded")},
        gauge={"resolution": 0.01},
    )
    b = Bench(setup).start()
    half = nod_mm / 2.0
    done = b.sweep(front=1.20 + half, right=1.20, back=1.20 - half, left=1.20)
    assert done.results.nod.word == "close"
    assert b.job.step == step


@pytest.mark.parametrize(
    ("limit", "step"),
    [(0.0092, "clear"), (0.0120, "park")],
    ids=["it would hardly read inside", "it well may"],
)
def test_an_axis_is_moved_only_if_it_may_then_read_inside(limit, step):
    """Against the middle of the sides nod reads to √6 of a reading, more than a hand leaves."""
    places = ("front", "right", "left")
    coarse = {"resolution": 0.00254}
    setup = changed(setup_of(limit=limit), machine={"positions": places}, gauge=coarse)
    b = Bench(replace(setup, plan=plan_of(places))).start()
    for place, value in (("front", 1.502), ("right", 1.5), ("left", 1.5), ("front", 1.502)):
        b.take(place, value)
    assert b.job.axes.results["nod"].word == "close"
    assert b.job.step == step


@pytest.mark.parametrize("limit", [0.010, 0.008])
@pytest.mark.parametrize("nod_mm", [0.004, 0.005, 0.006, 0.007, 0.008])
def test_a_pivot_in_front_is_advised_as_its_mirror_image_behind_is(limit, nod_mm):
    """Parked at the back the gauge sees of the one what it sees of the other at the front."""

    def advised(pivot):
        setup = setup_of(limit=limit, nod_pivot=pivot)
        setup = changed(setup, machine={"verdict": Rule("guarded")})
        b = Bench(setup).start()
        half = nod_mm / 2.0
        done = b.sweep(front=1.20 + half, right=1.20, back=1.20 - half, left=1.20)
        assert park_at(b.job, "nod") == ("front" if pivot > 0.0 else "back")
        return done.results.nod.word, b.job.step, b.job.axis

    assert advised(100.0) == advised(-100.0)


def test_lifting_the_contact_to_move_a_block_is_no_zero():
    b = Bench(made(machine={"seat": "block"})).start(free=0.0)
    b.take("front", 1.200)
    lift = [1.2] * 8 + [0.6] + [0.0] * 6
    assert b.refused("zeroed", {}, lift).code == "lifted-for-block"
    b.take("right", 1.200)
    assert len(b.job.reads.taken) == 2


def test_a_block_need_not_be_lifted_while_the_gauge_is_parked():
    b = Bench(made(machine={"seat": "block"})).start(free=0.0)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("zeroed", {}, [1.2] * 8 + [0.6] + [0.0] * 6)
    assert b.job.step == "touch-free"


def test_shims_go_in_with_the_bolts_snug_and_are_checked_before_they_are_tightened():
    nod = {"adjust": Adjust(kind="shim", bolt_spacing=250.0)}
    m = work(made(nod=nod), RigidHead(mill(), 0.0, 0.3), "shim")
    assert "Then snug the bolts on it." in m.bench.console["detail"]
    assert m.bench.console["actions"][0]["say"] == "Shim in, bolts snug"
    m.work("check")
    assert m.bench.console["detail"].endswith("A pair check before tightening.")
    assert m.finish().verdict == "conforms"
    assert max(map(abs, leans_mm(m.head).values())) < 0.0167


@pytest.mark.parametrize("pivot_mm", [-60.0, 150.0])
def test_a_pivot_at_the_spindle_level_with_the_surface_and_tightened_unread(pivot_mm):
    """How far such a head went shows by nothing until it is read again."""
    b = Bench(setup_of(height=0.0, nod_pivot=pivot_mm))
    head = RigidHead(mill(nod=(pivot_mm, 0.0), height_mm=0.0), -0.43, 0.06)
    m = Machinist(b, head).start().work("move")
    b.do("tightened")
    m.work("park")
    assert m.finish().verdict == "conforms"
