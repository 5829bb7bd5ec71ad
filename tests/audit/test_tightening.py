"""Pulling up the bolts: step by step on the live number, learned from check to check."""

import pytest

from daq.audit.recompute import differences
from daq.squaring.tightening import HEADS, Tighten, steps
from tests.audit.conftest import Bench
from tests.audit.nod_bolts import BOLTS, nod_loose, setup
from tests.audit.rigid import Machinist, RigidHead, leans_mm, mill, told
from tests.words import en

SIDE_BOLTS = ("side bolt 1", "side bolt 2")
SHIFTS = {"side": 0.005, "nod": -0.006}
DIAMETER_MM = 200.0


def bolted(loosen="one", passes=2):
    nod = {"tighten": Tighten(BOLTS, passes=passes)}
    return setup(loosen, nod=nod, side={"tighten": Tighten(SIDE_BOLTS, passes=passes)})


def machinist(made, side_mm=0.3, nod_mm=-0.4, **more):
    return Machinist(Bench(made), RigidHead(mill(), side_mm, nod_mm), **more).start()


def test_bolts_are_pulled_up_in_the_files_order_and_passes():
    m = machinist(bolted()).work("clear")
    pulled = told(m.bench, "BoltPulled")
    nod = [(each.bolt, each.step) for each in pulled if each.axis == "nod"]
    expected = [(step.bolt, n) for n, step in enumerate(steps(Tighten(BOLTS, passes=2)), 1)]
    assert nod == expected
    assert [bolt for bolt, _ in nod] == [*BOLTS, *BOLTS]


def test_each_step_names_its_bolt_and_how_far():
    m = machinist(bolted(passes=3)).work("tighten")
    b = m.bench
    named, first = b.setup.machine.axis(b.job.axis).tighten.bolts, b.console
    assert first["title"] == f"Pull up {named[0]}, to a third."
    assert first["do"]["kind"] == "bolt" and first["do"]["bolt"] == named[0]
    assert first["actions"][0]["payload"] == {"bolt": named[0]}
    said = b.refused("bolt", {"bolt": named[1]}, [1.5] * 10)
    assert f"allowed: '{named[0]}', which is next" in en(said)
    m.step()
    assert b.console["do"]["bolt"] == named[1]


def test_the_last_step_is_tight():
    m = machinist(bolted()).work("tighten")
    b, axis = m.bench, m.bench.job.axis
    for _ in steps(b.setup.machine.axis(axis).tighten):
        assert b.job.step == "tighten" and axis in b.job.loose
        m.step()
    assert b.job.step == "check" and axis not in b.job.loose
    assert b.refused("undo").code == "nothing-to-take-back" or b.job.trail == ()


def test_all_tight_may_be_said_before_the_last_step():
    m = machinist(bolted()).work("tighten")
    m.step()
    m.bench.do("tightened", {}, [m.face(m.place)] * 10)
    assert m.bench.job.step == "check"


def test_bolts_that_are_not_named_are_not_pulled_up_one_by_one():
    m = machinist(setup()).work("tighten")
    said = m.bench.refused("bolt", {"bolt": "1"}, [1.5] * 10)
    assert said.code == "bolts-not-watched"


def test_the_live_number_counts_down_to_what_it_read_before_the_first_bolt():
    m = machinist(bolted()).work("tighten")
    before = m.face(m.place)
    assert m.bench.aim.stop_face_mm == pytest.approx(before, abs=1e-9)
    m.head.lift_mm += 0.003
    m.step()
    (pulled,) = told(m.bench, "BoltPulled")
    assert pulled.since_face_mm == pytest.approx(m.face(m.place) - before, abs=1e-9)
    assert m.bench.aim.stop_face_mm == pytest.approx(before, abs=1e-9)


def test_every_step_is_recorded_with_its_shift():
    """A sixth of -0.006 nod a step on 150 + 100 mm: 0.0075/8 on the live number."""
    m = machinist(bolted(), shifts={"nod": -0.048}).work("clear")
    pulled = [each for each in told(m.bench, "BoltPulled") if each.axis == "nod"]
    a_step = -0.048 / 8.0 / DIAMETER_MM * (150.0 + 100.0)
    for each in pulled[:8]:
        assert each.shift_face_mm == pytest.approx(a_step, abs=0.0011)
        assert each.over and each.bolt.capitalize() in en(each)
    assert pulled[7].since_face_mm == pytest.approx(8.0 * a_step, abs=0.0011)


