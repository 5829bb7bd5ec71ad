"""Whether what a screen says is true of the head and the gauge as they stand at that moment."""

import math

import pytest

from daq.audit.views.to_go import to_go
from daq.metrology.rule import NOT_GOOD_ENOUGH, Rule
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.words import en


def machine(**more):
    return changed(setup_of(limit=0.025, nod_pivot=150.0, height=400.0), **more)


def cracked(setup, drop_mm, nod_mm=-0.06, sense=1.0):
    """Nod is out, its bolts were cracked and the parked number dropped by so much, pushed in."""
    m = Machinist(Bench(setup), RigidHead(mill(), 0.0, nod_mm), sense=sense).start()
    m.work("loosen")
    before = m.face("front")
    m.bench.do("loosened", {}, [round(before + sense * drop_mm, 3)] * 10)
    return m.bench, before


WORM = {"adjust": Adjust("worm", finish_raising="front", lead=0.01)}


@pytest.mark.parametrize("sense", [1.0, -1.0], ids=["counts up", "counts down"])
def test_the_way_to_the_stop_at_counts_from_where_the_cracked_head_stands(sense):
    """Nose down 0.150 from a base 0.075 short of its stop-at: the way turns round."""
    setup = machine(gauge={"counts_up": sense > 0.0}, nod=WORM)
    b, before = cracked(setup, 0.150, sense=sense)
    stop = b.job.stop.stop_face_mm
    assert (stop - before) * sense == pytest.approx(0.075, abs=0.002)
    now, shown = round(before + sense * 0.150, 3), b.console["stop_at"]
    assert (stop - now) * sense < 0.0
    up = "down" if sense > 0.0 else "up"
    assert shown["way"] == up
    assert (shown["value"], shown["base"]) == (f"{stop:.3f}", f"{now:.3f}")
    assert float(shown["change"]) == pytest.approx(float(shown["value"]) - float(shown["base"]))
    assert f"The number goes {up} from about {now:.3f}." in b.console["detail"]


def test_a_head_that_did_not_drop_is_button_it_was_planned():
    b, before = cracked(machine(nod=WORM), 0.0)
    shown = b.console["stop_at"]
    assert (shown["way"], shown["base"]) == ("up", f"{before:.3f}")
    assert (
        f"goes up from about {before:.3f}. That is {en(b.job.stop.turns)}." in b.console["detail"]
    )


def test_before_the_bolts_are_cracked_nothing_has_dropped():
    m = Machinist(Bench(machine()), RigidHead(mill(), 0.0, -0.06)).start().work("loosen")
    shown = m.bench.console["stop_at"]
    assert (shown["way"], shown["base"]) == ("up", f"{m.face('front'):.3f}")


@pytest.mark.parametrize(
    ("finish", "drop_mm", "past"),
    [("front", 0.0, True), ("front", 0.150, False), ("back", 0.0, False), ("back", 0.150, True)],
)
def test_going_past_follows_the_way_that_is_left(finish, drop_mm, past):
    """Up is the front going down; after the drop the front is to rise (plane geometry)."""
    b, _ = cracked(machine(nod={"adjust": Adjust("worm", finish_raising=finish)}), drop_mm)
    assert bool(b.console["stop_at"]["past"]) is past
    assert ("past it and come back" in b.console["detail"]) is past
    if past:
        assert f"Go {b.console['stop_at']['past']} past" in b.console["detail"]


def test_going_past_is_button_the_levers_face_shows_it():
    """0.050 of true travel is 0.050 / cos 30° on the face (the cosine of the stylus)."""
    lever = {"cosine": math.cos(math.radians(30.0))}
    nod = {"adjust": Adjust("worm", finish_raising="back")}
    b, _ = cracked(machine(gauge=lever, nod=nod), 0.150)
    assert b.console["stop_at"]["past"] == "0.058"


def test_with_the_pivot_beyond_the_gauge_the_side_that_rises_is_the_other_one():
    """m = (R + p) t: with p below -R the number falls as the front goes down."""
    nod = {"pivot_distance": -400.0, "adjust": Adjust("worm", finish_raising="front")}
    setup = machine(nod=nod)
    m = Machinist(Bench(setup), RigidHead(mill(nod=(-400.0, 0.0)), 0.0, -0.06)).start()
    m.work("loosen")
    stop = m.bench.job.stop
    assert stop.wanted > stop.lean and stop.stop_face_mm < stop.base_face_mm and stop.past_mm
    m.bench.do("loosened", {}, [stop.stop_face_mm - 0.1] * 10)
    assert (m.bench.console["stop_at"]["way"], m.bench.console["stop_at"]["past"]) == ("up", "")


