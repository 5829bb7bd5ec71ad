"""A pair check of tight bolts: what only tightening, or the other axis's move, cannot have done."""

from dataclasses import replace

import pytest

from daq.audit.head import standing
from daq.audit.recompute import differences
from daq.screens.wall import wall
from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench
from tests.audit.nod_bolts import BOLTS
from tests.audit.pupil import audit, head_at, setup
from tests.audit.rigid import told
from tests.audit.test_before_the_other import first_tight
from tests.words import en


def first_check(b):
    """The nod moved and tight, its own check under way; the machinist."""
    m = audit(b, head_at(0.4, -0.5)).work("tighten")
    m.step()
    assert (b.job.step, b.job.axis) == ("check", "nod")
    return m


def both(m):
    """Both readings of a check; its CheckDone."""
    m.step()
    m.step()
    return told(m.bench, "CheckDone")[-1]


def recheck(b):
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def knocked(m):
    m.head.shift("side", 0.15)
    return both(m)


def preset_between(m):
    m.step()
    m.plus_mm += 0.5
    m.step()
    return told(m.bench, "CheckDone")[-1]


def spots_mistaken(m):
    left, right = m.face("left"), m.face("right")
    m.bench.take("left", right)
    m.bench.take("right", left)
    return told(m.bench, "CheckDone")[-1]


@pytest.mark.parametrize("happens", [knocked, preset_between, spots_mistaken])
def test_what_the_other_move_cannot_have_done_is_said_and_teaches_nothing(happens):
    b = Bench(setup())
    m = first_tight(b)
    before = b.job.head.learned
    done = happens(m)
    assert (done.axis, done.strange, done.shift_mm) == ("side", "bumped", None)
    said = b.console["message"]["say"]
    assert said.startswith("This is not what moving nod does to side to side:")
    assert "the ram is swung otherwise than said" in said
    assert b.job.head.learned == before
    assert b.job.step == "park"
    recheck(b)


def test_after_a_knock_the_axis_is_squared_from_where_it_stands():
    b = Bench(setup())
    m = first_tight(b)
    knocked(m)
    signed = m.finish()
    assert signed.verdict == "conforms"
    assert abs(m.head.true_mm("side")) < 0.01
    recheck(b)


def test_a_knock_while_tightening_is_read_again_said_and_not_taken_for_tightening():
    b = Bench(setup())
    m = first_check(b)
    m.head.shift("nod", 0.15)
    once = both(m)
    assert (once.strange, once.shift_mm) == ("again", None)
    assert once.doubted_mm == pytest.approx(0.15, abs=0.002)
    assert b.console["message"]["say"] == (
        f"Nod reads {once.doubted_mm:.3f} otherwise than before tightening: knocked, or did the "
        "number jump? "
        "Read both spots again."
    )
    assert en(wall(b.shop.machine("mill"), "Mill").headline) == "Read both spots again."
    assert (b.job.step, b.job.axis, b.job.reads.taken) == ("check", "nod", ())
    twice = both(m)
    assert (twice.strange, twice.shift_mm) == ("bumped", None)
    assert "Nothing is learned from it unless it comes again." in b.console["message"]["say"]
    assert twice.results.nod.d_mm == pytest.approx(m.head.true_mm("nod"), abs=0.002)
    signed = m.finish()
    assert signed.verdict == "conforms"
    assert max(abs(each.shift_mm) for each in signed.shifts) < 0.003
    assert abs(b.shop.machine("mill").learned.answering.shift("nod") * 200.0) < 0.003
    recheck(b)


def preset_before(m):
    m.plus_mm += 0.5
    return both(m)


@pytest.mark.parametrize("jumps", [preset_before, preset_between])
def test_a_number_that_jumped_shows_when_both_spots_are_read_again(jumps):
    b = Bench(setup())
    m = first_check(b)
    assert jumps(m).strange == "again"
    twice = both(m)
    assert (twice.strange, twice.shift_mm) == ("", pytest.approx(0.0, abs=0.002))
    assert m.finish().verdict == "conforms"
    recheck(b)


def test_what_tightening_does_twice_is_its_own_doing():
    b = Bench(setup())
    m = audit(b, head_at(0.4, -0.5))
    m.shifts = {"nod": 0.048}
    signed = m.finish()
    assert signed.verdict == "conforms"
    nods = [each for each in told(b, "CheckDone") if each.axis == "nod"]
    kept = [each.shift_mm for each in signed.shifts if each.axis == "nod"]
    assert kept == pytest.approx([0.048] * len(kept), abs=0.003) and kept
    assert [each.strange for each in nods if each.strange] == ["again", "bumped"]
    recheck(b)


def test_what_each_watched_bolt_did_is_believed_when_it_is_read_twice():
    b = Bench(setup(nod={"tighten": Tighten(BOLTS, passes=1, limit=0.1)}))
    m = audit(b, head_at(0.4, -0.5))
    m.shifts = {"nod": 0.048}
    m.work("check")
    while b.job.loose or not told(b, "Tightened"):
        m.step()
    once, twice = both(m), both(m)
    assert (once.strange, twice.strange) == ("again", "")
    assert twice.shift_mm == pytest.approx(0.048, abs=0.003)
    assert b.job.head.learned.answering.shift("nod") > 0.0


def test_what_tightening_may_well_do_is_believed_at_once():
    b = Bench(setup())
    m = first_check(b)
    m.head.shift("nod", 0.025)
    done = both(m)
    assert (done.strange, b.console["message"]) == ("", None)
    assert done.shift_mm == pytest.approx(0.025, abs=0.002)


def test_a_gauge_that_was_away_between_two_checks_may_have_another_zero():
    b = Bench(setup())
    m = first_tight(b)
    pivot = b.job.head.learned.answering.pivot_mm("nod")
    b.do("gauge-fault", {"code": "silent"})
    b.do("gauge-back", {"run": "run-2", "gauge": "arm"})
    old, m.plus_mm = b.samples, m.plus_mm + 0.4
    b.samples = lambda values: [replace(sample, run="run-2") for sample in old(values)]
    assert both(m).strange == ""
    answering = b.job.head.learned.answering
    assert answering.pivot_mm("nod") == pytest.approx(pivot, abs=0.5)
    assert answering.coupling("nod") == pytest.approx(-0.02, abs=0.01)


def test_the_check_before_a_move_may_be_left_for_a_sweep_or_as_it_is():
    b = Bench(setup())
    m = first_tight(b)
    assert [a["kind"] for a in b.console["actions"]] == [
        "take",
        "touch",
        "again",
        "stop-here",
        "undo",
        "hand-over",
        "put-aside",
        "abandon",
    ]
    b.do("stop-here", {"why": "end of shift"})
    assert m.sweep().purpose == "final"
    assert b.job.step == "clear"


def test_a_touch_test_between_the_readings_of_a_check_counts_neither_twice():
    b = Bench(setup())
    m = first_tight(b)
    m.step()
    b.do("touch")
    b.do("take", {}, [0.0] * 10)
    m.step()
    assert told(b, "CheckDone")[-1].strange == ""
    assert b.job.step == "park"
    # What was learned is what the whole story says, the zero between included.
    assert b.job.head.learned.answering == standing(b.job).answering
    recheck(b)
