"""What can be decided with this gauge, ring and radius, and what would help."""

from dataclasses import replace

import pytest

from daq.metrology.rule import Rule
from daq.screens import wall
from daq.words import AXES, POSITIONS
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import told

RADIUS_MM = 125.0
GUARDED = Rule()


def setup(limit_mm=0.005, radius=RADIUS_MM, rule=GUARDED, **machine):
    """The limit is the one across the sweep."""
    made = setup_of(limit=limit_mm, radius=radius, nod_pivot=190.0, height=400.0)
    machine = {"verdict": rule, **machine}
    return changed(made, machine=machine, both={"over": 2.0 * radius})


def machinist(made, side_mm, nod_mm):
    radius = made.machine.sweep_radius
    head = RigidHead(mill(radius_mm=radius, nod=(190.0, 0.0)), side_mm, nod_mm)
    return Machinist(Bench(made), head).start()


def found(made, side_mm=0.3, nod_mm=-0.2):
    m = machinist(made, side_mm, nod_mm)
    return m, m.sweep()


def helping(done, way):
    (each,) = [each for each in done.decidable.helps if each.way == way]
    return each


def wall_of(m):
    return told(wall(m.bench.state, "Mill"))


def test_as_found_the_zone_left_is_what_the_guard_leaves_once_the_head_is_set():
    """Not the one of the head far out, whose radius term alone is more than the limit."""
    m, done = found(setup(radius=60.0), 0.5, 0.5)
    assert not done.results.side.good_enough
    m, square = found(setup(radius=60.0), 0.0, 0.0)
    for axis in AXES:
        left = done.decidable.axes[axis].zone_mm
        guard_mm = square.results[axis].guard_mm
        assert left == pytest.approx(0.005 - guard_mm, abs=5e-5)
    assert [axis["note"] for axis in m.bench.console["axes"]] == ["", ""]


def test_as_found_says_that_in_will_be_hard_to_have_and_what_would_help():
    """0.005 mm, guarded, at radius 125."""
    m, done = found(setup())
    assert m.bench.job.step == "park" and not done.decidable.comfortable
    first, *helps = m.bench.console["decides"]
    assert "in only within ±0.00" in first
    assert any("the ring turned half round too, ±" in say for say in helps)
    ring = helping(done, "ring")
    assert ring.expanded_mm < 0.8 * done.decidable.expanded_mm
    assert ring.zone_mm > min(left.zone_mm for left in done.decidable.axes.values())
    assert not any("±" in note for note in wall_of(m)["notes"])


def test_a_comfortable_head_has_nothing_said_of_it():
    m, done = found(setup(0.025))
    assert m.bench.job.step == "park" and done.decidable.comfortable
    assert not done.decidable.helps
    assert m.bench.console["decides"] == []
    assert len(m.bench.console["numbers"]["decides"]) == 2


def test_where_nothing_can_be_in_the_wall_says_so_and_no_move_is_called_likely():
    m, done = found(setup(0.002))
    assert [left.zone_mm for left in done.decidable.axes.values()] == [None, None]
    assert {left.likely for left in done.decidable.axes.values()} == {0.0}
    assert all("not good enough" in axis["note"] for axis in wall_of(m)["axes"])
    assert any("nothing can be called in here" in n for n in m.bench.console["decides"])


def test_the_simple_rule_leaves_its_whole_limit_or_nothing():
    _, done = found(setup(rule=Rule("simple"), limit_mm=0.015))
    assert [left.zone_mm for left in done.decidable.axes.values()] == pytest.approx([0.015] * 2)
    _, done = found(setup(rule=Rule("simple"), limit_mm=0.001))
    assert [left.zone_mm for left in done.decidable.axes.values()] == [None, None]


def too_close(**more):
    """A head that is left where it cannot be decided."""
    m = machinist(setup(**more), 0.004, 0.0)
    m.work("clear")
    (done,) = m.bench.job.sweeps.done
    assert done.results.side.word == "close"
    return m, done


def test_too_close_to_call_the_button_carries_what_turning_brings_and_that_comes():
    m, done = too_close()
    ring = helping(done, "ring")
    button = m.bench.console["actions"][1]
    assert button["payload"] == {"turned": "ring"}
    was, now = f"±{done.decidable.expanded_mm:.4f}", f"±{ring.expanded_mm:.4f} mm"
    assert button["say"] == f"Ring turned half round: {was} → {now}, sweep again"
    m.bench.do(button["kind"], button["payload"])
    m.head.ring_deg += 180.0
    after = m.sweep()
    assert after.turned == "ring"
    expanded = max(budget.expanded_mm for budget in after.budgets.values())
    assert expanded == pytest.approx(ring.expanded_mm, abs=1e-4)


def test_as_found_the_figure_of_the_ring_is_that_of_the_proof_turned():
    m, done = found(setup())
    m.work("clear")
    m.bench.do("again", {"turned": "ring"})
    m.head.ring_deg += 180.0
    proof = m.sweep()
    expanded = max(budget.expanded_mm for budget in proof.budgets.values())
    assert expanded == pytest.approx(helping(done, "ring").expanded_mm, abs=1e-4)


FINE = {"key": "fine", "name": "Fine gauge", "resolution": 1e-4, "max_error": 0.0}


@pytest.mark.parametrize("way", ["eight", "radius", "gauge"])
def test_what_is_of_the_machines_file_comes_as_said_in_an_audit_with_that_file(way):
    made = replace(setup(), gauge=replace(setup().gauge, max_error=0.008, resolution=0.004))
    fine = replace(made.gauge, **FINE)
    made = replace(made, others=(fine,))
    _, done = found(made, 0.02, 0.0)
    each = helping(done, way)
    other = {
        "eight": lambda: changed(made, machine={"positions": tuple(POSITIONS)}),
        "radius": lambda: changed(made, machine={"sweep_radius": each.radius_mm}),
        "gauge": lambda: replace(made, gauge=fine),
    }[way]()
    if way == "eight":
        other = replace(other, plan=replace(other.plan, positions=tuple(POSITIONS)))
    _, again = found(other, 0.0, 0.0)
    assert again.decidable.expanded_mm == pytest.approx(each.expanded_mm, abs=2e-4)


def test_helps_stand_by_their_minutes_and_the_cheapest_that_is_enough_is_named():
    _, done = found(setup())
    decides = done.decidable
    assert [each.minutes for each in decides.helps] == sorted(e.minutes for e in decides.helps)
    assert decides.enough
    assert decides.helps[decides.best].likely >= 0.75
    assert all(each.likely < 0.75 for each in decides.helps[: decides.best])


def test_where_nothing_is_enough_what_helps_most_is_named_so():
    m, done = found(setup(0.0025))
    decides = done.decidable
    assert not decides.enough
    assert decides.helps[decides.best].likely == max(each.likely for each in decides.helps)
    assert "Helps, not enough" in m.bench.console["decides"][-1]


def test_as_a_vector_the_zone_is_the_circles():
    _, done = found(setup(0.008, rule=Rule(together="vector")))
    _, square = found(setup(0.008, rule=Rule(together="vector")), 0.0, 0.0)
    zones = [left.zone_mm for left in done.decidable.axes.values()]
    assert zones == pytest.approx([0.008 - square.whole.guard_mm] * 2, abs=5e-5)


def test_a_head_found_in_has_nothing_said_of_it():
    m = machinist(setup(0.010), 0.001, 0.0)
    m.work("clear")
    assert m.bench.job.sweeps.latest.decidable.comfortable
    assert m.bench.console["decides"] == []
