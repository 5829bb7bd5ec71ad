"""Ring and arm, both turned half round one after the other."""

import pytest

from daq.checks.sweep.doubts import Doubts
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill


def test_ring_and_arm_turned_one_after_the_other_leave_both_out():
    head = RigidHead(mill(wedge_mm=0.020, axial_mm=0.004), 0.010, -0.004)
    made = changed(setup_of(limit=0.030), machine={"uncertainty": Doubts(wedge=0.003)})
    m = Machinist(Bench(made), head).start(reason="check-only")
    plain = m.sweep()
    assert abs(plain.side.d_mm - 0.010) + abs(plain.nod.d_mm + 0.004) > 0.008
    m.bench.do("again", {"turned": "ring"})
    head.ring_deg += 180.0
    m.sweep()
    m.bench.do("again", {"turned": "arm"})
    head.arm_deg += 180.0
    both = m.sweep()
    assert (both.side.d_mm, both.nod.d_mm) == (
        pytest.approx(0.010, abs=0.0012),
        pytest.approx(-0.004, abs=0.0012),
    )
    assert {part.of for part in both.parts} == {"ring", "arm"}
    cancelled = {term.key for term in both.side_budget.terms if term.cancels}
    assert {"wedge", "axial"} <= cancelled
    said = [found.say for found in both.findings if found.code == "part"]
    assert said[0].startswith("The ring's wedge comes to 0.0") and "allows for 0.003" in said[0]
    assert said[1].startswith("The spindle's rise and fall") and len(said) == 2
