"""Many audits of one head: killed at any point, and decided again from what was recorded."""

from dataclasses import replace

import pytest

from daq.audit.apply import fold
from daq.audit.recompute import differences
from daq.audit.state import Shop
from tests.audit.conftest import Bench
from tests.audit.pupil import PIVOT_MM, at_the_check, audit, head_at, setup, zeroed_after_parking
from tests.audit.rigid import Machinist, RigidHead, mill


def whole_life():
    """Audits that were signed, abandoned, knocked, zeroed, taken back, swung and practised."""
    b = Bench(setup())
    audit(b, head_at(0.4, -0.5)).finish()
    m = at_the_check(b, 0.0, -0.4)
    m.head.lift_mm -= 0.04
    m.step()
    b.take("front", 1.9)
    b.do("undo")
    b.do("restarted")
    m.finish()
    zeroing = Machinist(b, head_at(0.3, -0.5), plus_mm=0.1).start().work("loosen")
    zeroed_after_parking(b, zeroing)
    zeroing.work("final")
    b.abandon("the day is over")
    swung = RigidHead(mill(ram_deg=15.0, nod=(PIVOT_MM, 0.0)), 0.1, 0.3)
    audit(b, swung, ram_moved=True, ram_angle="15 deg").finish()
    audit(b, head_at(0.2, -0.3), "practice", ram_moved=True).finish()
    return b


@pytest.fixture(scope="module")
def lived():
    return whole_life()


def test_killed_at_any_point_the_fold_gives_the_same_state(lived):
    partial = Shop()
    for n, event in enumerate(lived.events, 1):
        partial = fold([event], partial)
        if n % 7 == 0:
            assert partial == fold(lived.events[:n])
    assert partial == lived.shop


def test_killed_at_any_point_the_same_inputs_lead_to_the_same_events(lived):
    """Every decision of every audit comes out again from its own recorded inputs."""
    assert {"ResponseUpdated", "Voided", "Zeroed", "BaseRead", "Abandoned"} <= {
        event.type for event in lived.events
    }
    assert list(differences(lived.events, lived.chunks.__getitem__)) == []


def test_a_forged_lesson_is_reported(lived):
    events = list(lived.events)
    at = next(i for i, e in enumerate(events) if e.type == "ResponseUpdated")
    known = events[at].data["learned"]
    forged = {**events[at].data, "learned": {**known, "audits": 99}}
    events[at] = replace(events[at], data=forged)
    found = [difference.seq for difference in differences(events, lived.chunks.__getitem__)]
    assert events[at].seq in found


def test_work_goes_on_after_a_kill_as_if_nothing_had_happened():
    """Half an audit, the state folded anew from the events, then the other half."""
    straight = Bench(setup())
    audit(straight, head_at(0.4, -0.5)).finish()
    for after in ("check", "tighten", "park", "final", "clear"):
        b = Bench(setup())
        m = audit(b, head_at(0.4, -0.5)).work(after)
        b.shop = fold(b.events)
        m.finish()
        assert b.shop.machine("mill").learned == straight.shop.machine("mill").learned
