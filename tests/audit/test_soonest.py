"""Where time is saved: what is left out is said and recorded, and nothing is lost by it."""

import pytest

from daq.audit.recompute import differences
from daq.audit.stages.sweep import done
from daq.metrology.rule import Rule
from daq.records.lines import lines
from daq.records.record import StoredRow, record
from daq.screens.wall import wall
from daq.squaring.adjuster import Adjust
from daq.squaring.pace import USUAL
from daq.words import OPPOSITE, PARKED
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, leans_mm, mill, told

LIMIT_MM = 0.010
QUICK = changed(setup_of(nod_pivot=150.0, height=400.0), machine={"plan": "quick"})


def machinist(setup=QUICK, side_mm=0.3, nod_mm=-0.4, bench=None, **more):
    return Machinist(bench or Bench(setup), RigidHead(mill(), side_mm, nod_mm), **more)


def read_at(bench):
    return [each.reading.position for each in told(bench, "ReadingTaken")]


def learned(setup=QUICK):
    """A bench whose head is known from three audits."""
    b = Bench(setup)
    for side_mm, nod_mm in ((0.3, -0.4), (-0.2, 0.5), (0.4, 0.3)):
        machinist(setup, side_mm, nod_mm, b).start().finish()
    return b


@pytest.mark.parametrize(("side_mm", "nod_mm"), [(0.3, -0.4), (-0.05, 0.6), (0.0, 0.2)])
def test_an_audit_ends_with_the_head_inside_and_decides_the_same_again(side_mm, nod_mm):
    m = machinist(side_mm=side_mm, nod_mm=nod_mm)
    signed = m.start().finish()
    assert signed.verdict == "conforms"
    assert all(abs(mm) < LIMIT_MM for mm in leans_mm(m.head).values())
    assert list(differences(m.bench.events, m.bench.chunks.__getitem__)) == []


def test_a_known_head_takes_a_move_an_axis_and_no_pair_is_read():
    b = learned()
    seen = len(b.events)
    signed = machinist(bench=b, side_mm=-0.3, nod_mm=0.2).start().finish()
    last = [event.type for event in b.events[seen:]]
    assert signed.moves == 2
    assert "CheckDone" not in last
    assert last.count("SweepDone") == 2


def test_a_sweep_that_could_change_no_word_is_not_read_back_and_says_so():
    m = machinist().start()
    places = m.bench.setup.plan.positions
    for _ in places:
        found = m.step()
    (swept,) = (data for data in found if type(data).__name__ == "SweepDone")
    assert read_at(m.bench) == list(places)
    assert not swept.returned
    assert swept.next.left_out.code == "return-left-out"
    terms = {term.code: term for term in swept.budgets.side.terms}
    assert terms["term-return"].u_mm > 0.0
    assert "Not read back" in " ".join(m.bench.console["notes"])
    assert swept.next.left_out not in wall(m.bench.state, "Mill").notes


def test_a_sweep_at_the_edge_is_read_back():
    simple = changed(QUICK, machine={"verdict": Rule("simple", share=1.0)})
    m = machinist(simple, 0.0, LIMIT_MM - 0.0003).start()
    for _ in (*m.bench.setup.plan.positions, "again"):
        found = m.step()
    (swept,) = (data for data in found if type(data).__name__ == "SweepDone")
    assert swept.returned and read_at(m.bench)[0] == read_at(m.bench)[-1]


def test_the_last_sweep_begins_where_the_gauge_stands_and_unwinds_its_cable():
    b = learned()
    m = machinist(bench=b, side_mm=-0.3, nod_mm=0.2).start().work("final")
    stood, wound = b.job.gauge.at, b.job.gauge.wound_deg
    began = len(read_at(b))
    m.work("clear")
    swept = read_at(b)[began:]
    assert swept[0] == stood
    assert abs(b.job.gauge.wound_deg) < abs(wound) <= 360.0
    every = b.setup.plan.positions
    step = every.index(swept[1]) - every.index(swept[0])
    assert step % len(every) == (len(every) - 1 if wound > 0.0 else 1)


def test_half_a_turn_is_told_with_the_place_on_the_way():
    m = machinist().start().work("check")
    m.step()
    notes = m.bench.console["notes"]
    assert m.bench.job.gauge.at == PARKED["nod"] and m.look()["do"]["position"] == OPPOSITE["front"]
    assert [note for note in notes if note.startswith("Half a turn, with the gauge at the ")]


