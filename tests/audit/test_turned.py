"""Ring and arm, both turned half round one after the other."""

import pytest

from daq.checks.sweep.doubts import Doubts
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import en


def test_ring_and_arm_turned_one_after_the_other_leave_both_out():
    head = RigidHead(mill(wedge_mm=0.020, axial_mm=0.004), 0.010, -0.004)
    made = changed(
        setup_of(limit=0.030), machine={"uncertainty": Doubts(wedge=0.020, spindle_axial=0.004)}
    )
    m = Machinist(Bench(made), head).start(reason="check-only")
    plain = m.sweep()
    assert abs(plain.results.side.d_mm - 0.010) + abs(plain.results.nod.d_mm + 0.004) > 0.008
    m.bench.do("again", {"turned": "ring"})
    head.ring_deg += 180.0
    m.sweep()
    m.bench.do("again", {"turned": "arm"})
    head.arm_deg += 180.0
    both = m.sweep()
    assert (both.results.side.d_mm, both.results.nod.d_mm) == (
        pytest.approx(0.010, abs=0.0012),
        pytest.approx(-0.004, abs=0.0012),
    )
    assert {part.of for part in both.added} == {"ring", "arm"}
    cancelled = {
        term.code.removeprefix("term-") for term in both.budgets.side.terms if term.cancels
    }
    assert {"wedge", "axial"} <= cancelled


def test_a_head_knocked_while_the_ring_is_turned_is_never_called_in():
    """It looks like a wedge: half the knock as lean, half as ring."""
    head = RigidHead(mill(), 0.0, 0.0)
    m = Machinist(Bench(setup_of(limit=0.030)), head).start(reason="check-only")
    m.sweep()
    m.bench.do("again", {"turned": "ring"})
    head.ring_deg += 180.0
    head.angles["side"] += 0.024 / 200.0
    knocked = m.sweep()
    assert not knocked.usable and m.bench.job.step == "as-found"
    (said,) = [en(found.said) for found in knocked.findings if found.code == "added"]
    assert "the machine's file allows for 0.003" in said and "knocked" in said


def swept(step, side_mm=0.004, **machine):
    made = changed(setup_of(limit=0.020), machine=machine)
    return Machinist(Bench(made), RigidHead(mill(), side_mm, 0.0)).start().work(step)


def test_a_sweep_that_is_compared_can_be_given_up_for_one_alone():
    m = swept("clear")
    m.bench.do("again", {"turned": "ring"})
    (alone,) = [a for a in m.bench.console["actions"] if a["kind"] == "again"]
    m.bench.do("again", {**alone["payload"], "why": "the ring slipped"})
    assert m.sweep().turned == ""


def test_a_ring_may_be_turned_before_anything_is_moved():
    m = swept("park", side_mm=0.100)
    offered = [a["payload"].get("turned") for a in m.bench.console["actions"]]
    assert "ring" in offered and "arm" in offered


def test_once_something_was_moved_there_is_no_sweep_to_compare_a_turned_one_with():
    m = Machinist(Bench(setup_of(limit=0.020)), RigidHead(mill(), 0.100, 0.100)).start()
    b = m.work("tighten").bench
    m.work("park")
    assert not any("turned" in a["payload"] for a in b.console["actions"])
    assert b.refused("again", {"turned": "ring"}).code == "no-sweep-to-compare"


def test_a_bare_table_cannot_be_turned():
    m = swept("clear", seat="table")
    assert m.bench.refused("again", {"turned": "ring"}).code == "no-ring-to-turn"