def test_a_step_back_is_over_the_limit_too():
    m = machinist(bolted()).work("tighten")
    m.head.lift_mm += 0.011
    m.step()
    (pulled,) = told(m.bench, "BoltPulled")
    assert pulled.over and "by 0.011" in en(pulled)


def test_the_shift_is_taken_from_check_to_check_not_from_the_live_number():
    """Tightening lifts the whole head by 0.020: the live number moves and the lean does not."""
    m = machinist(bolted(), lift_mm=0.020).work("clear")
    pulled = [each for each in told(m.bench, "BoltPulled") if each.axis == "nod"]
    assert abs(pulled[7].since_face_mm) == pytest.approx(0.020, abs=0.0015)
    assert [shift.shift_mm for shift in m.bench.job.tightening.shifts] == pytest.approx(
        [0.0] * len(m.bench.job.tightening.shifts), abs=0.0011
    )


def offset_of(m, axis):
    """How far from the wanted lean the latest stop-at of an axis ends, mm across the sweep."""
    stop = [each.stop for each in told(m.bench, "Parked") if each.axis == axis][-1]
    return stop.wanted * DIAMETER_MM


def shrunk(n, shift_mm):
    """What n like shifts lead to expect, n·s₀²/(n·s₀² + s²) of them (textbook shrinkage).

    Each shift is read to a count, so that their scatter is pooled with the habit's.
    """
    known = n * HEADS.mean_sd**2
    return known / (known + HEADS.scatter**2) * shift_mm


def test_the_first_tightening_of_a_head_is_not_offset():
    m = machinist(setup(), side_mm=0.3, nod_mm=0.0, shifts=SHIFTS).work("loosen")
    assert offset_of(m, "side") == pytest.approx(0.0, abs=1e-9)


def test_from_the_first_tightening_on_the_stop_at_is_offset_by_what_is_expected():
    m = machinist(setup(), side_mm=0.3, nod_mm=0.0, shifts=SHIFTS)
    m.finish()
    m.head.shift("side", 0.3)
    m.start().work("loosen")
    seen = [shift.shift_mm for shift in m.bench.shop.machine("mill").history.latest[0].shifts]
    assert seen == pytest.approx([SHIFTS["side"]] * len(seen), abs=0.0015)
    expected = shrunk(len(seen), sum(seen) / len(seen))
    assert offset_of(m, "side") == pytest.approx(-expected, rel=0.1)
    assert offset_of(m, "side") == pytest.approx(-SHIFTS["side"], rel=0.25)


def test_after_some_tightenings_tightening_lands_on_the_wanted_lean():
    m = machinist(setup(), shifts=SHIFTS)
    m.finish()
    for _ in range(3):
        m.head.shift("side", 0.2)
        m.head.shift("nod", -0.3)
        m.start()
        signed = m.finish()
        assert (signed.verdict, signed.moves) == ("conforms", 2)
    for axis, left in leans_mm(m.head).items():
        assert left == pytest.approx(0.0, abs=0.0025), axis


def test_the_shifts_are_listed_in_the_signature_and_kept():
    m = machinist(setup(), shifts=SHIFTS)
    signed = m.finish()
    assert {shift.axis for shift in signed.shifts} == {"side", "nod"}
    for shift in signed.shifts:
        assert shift.shift_mm == pytest.approx(SHIFTS[shift.axis], abs=0.0015)
    known = m.bench.shop.machine("mill").learned
    assert (known.shift_stats.side.n, known.shift_stats.nod.n) == tuple(
        sum(shift.axis == axis for shift in signed.shifts) for axis in ("side", "nod")
    )
    assert known.shift_stats.side.mean * DIAMETER_MM == pytest.approx(SHIFTS["side"], abs=0.0015)


def test_practice_teaches_nothing_of_tightening():
    m = machinist(setup(), shifts=SHIFTS)
    m.finish()
    before = m.bench.shop.machine("mill").learned
    m.head.shift("side", 0.2)
    m.shifts = {"side": -0.02}
    m.start("practice").finish()
    assert m.bench.shop.machine("mill").learned == before