BOTH = changed(QUICK, machine={"loosen": "both"})


def test_the_bolts_of_both_axes_are_cracked_and_tightened_at_once():
    b = Bench(BOTH)
    m = machinist(BOTH, bench=b).start().work("park")
    assert not any("Keep" in note for note in b.console["notes"])
    m.work("loosen")
    assert b.console["title"] == "Crack the side bolts and the nod bolts."
    m.step()
    assert b.job.loose == {"side", "nod"}
    m.work("tighten")
    assert b.console["title"] == "Tighten the side bolts and the nod bolts."
    m.step()
    assert not b.job.loose
    assert m.finish().verdict == "conforms"
    assert (len(told(b, "Loosened")), len(told(b, "Tightened"))) == (1, 1)


def test_a_head_that_only_bolts_hold_is_supported_for_both_before_the_base_is_read():
    held = changed(BOTH, nod={"adjust": Adjust("hand")})
    m = machinist(held, 0.5, 0.1).start().work("park")
    assert m.bench.job.axis == "side"
    assert any("Only the bolts hold this head" in each for each in m.bench.console["cautions"])


def test_how_long_each_step_took_is_learned_but_not_from_practice():
    b = Bench(QUICK)
    m = machinist(bench=b)
    m.obedient.hand = type(m.obedient.hand)(pace_s=20.0)
    m.start().finish()
    known = b.state.pace
    assert known.seen["crack"].count == len(told(b, "Loosened"))
    assert USUAL["crack"] > known.of("crack") > 20.0
    assert b.state.started(b.setup).pace == known
    other = Bench(QUICK)
    m = machinist(bench=other)
    m.obedient.hand = type(m.obedient.hand)(pace_s=20.0)
    m.start("practice").finish()
    assert other.state.pace.seen == {}


def test_what_was_left_out_stands_in_the_record():
    b = learned()
    began = len(b.events)
    machinist(bench=b, side_mm=-0.3, nod_mm=0.2).start().finish()
    rows = [StoredRow(e, f"{e.seq:064x}", f"{e.seq - 1:064x}") for e in b.events[began:]]
    codes = [said.code for line in lines(record(rows)) for said in line.detail]
    assert codes.count("return-left-out") == codes.count("check-left-out") == 2


def test_a_turn_that_was_not_checked_and_went_the_other_way_is_named_by_the_sweep():
    """The pivot 150 in front of the spindle, the file says 150 behind it."""
    b = Bench(QUICK)
    m = Machinist(b, RigidHead(mill(nod=(-150.0, 0.0)), 0.0, 0.02)).start()
    m.work("final").work("park")
    swept = told(b, "SweepDone")[-1]
    assert (swept.backwards, swept.elsewhere) == ("nod", False)
    assert swept.guesses[0].kind == "other-side"
    assert "the pivot in the machine's file lies on the wrong side" in b.console["message"]["say"]
    assert m.finish().verdict == "conforms"
    known = b.shop.machine(b.machine).learned.answering
    assert known.pivot_mm("nod") == pytest.approx(-150.0, abs=5.0)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_nothing_is_made_of_a_turn_the_other_way_that_its_doubt_explains(monkeypatch):
    monkeypatch.setattr(done, "is_reversed", lambda turn: True)
    m = machinist(bench=learned(), side_mm=-0.3, nod_mm=0.2).start()
    assert m.finish().verdict == "conforms"
    swept = told(m.bench, "SweepDone")[-1]
    assert (swept.backwards, swept.elsewhere, swept.guesses) == (None, False, ())


def test_after_a_surprise_nothing_is_left_out():
    b = learned()
    m = machinist(bench=b, side_mm=-0.3, nod_mm=0.2).start().work("final")
    m.head.shift("side", 0.05)
    m.head.lift_mm -= 0.05
    m.work("park")
    assert told(b, "SweepDone")[-1].elsewhere
    seen = len(b.events)
    assert m.finish().verdict == "conforms"
    moved = [event.type for event in b.events[seen:]]
    assert moved.count("CheckDone") == 2 * moved.count("Moved") == 2


def test_surely_every_move_is_checked_and_every_sweep_read_back():
    sure = changed(QUICK, machine={"plan": "sure"})
    m = machinist(sure)
    m.start().finish()
    checks, moves = told(m.bench, "CheckDone"), told(m.bench, "Moved")
    assert len(checks) >= 2 * len(moves) - 1
    assert all(each.returned for each in told(m.bench, "SweepDone"))
