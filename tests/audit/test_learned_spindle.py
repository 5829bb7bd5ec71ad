"""A spindle with a mark: the arm clamped half round once, its rise is known in later audits."""

import math
from dataclasses import replace

import pytest

from daq.checks.sweep.doubts import Doubts
from daq.words import POSITIONS
from tests.audit.bar import with_bar
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import en

KEY = "the long drive key"
RISE = 0.0015
HIGH_DEG = 70.0
"""How far past the mark the spindle stands highest."""
TRUE = (0.010, -0.004)


def made(axial=0.0015, **machine):
    doubts = Doubts(spindle_axial=axial, wedge=0.0)
    return changed(
        setup_of(limit=0.030), machine={"uncertainty": doubts, "spindle_mark": KEY, **machine}
    )


def clamp(head, mark):
    """The arm stands so that with it in front the spindle's mark points there."""
    head.arm_deg = POSITIONS["front"] - POSITIONS[mark] + HIGH_DEG


def audit(bench, head, mark, *, really="", reason="check-only", turn=True, why="changed", **card):
    """A sweep, and one with the arm clamped half round; signed. The sweeps done."""
    clamp(head, really or mark or "front")
    m = Machinist(bench, head).start(reason=reason, **({"spindle": mark} if mark else {}), **card)
    sweeps = [m.sweep()]
    if turn:
        m.bench.do("again", {"turned": "arm"})
        head.arm_deg += 180.0
        sweeps.append(m.sweep())
    if bench.job.step == "differs":
        bench.do("differs", {"why": why})
    if sweeps[-1].usable:
        m.work("sign")
        past = {"last_good": "2026-01-05", "disposition": "none"}
        m.bench.do("sign", {"done_by": "Ann", **past})
    return sweeps


def u_of(sweep, code):
    return {t.code: t.u_mm for t in sweep.budgets.side.terms}[code]


def near(results, true=TRUE):
    return max(abs(results.side.d_mm - true[0]), abs(results.nod.d_mm - true[1]))


@pytest.fixture
def head():
    return RigidHead(mill(axial_mm=RISE), *TRUE)


def test_turned_once_the_rise_is_taken_out_of_later_audits_however_the_arm_is_clamped(head):
    bench = Bench(made())
    plain, turned = audit(bench, head, "front")
    assert near(plain.results) > 0.0015 and near(turned.results) < 0.0012
    known = turned.taught.now
    assert (known.ahead, known.aside) == (
        pytest.approx(RISE * math.cos(math.radians(HIGH_DEG)), abs=0.0006),
        pytest.approx(RISE * math.sin(math.radians(HIGH_DEG)), abs=0.0006),
    )
    for mark in ("right", "back", "left", "front"):
        (later,) = audit(bench, head, mark, turn=False)
        assert near(later.results) < 0.0014
        assert u_of(later, "term-axial") < u_of(plain, "term-axial") - 0.0002
        assert [(part.of, part.learned) for part in later.added] == [("arm", known.audit)]


def test_without_a_mark_nothing_is_taken_out_and_nothing_learned(head):
    bench = Bench(made())
    plain, turned = audit(bench, head, "")
    assert turned.taught is None and bench.state.rise is None
    audit(bench, head, "front")
    (later,) = audit(bench, head, "", turn=False)
    assert later.added == () and u_of(later, "term-axial") == u_of(plain, "term-axial")


def test_the_ring_turned_tells_nothing_of_the_spindle(head):
    """In both sweeps the spindle turns alike, so the mean of both holds its rise still."""
    bench = Bench(made())
    clamp(head, "front")
    m = Machinist(bench, head).start(reason="check-only", spindle="front")
    plain = m.sweep()
    bench.do("again", {"turned": "ring"})
    turned = m.sweep()
    assert turned.taught is None
    assert near(turned.results, (plain.results.side.d_mm, plain.results.nod.d_mm)) < 0.0011


def test_a_second_reversal_makes_it_surer_and_practice_teaches_nothing(head):
    bench = Bench(made())
    _, first = audit(bench, head, "front")
    _, second = audit(bench, head, "left")
    assert second.taught.now.pairs == 2 and second.taught.now.u < first.taught.now.u
    assert bench.state.rise == second.taught.now
    _, practised = audit(bench, head, "back", reason="practice")
    assert practised.taught is None and bench.state.rise == second.taught.now