def test_with_both_loose_one_axis_is_tightened_after_the_other():
    m = machinist(setup("both"))
    m.finish()
    order = [
        (event.type, event.data["axis"])
        for event in m.bench.events
        if event.type in ("Loosened", "Moved", "Tightened")
    ]
    first = order[0][1]
    second = "nod" if first == "side" else "side"
    loosened = [axis for kind, axis in order if kind == "Loosened"]
    assert loosened == [first, second]
    at = [order.index(("Loosened", second)), order.index(("Tightened", second))]
    # Both were moved before either was tightened.
    assert at[0] < min(order.index(("Tightened", axis)) for axis in ("side", "nod"))
    assert {axis for kind, axis in order if kind == "Tightened"} == {"side", "nod"}


def test_with_both_loose_every_bolt_is_pulled_up():
    m = machinist(bolted("both"), shifts=SHIFTS)
    signed = m.finish()
    assert signed.verdict == "conforms"
    pulled = [each.bolt for each in told(m.bench, "BoltPulled")]
    for named in (BOLTS, SIDE_BOLTS):
        assert [bolt for bolt in pulled if bolt in named][: 2 * len(named)] == [*named, *named]
    assert signed.shifts != ()
    assert list(differences(m.bench.events, m.bench.chunks.__getitem__)) == []


def test_with_one_at_a_time_the_other_axis_stays_tight():
    m = machinist(setup("one"))
    for _ in range(200):
        if m.bench.job.step == "clear":
            break
        m.step()
        assert len(m.bench.job.loose) <= 1
    assert m.bench.job.step == "clear"


def test_with_both_loose_each_tightening_teaches_its_shift():
    m = machinist(setup("both"), shifts=SHIFTS)
    signed = m.finish()
    assert {shift.axis for shift in signed.shifts} == {"side", "nod"}
    for shift in signed.shifts:
        assert shift.shift_mm == pytest.approx(SHIFTS[shift.axis], abs=0.002)


def test_with_both_loose_the_first_bolt_of_the_second_axis_is_watched_too():
    """A step that moves the head is seen whichever bolt it is."""
    m = machinist(bolted("both"))
    b = m.bench
    while len(b.job.loose) < 2 or b.job.step != "tighten":
        m.step()
    first = b.job.axis
    while not (b.job.step == "tighten" and b.job.axis != first):
        m.step()
    m.head.lift_mm += 0.012
    m.step()
    pulled = told(b, "BoltPulled")[-1]
    assert (pulled.axis != first, pulled.step) == (True, 1)
    assert pulled.over and "0.012" in en(pulled)


def between_bolts(free_mm=0.1):
    """Nod squared, loose and parked at the front at 1.100, one bolt of four pulled up."""
    b = nod_loose(free_mm=free_mm)
    b.do("bolt", {"bolt": BOLTS[0]}, [1.101] * 10)
    return b


def test_a_zero_between_two_bolts_is_no_shift_of_the_head():
    b = between_bolts()
    b.do("zeroed", {}, [1.101] * 12 + [0.0] * 5)
    assert b.aim.stop_face_mm == pytest.approx(-0.001, abs=1e-9)
    (pulled,) = b.do("bolt", {"bolt": BOLTS[1]}, [0.002] * 10)
    assert (pulled.over, pulled.said) == (False, None)
    assert pulled.shift_face_mm == pytest.approx(0.002, abs=1e-9)
    assert pulled.since_face_mm == pytest.approx(0.003, abs=1e-9)


def test_a_zero_in_the_air_between_two_bolts_names_no_bolt():
    """What the gauge reads on the spot now is not known: the next step counts from itself."""
    b = between_bolts(free_mm=0.0)
    b.do("zeroed", {}, [1.101] * 8 + [0.6] + [0.0] * 6)
    assert b.job.step == "touch-free"
    b.do("take", {}, [-1.101] * 10)
    (pulled,) = b.do("bolt", {"bolt": BOLTS[1]}, [0.002] * 10)
    assert (pulled.over, pulled.shift_face_mm) == (False, 0.0)


def test_bolts_are_watched_from_where_the_gauge_was_left():
    """The pair check read the front first: the gauge stands at the back, at another number."""
    b = nod_loose(back_mm=1.090, then="back")
    assert b.aim.stop_face_mm == pytest.approx(1.090, abs=1e-9)
    (pulled,) = b.do("bolt", {"bolt": BOLTS[0]}, [1.091] * 10)
    assert pulled.shift_face_mm == pytest.approx(0.001, abs=1e-9)
    assert not pulled.over
