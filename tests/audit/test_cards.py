"""The last cards of an audit: what is put back, what the verdict says nothing of, why again."""

import pytest

from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill, told
from tests.words import en


def at(step, side_mm=0.0):
    return Machinist(Bench(setup_of()), RigidHead(mill(), side_mm, 0.0)).start().work(step)


def test_after_it_the_arm_comes_out_first_the_verdict_beneath_and_all_is_put_back():
    page = at("clear").bench.console
    assert page["title"] == "Arm out. Wrench off the drawbar."
    assert page["detail"] == "Leave it: square, in tolerance."
    notes = " ".join(page["notes"])
    for told_of in ("keys", "vise", "jaw", "Gears", "speed", "locks"):
        assert told_of in notes, told_of


def test_what_is_signed_says_what_it_says_nothing_of():
    page = at("sign").bench.console
    assert page["notes"][-1].endswith("A bore fed by knee or quill follows that, not this.")


def test_why_again_is_chosen_among_the_usual_or_said_in_ones_own_words():
    b = at("clear").bench
    (again,) = [a for a in b.console["actions"] if a["say"] == "Sweep again"]
    because, why = again["fields"][:2]
    assert (because["type"], because["required"], why["required"]) == ("choice", True, False)
    assert [c["key"] for c in because["choices"]] == ["chip", "bumped", "unsure", "other"]
    assert again["fields"][2]["name"] == "arm"
    assert b.refused("again", {"because": "other"}).code == "sweep-again-without-why"
    assert "because" in en(b.refused("again", {"because": "the moon"}))
    b.do("again", {"because": "bumped"})
    assert en(told(b, "SweepWanted")[-1].why) == "Bumped"


@pytest.mark.parametrize("because", ["other", "chip"])
def test_ones_own_words_are_what_is_recorded(because):
    b = at("clear").bench
    b.do("again", {"because": because, "why": " the coolant hose "})
    assert told(b, "SweepWanted")[-1].why == "the coolant hose"


def test_behind_the_head_right_and_left_are_told():
    m = Machinist(Bench(setup_of()), RigidHead(mill(), 0.0, -0.3)).start().work("loosen")
    assert "facing the column's back, right is your left" in " ".join(m.bench.console["notes"])