def test_turns_are_those_that_are_left():
    """0.06 of 200 is 0.0003, with 0.01 a turn some 11 degrees; ten times the way is a third."""
    b, _ = cracked(machine(nod=WORM), 0.0)
    assert to_go(b.job, b.job.stop).turns == b.job.stop.turns
    assert en(b.job.stop.turns) == "about 11 degrees"
    b, _ = cracked(machine(nod=WORM), 0.075 + 0.75)
    assert en(to_go(b.job, b.job.stop).turns) == "about a third of a turn"


def test_warnings_are_of_the_way_that_is_left():
    b, _ = cracked(machine(gauge={"travel": 2.0}), 0.0)
    assert b.console["warnings"] == []
    b, _ = cracked(machine(gauge={"travel": 2.0}), 0.9)
    assert any("runs out of travel" in warning for warning in b.console["warnings"])


def test_dropped_right_onto_the_stop_at_there_is_no_way_to_tell():
    m = Machinist(Bench(machine(nod=WORM)), RigidHead(mill(), 0.0, -0.06)).start().work("loosen")
    b = m.bench
    b.do("loosened", {}, [round(b.job.stop.stop_face_mm, 3)] * 10)
    assert b.console["stop_at"]["change"] == "0.000"
    assert b.console["detail"].startswith("It reads that already.")


def swept(setup, side_mm, nod_mm=0.0):
    b = Bench(setup).start()
    done = b.sweep(1.2 + nod_mm / 2, 1.2 + side_mm / 2, 1.2 - nod_mm / 2, 1.2 - side_mm / 2)
    return b, done


@pytest.mark.parametrize(
    ("nod_mm", "low"),
    [
        (0.015, "nodded down, but not enough"),
        (0.020, "nodded down, as wanted"),
        (0.025, "nodded too far down"),
        (0.000, "level: nodded too far up"),
        (-0.005, "nodded too far up"),
    ],
)
def test_with_a_wanted_lean_the_low_side_is_the_leans(nod_mm, low):
    """Wanted is the front low by 0.020 across the sweep: 0.0001 of 200."""
    b, done = swept(machine(nod={"wanted_lean": 1e-4}), 0.0, nod_mm)
    assert done.results.nod.error_mm == pytest.approx(nod_mm - 0.020, abs=1e-9)
    assert b.console["axes"][1]["low"] == low


def test_with_a_lean_wanted_to_the_left_the_left_is_named():
    b, _ = swept(machine(side={"wanted_lean": -1e-4}), -0.015)
    assert b.console["axes"][0]["low"] == "left end low, but not enough"
    b, _ = swept(machine(side={"wanted_lean": -1e-4}), -0.025)
    assert b.console["axes"][0]["low"] == "left end too low"


def test_without_a_wanted_lean_the_low_side_is_all_there_is_to_say():
    for mm, low in ((0.01, "nodded down"), (-0.01, "nodded up"), (0.0, "level")):
        assert swept(machine(), 0.0, mm)[0].console["axes"][1]["low"] == low


def test_uneven_limits_about_a_wanted_lean_are_those_of_the_error():
    b, _ = swept(machine(nod={"wanted_lean": 1e-4, "limit_low": 0.015}), 0.0, 0.02)
    assert b.console["axes"][1]["limit"] == "nodded too far down 0.017, nodded too far up 0.010"


@pytest.mark.parametrize(
    ("kind", "unit", "about"),
    [
        ("plunger", "mm", "1 mm"),
        ("plunger", "in", "0.050 in"),
        ("lever", "mm", "0.2 mm"),
        ("lever", "in", "0.008 in"),
    ],
)
def test_a_contact_is_pushed_in_as_its_kind_allows(kind, unit, about):
    """Plunger about 1 mm, lever 0.1 to 0.25 mm: common practice, no source."""
    b = Bench(machine(gauge={"kind": kind}))
    b.unit = unit
    b.start()
    assert f"until about {about} is pushed in." in b.console["detail"]


VECTOR = {"verdict": Rule("simple", together="vector")}


def test_each_axis_inside_and_the_whole_out_is_said_where_it_is_moved():
    """0.0125 each way is 0.0177 long, over the limit of 0.0167 (Pythagoras)."""
    b, done = swept(machine(machine=VECTOR), 0.0125, 0.0125)
    assert (done.results.side.word, done.results.nod.word, done.whole.word, b.job.step) == (
        "in",
        "in",
        "out",
        "park",
    )
    assert b.console["notes"][0] == "Each axis is inside; the lean as a whole is out."
    for axis in b.console["numbers"]["axes"]:
        assert (axis["word"], axis["probability"] != "") == ("out", True)


def test_a_whole_too_close_to_call_is_said_so():
    guarded = {"verdict": Rule(together="vector")}
    b, done = swept(machine(machine=guarded), 0.0100, 0.0100)
    assert (done.results.side.word, done.results.nod.word, done.whole.word) == ("in", "in", "close")
    said = "Each axis is inside; the lean as a whole is too close to call."
    assert said in b.console["notes"]
    numbers = b.console["numbers"]["axes"]
    assert [axis["word"] for axis in numbers] == ["too close to call"] * 2
    assert numbers[0]["probability"] == numbers[1]["probability"]


