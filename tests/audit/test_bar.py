"""Two gauges on one bar: what moves both alike stays out of the lean."""

import math
from dataclasses import replace

import pytest

from daq.audit.recompute import differences
from daq.words import POSITIONS
from tests.audit.bar import BarBench, with_bar
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import RigidHead, mill, told

GEOMETRY = {"side": (3.0, 0.01), "nod": (160.0, -0.01), "height_mm": 400.0}


def setup():
    return setup_of(limit=0.05, nod_pivot=150.0, height=400.0)


def head_at(side_mm, nod_mm, **more):
    return RigidHead(mill(**GEOMETRY, **more), side_mm, nod_mm)


def bench_with_bar(radius_mm=80.0):
    b = BarBench(with_bar(setup(), radius_mm))
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0] * 10)
    b.do("pushed", {}, [0.0, 0.8, 1.1, 0.0])
    return b


def test_two_gauges_on_one_bar_read_the_lean_across_the_first_circle():
    head = head_at(0.120, -0.080)
    b = bench_with_bar()
    done = b.bar_sweep(head, 80.0)
    assert done.usable
    assert (done.results.side.d_mm, done.results.nod.d_mm) == pytest.approx(
        (0.120, -0.080), abs=0.0015
    )
    assert all(taken.second.gauge == "far" for taken in told(b, "ReadingTaken"))
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_two_gauges_on_one_bar_do_not_see_what_moves_both_alike():
    """A creep that grows from place to place, 0.032 by the end: one gauge would be refused."""
    b = bench_with_bar()
    done = b.bar_sweep(head_at(0.120, -0.080), 80.0, drift_mm=0.002)
    assert done.usable
    assert done.return_error_mm == pytest.approx(0.0, abs=0.0011)
    assert (done.results.side.d_mm, done.results.nod.d_mm) == pytest.approx(
        (0.120, -0.080), abs=0.0015
    )
    single = Bench(setup()).start()
    crept = dict(zip(("front", "right", "back", "left"), (1.5, 1.502, 1.508, 1.518), strict=True))
    single.sweep(**crept, again=1.532)
    assert single.job.step == "as-found-drift"


def test_two_gauges_on_one_bar_do_not_see_the_spindles_rise_and_fall():
    head = head_at(0.120, -0.080, axial_mm=0.004)
    b = bench_with_bar()
    found = ()
    for place in (*b.setup.plan.positions, "front"):
        near, own = head.exactly(place), math.radians(POSITIONS[place])
        # The bar turns as one: the far gauge rises and falls with the near one.
        other = RigidHead(replace(head.spec, axial_mm=0.0), 0.120, -0.080)
        far = other.opposite(place, 80.0) + head.spec.axial_mm * math.cos(own)
        found = b.both(place, round(near, 3), round(far, 3))
    done = next(data for data in found if type(data).__name__ == "SweepDone")
    assert (done.results.side.d_mm, done.results.nod.d_mm) == pytest.approx(
        (0.120, -0.080), abs=0.0015
    )
    cancels = {term.code.removeprefix("term-") for term in done.budgets.side.terms if term.cancels}
    assert "axial" in cancels


def test_the_card_of_a_bar_asks_for_both_numbers():
    b = BarBench(with_bar(setup(), 80.0))
    b.do("open", {"reason": "scheduled"})
    b.powered()
    number, ends = next(
        a["fields"] for a in b.console["actions"] if a["kind"] == "prepared" and a["primary"]
    )
    assert "last two" in ends["say"]
    right = [each["say"] for each in number["choices"] if each["key"] == "P-1"]
    assert right == ["P-1 and P-2"]
    assert len({each["say"] for each in number["choices"]}) == 3
