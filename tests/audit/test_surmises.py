"""What seems to have happened is named and asked about; confirmed, or come again, it is used."""

import math
import re

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench
from tests.audit.pupil import learned_of, setup
from tests.audit.rigid import Machinist, RigidHead, changed, leans_mm, mill, told
from tests.words import en

GEOMETRY = {"nod": (170.0, 0.01), "side": (2.0, -0.01), "height_mm": 400.0}


def swung(b, side_mm=0.3, nod_mm=-0.5, deg=30.0):
    """An audit of a head whose ram is swung, of which nobody said a word."""
    head = RigidHead(mill(ram_deg=deg, **GEOMETRY), side_mm, nod_mm)
    return Machinist(b, head).start()


@pytest.fixture
def asked():
    """What the nod did to the side fits a swung ram, and is asked about."""
    m = swung(Bench(setup())).work("surmise", "clear")
    assert m.bench.job.step == "surmise"
    return m


def test_a_swung_ram_is_asked_about_by_its_angle(asked):
    b = asked.bench
    assert re.fullmatch(r"Is the ram swung about 3[01]° anticlockwise\?", b.console["title"])
    assert b.console["detail"] == "Turn nothing until that is answered."
    answers = [action["say"] for action in b.console["actions"] if action["kind"] == "answer"]
    assert answers == ["Yes: use that", "No: it was knocked", "Not sure: check this axis again"]
    check = told(b, "CheckDone")[-1]
    assert (check.strange, check.used) == ("asked", None)
    first = check.guesses[0]
    assert first.kind == "swung" and first.share > 0.9
    assert math.degrees(first.figure) == pytest.approx(30.0, abs=1.5)
    # The axes stand as they were read before: nothing is made of this pair yet.
    assert check.results == told(b, "CheckDone")[-2].results


def test_confirmed_it_is_used_and_carried(asked):
    b = asked.bench
    b.do("answer", {"key": "use"})
    check = told(b, "CheckDone")[-1]
    assert check.strange == "" and check.results.side.d_mm == pytest.approx(
        asked.head.true_mm("side"), abs=0.003
    )
    signed = asked.finish()
    assert signed.verdict == "conforms" and signed.moves <= 5
    assert max(map(abs, leans_mm(asked.head).values())) < 0.015
    assert learned_of(b).answering.coupling("nod") == pytest.approx(math.tan(math.pi / 6), abs=0.02)
    again = swung(b, -0.4, 0.35)
    assert again.finish().moves <= 3
    assert not any(each.strange for each in told(b, "CheckDone")[-4:])
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_read_again_and_found_the_same_it_is_used_without_another_question(asked):
    b = asked.bench
    b.do("answer", {"key": "check-again"})
    assert (b.job.step, b.job.axis) == ("check", "side")
    asked.step()
    asked.step()
    check = told(b, "CheckDone")[-1]
    assert check.strange == "" and check.used == check.guesses[0]
    looks = r"This looks like a ram swung about 3[01]° anticlockwise, as before: it is used .*"
    assert re.fullmatch(looks, en(check))
    assert asked.finish().verdict == "conforms"
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_denied_it_was_a_knock_and_teaches_nothing(asked):
    b = asked.bench
    before = b.job.head.learned
    b.do("answer", {"key": "knocked"})
    check = told(b, "CheckDone")[-1]
    assert check.strange == "bumped" and check.used is None
    assert b.job.head.learned == before and b.job.head.swung == 0.0
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_the_answer_can_be_taken_back(asked):
    b = asked.bench
    before = b.job
    b.do("answer", {"key": "use"})
    assert b.job.head.swung > 0.5
    b.do("undo")
    assert (b.job.step, b.job.head, b.job.reads) == ("surmise", before.head, before.reads)


def test_a_sweep_names_it_too_and_the_next_surprise_uses_it():
    """So sure is the file of its couplings that the proving sweep is first to read the side."""
    b = Bench(setup(both={"coupling_doubt": 0.004}))
    m = swung(b, 0.0, -0.4).work("final")
    assert {check.axis for check in told(b, "CheckDone")} == {"nod"}
    m.work("final-ram")
    b.do("answer", {"key": "not-sure"})
    done = told(b, "SweepDone")[-1]
    assert done.elsewhere and done.used is None
    assert done.guesses[0].kind == "swung" and done.guesses[0].share > 0.9
    assert b.console["message"]["say"].startswith("This looks like a ram swung about 3")
    assert m.finish().verdict == "conforms"
    later = [each for each in (*told(b, "CheckDone"), *told(b, "SweepDone")) if each.used]
    assert [each.used.kind for each in later] == ["swung"]
    known = learned_of(b).answering
    assert known.coupling("nod") == pytest.approx(math.tan(math.pi / 6), abs=0.03)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_the_other_axis_is_read_before_a_proof_once_nothing_is_sure_of_it():
    """Knocked before the nod's check: where the side stands hangs on what came before."""
    b = Bench(setup(both={"coupling_doubt": 0.004}))
    m = Machinist(b, RigidHead(mill(**GEOMETRY), 0.0, -0.4)).start().work("check")
    m.head.lift_mm -= 0.06
    m.head.shift("side", 0.05)
    m.step()
    m.step()
    assert told(b, "CheckDone")[-1].strange == "bumped"
    m.work("final")
    assert "side" in {check.axis for check in told(b, "CheckDone")}
    assert abs(m.head.true_mm("side")) < 0.015


@pytest.fixture
def asked_late():
    """The proving sweep fits a swung ram, the pair of the other axis having been left out."""
    quick = changed(setup(), machine={"plan": "quick"})
    m = swung(Bench(quick), 0.005, -0.5).work("final-ram")
    assert m.bench.console["title"].startswith("Is the ram swung about ")
    return m


def test_a_sweep_that_fits_a_swung_ram_is_asked_about_and_the_ram_used(asked_late):
    b = asked_late.bench
    sweeps = len(told(b, "SweepDone"))
    b.do("answer", {"key": "use"})
    assert len(told(b, "SweepDone")) == sweeps + 1 and not told(b, "SweepDone")[-1].elsewhere
    assert asked_late.finish().verdict == "conforms"
    assert max(map(abs, leans_mm(asked_late.head).values())) < 0.015
    assert learned_of(b).answering.coupling("nod") == pytest.approx(math.tan(math.pi / 6), abs=0.03)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("key", ["knocked", "not-sure"])
def test_a_ram_that_nobody_confirms_is_not_used_yet(asked_late, key):
    b = asked_late.bench
    b.do("answer", {"key": key})
    swept = told(b, "SweepDone")[-1]
    assert swept.elsewhere and swept.used is None
    said = b.console["message"]["say"]
    assert ("knocked" if key == "knocked" else "looks like a ram swung") in said
    assert asked_late.finish().verdict == "conforms"
    assert list(differences(b.events, b.chunks.__getitem__)) == []