def test_a_whole_that_is_reported_only_is_said_in_the_verdict():
    setup = machine(machine=VECTOR)
    b = Bench(setup).start(reason="check-only")
    b.sweep(1.20625, 1.20625, 1.19375, 1.19375)
    said = "Each axis is inside; the lean as a whole is out."
    assert b.console["verdict"] == {"word": "out", "say": said}
    b.do("cleared")
    b.do("sign", {"done_by": "T", "last_good": "2026-01-05", "disposition": "none"})
    assert b.console["verdict"] == {"word": "out", "say": said}


@pytest.mark.parametrize("together", ["each", "vector"])
def test_judged_by_axis_nothing_is_said_of_a_whole_that_is_inside(together):
    b, _ = swept(machine(machine={"verdict": Rule("simple", together=together)}), 0.02, 0.0)
    assert b.job.step == "park"
    assert not any("as a whole" in note for note in b.console["notes"])


def limit_between(setup):
    """A limit over 300 at which an axis could be called in, but not the length of the lean."""
    _, done = swept(setup, 0.0)
    # A zone needs 1.96 u each way, a circle 2.45 u (normal and χ² quantiles of 95 %); with
    # few degrees of freedom a little more of both.
    return 2.2 * max(done.results.side.u_mm, done.results.nod.u_mm) * 300.0 / 200.0


def test_a_gauge_not_good_enough_for_the_whole_is_said_to_be():
    wide = machine(machine={"verdict": Rule(together="vector")})
    limit = limit_between(wide)
    for together, good in (("each", True), ("vector", False)):
        setup = machine(machine={"verdict": Rule(together=together)}, both={"limit": limit})
        b, done = swept(setup, 0.0)
        assert done.results.side.good_enough and done.results.nod.good_enough
        note = "" if good else en(NOT_GOOD_ENOUGH)
        assert [axis["note"] for axis in b.console["axes"]] == [note, note]
        assert [axis["good_enough"] for axis in b.console["numbers"]["axes"]] == [good, good]
        assert (b.console["verdict"]["say"] == en(NOT_GOOD_ENOUGH)) is not good
        b.do("cleared")
        b.do("sign", {"done_by": "T"})
        assert [axis["note"] for axis in b.console["axes"]] == [note, note]


def test_with_both_axes_loose_the_screen_does_not_call_the_other_tight():
    setup = machine(machine={"loosen": "both"})
    m = Machinist(Bench(setup), RigidHead(mill(), 0.3, -0.4)).start()
    b = m.bench
    seen = []
    for _ in range(60):
        if b.job.step in ("clear", "sign"):
            break
        others = b.job.loose - {b.job.axis}
        if b.job.step in ("park", "loosen", "move") and others and b.job.base is None:
            seen.append(b.job.step)
            bolts = setup.machine.axis(next(iter(others))).bolts
            assert f"T{bolts[1:]} are cracked too." in b.console["notes"]
        if others:
            text = " ".join((b.console["detail"], *b.console["notes"]))
            assert "tight for now" not in text and "still tight" not in text
        m.step()
    assert "park" in seen


def test_with_one_axis_loose_at_a_time_the_other_is_kept_tight():
    m = Machinist(Bench(machine()), RigidHead(mill(), 0.3, -0.4)).start().work("park")
    assert "Bolts still tight." in m.bench.console["detail"]
    assert "Keep the side bolts tight for now." in m.bench.console["notes"]


def brought_closer():
    b = Bench(machine()).start()
    b.take("front", 1.2)
    b.do("off-scale", {"position": "right"})
    b.closer()
    return b


def test_a_head_brought_closer_may_still_be_off_scale():
    b = brought_closer()
    assert (b.job.step, b.job.sweeps.latest) == ("final", None)
    (off,) = [a for a in b.console["actions"] if a["kind"] == "off-scale"]
    assert off["say"] == "Off scale at the front: record it"
    assert off["payload"] == {"position": "front"}
    assert off["confirm"].startswith("The head as it is now is recorded")


def test_once_it_could_be_swept_it_is_not_off_scale_any_more():
    b = brought_closer()
    b.sweep(1.203, 1.203, 1.197, 1.197)
    b.do("again", {"why": "to be sure"})
    assert b.job.step == "final"
    assert {"take", "off-scale"} & {a["kind"] for a in b.console["actions"]} == {"take"}


def test_a_head_that_was_swept_as_found_is_never_off_scale_later():
    m = Machinist(Bench(machine()), RigidHead(mill(), 0.0, -0.06)).start().work("final")
    assert told(m.bench, "SweepDone")
    assert {"take", "off-scale"} & {a["kind"] for a in m.bench.console["actions"]} == {"take"}