def test_one_sweep_counts_in_one_pair_only(head):
    bench = Bench(made())
    clamp(head, "front")
    m = Machinist(bench, head).start(reason="check-only", spindle="front")
    m.sweep()
    for learns in (True, False, True):
        bench.do("again", {"turned": "arm"})
        head.arm_deg += 180.0
        done = m.sweep()
        assert (done.taught is not None) == learns
        if not learns:
            bench.do("again", {"why": "once more alone"})
            m.sweep()
    assert done.taught.now.pairs == 2 and near(done.results) < 0.0012


@pytest.mark.parametrize("reason", ["crash", "maintenance"])
def test_after_a_crash_or_work_on_the_bearings_it_is_not_known_any_more(head, reason):
    bench = Bench(made())
    audit(bench, head, "front")
    (after,) = audit(bench, head, "front", reason=reason, turn=False)
    assert after.added == () and bench.state.rise is None
    _, anew = audit(bench, head, "front", reason=reason)
    assert bench.state.rise == anew.taught.now and anew.taught.now.pairs == 1


def test_a_swung_ram_voids_it_said_on_the_card_or_in_the_file(head):
    bench = Bench(made())
    audit(bench, head, "front")
    known = bench.state.rise
    (after,) = audit(bench, head, "front", turn=False, ram_moved=True)
    assert after.added == () and bench.state.rise is None
    bench = Bench(made())
    audit(bench, head, "front")
    assert bench.state.rise == known
    bench.setup = changed(bench.setup, machine={"ram_angle": 0.2})
    (after,) = audit(bench, head, "front", turn=False)
    assert after.added == () and bench.state.rise is None


def test_a_rise_that_changed_is_said_and_learned_anew(head):
    bench = Bench(made(axial=0.004))
    head.spec = replace(head.spec, axial_mm=0.004)
    audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="right")
    (told,) = [f for f in turned.findings if f.code == "differs"]
    assert "The spindle's rise and fall is" in en(told.said) and turned.usable
    assert bench.state.rise == turned.differs.now and bench.state.rise.pairs == 1
    assert near(turned.results) < 0.0012


def test_a_mark_misread_by_half_a_turn_is_said_and_teaches_nothing(head):
    bench = Bench(made(axial=0.004))
    head.spec = replace(head.spec, axial_mm=0.004)
    _, first = audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="back", why="misread")
    (told,) = [f for f in turned.findings if f.code == "differs-other-way"]
    assert KEY in en(told.said)
    assert turned.taught is None and bench.state.rise == first.taught.now


def test_its_doubt_grows_with_the_years(head):
    bench = Bench(made())
    _, turned = audit(bench, head, "front")
    bench.shop = replace(
        bench.shop,
        machines={
            bench.machine: replace(bench.state, rise=replace(bench.state.rise, day="2016-06-01"))
        },
    )
    (later,) = audit(bench, head, "front", turn=False)
    years, a_year = 10.0, Doubts().spindle_changes
    grown = math.hypot(turned.taught.now.u_by_eye, a_year * years / math.sqrt(3.0))
    assert u_of(later, "term-axial") == pytest.approx(2.0 * grown, rel=0.01)


def test_an_arm_taken_out_in_the_middle_is_no_longer_known_to_stand_so(head):
    bench = Bench(made())
    _, first = audit(bench, head, "front")
    clamp(head, "front")
    m = Machinist(bench, head).start(reason="check-only", spindle="front")
    assert m.sweep().added[0].learned == first.taught.now.audit
    m.work("clear")
    bench.do("again", {"because": "unsure", "arm": "out"})
    bench.powered()
    bench.do("prepared", {"serial_number": "P-1"})
    m.step()
    m.step()
    assert m.sweep().added == ()


def test_it_is_asked_only_where_the_file_names_a_mark_and_one_gauge_is_read():
    for setup, asked in (
        (made(), True),
        (setup_of(), False),
        (with_bar(made(), 120.0), False),
    ):
        bench = Bench(setup)
        bench.open("check-only")
        bench.powered()
        fields = {f["name"] for a in bench.console["actions"] for f in a["fields"]}
        assert ("spindle" in fields) == asked
    plain = Bench(setup_of())
    plain.open("check-only")
    refused = plain.refused("prepared", {"serial_number": "P-1", "spindle": "front"})
    assert refused.code == "no-spindle-mark" and "spindle_mark" in en(refused)
