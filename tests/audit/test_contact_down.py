"""The contact is brought down when it hangs in the air, and is left alone when it is down."""

import pytest

from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

DOWN = "Bring the contact down"
GAUGE = ("contact", "pushed in", "Bring", "Set ")
"""What would have somebody set the gauge anew."""


def first_sight(b) -> str:
    return b.console["title"] + " " + b.console["detail"]


def test_the_first_sweep_begins_with_the_contact_in_the_air(bench):
    b = bench().start()
    assert b.console["title"] == "Bring the contact down at the front."
    b.take("front", 1.2)
    assert not any(word in first_sight(b) for word in GAUGE)
    b.do("undo")
    assert b.console["title"].startswith(DOWN)


@pytest.mark.parametrize("counts_up", [True, False])
def test_a_proving_sweep_leaves_the_gauge_as_it_is(counts_up):
    m = Machinist(
        Bench(setup_of(counts_up=counts_up, height=400.0)),
        RigidHead(mill(), 0.2, 0.4),
        sense=1.0 if counts_up else -1.0,
    ).start()
    titles = {}
    for _ in range(60):
        b = m.bench
        if b.job.step == "clear":
            break
        titles.setdefault(b.job.step, []).append(first_sight(b))
        m.step()
    assert titles["as-found"][0].startswith(DOWN)
    assert b.job.step == "clear"
    others = [said for step, many in titles.items() for said in many if step != "as-found"]
    assert titles["final"]
    for said in (*titles["as-found"][1:], *others):
        if "hang free" not in said and "Push the contact" not in said and "gauge on" not in said:
            assert not any(word in said for word in GAUGE), said
    assert "tight" in titles["final"][0] and "sweep" in titles["final"][0]
    stands = titles["final"][0].split(" the ")[1]
    assert stands.startswith(("front", "right"))


def test_another_sweep_for_a_reason_leaves_it_too(bench):
    b = bench().start()
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("again", {"why": "a chip under the ring"})
    assert b.job.step == "as-found"
    assert not any(word in first_sight(b) for word in GAUGE)


def test_a_sweep_that_did_not_fit_is_swept_again_as_the_gauge_stands(bench):
    b = bench().start()
    b.sweep(1.0, 1.0, 1.0, 1.3, again=1.0)
    assert b.job.step == "as-found" and not b.job.reads.taken
    assert not any(word in first_sight(b) for word in GAUGE)


@pytest.mark.parametrize("turned", ["ring", "arm"])
def test_what_was_turned_half_round_is_set_down_again(bench, turned):
    b = bench().start()
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("again", {"turned": turned})
    assert b.console["title"].startswith(DOWN)


def lifted(b, shift=0.0):
    """The touch test in the middle of an audit, the zero moved by so much."""
    b.do("touch")
    assert "Lift the contact" in b.console["title"]
    b.do("take", {}, [shift] * 10)


def test_after_a_touch_test_between_two_readings_it_is_brought_down(bench):
    b = bench().start()
    b.take("front", 1.2)
    lifted(b)
    assert b.console["title"] == "Bring the contact down again at the right, set as it was."
    lifted(b)
    b.take("right", 1.2)
    assert not any(word in first_sight(b) for word in GAUGE)


def test_after_a_touch_test_when_parked_and_at_a_check_it_is_brought_down(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.job.step == "park"
    before = first_sight(b)
    lifted(b)
    assert b.console["title"] == "Bring the contact down again at the front, set as it was."
    assert b.console["detail"] == f"Raise the knee to where it was and lock it. {before}"
    b.take("front", 1.2)
    b.do("loosened", {}, [1.2] * 10)
    b.do("stopped", {}, [1.1] * 10)
    assert b.job.step == "check"
    assert not any(word in first_sight(b) for word in GAUGE)
    lifted(b)
    assert b.console["title"].startswith("Bring the contact down again at the ")
    b.take("back", 1.1)
    assert not any(word in first_sight(b) for word in GAUGE)


def test_after_a_touch_test_before_the_proving_sweep_it_is_brought_down():
    m = Machinist(Bench(setup_of(height=400.0)), RigidHead(mill(), 0.0, 0.4)).start().work("final")
    lifted(m.bench)
    assert m.bench.console["title"].startswith(DOWN)
    m.step()
    assert not any(word in first_sight(m.bench) for word in GAUGE)


def with_kind(kind: str) -> Machinist:
    spacing = 200.0 if kind == "shim" else None
    setup = changed(setup_of(height=400.0), nod={"adjust": Adjust(kind, bolt_spacing=spacing)})
    return Machinist(Bench(setup), RigidHead(mill(), 0.0, 0.4)).start()


@pytest.mark.parametrize("kind", ["worm", "rack", "hand", "shim"])
def test_after_arm_and_gauge_were_away_the_contact_is_set_anew(kind):
    m = with_kind(kind).work("check")
    sight = first_sight(m.bench)
    assert "as it was" not in sight and "to where it was" not in sight
    assert any(word in sight for word in GAUGE) == (kind == "shim")
    m.step()
    m.bench.do("touch")
    m.bench.do("take", {}, [0.0] * 10)
    assert "set as it was" in m.bench.console["title"]


@pytest.mark.parametrize("why", ["left", "touched", "untouched"])
def test_a_loose_axis_is_read_with_the_contact_set_anew_unless_nobody_touched_it(why):
    m = with_kind("worm").work("move")
    b = m.bench
    if why == "left":
        b.do("put-aside", {"why": "w"})
        b.do("rest", {"left": "as-is"})
        b.do("take-up")
    else:
        b.do("restarted")
    b.powered()
    b.do("prepared", {"serial_number": "P-1", "touched": why == "touched"})
    m.work("check")
    assert ("set as it was" in b.console["title"]) == (why == "untouched")
    assert ("is pushed in" in b.console["detail"]) == (why != "untouched")
