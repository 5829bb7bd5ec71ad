"""A bolt that moves the head too far is put right and pulled up again, or left."""

import pytest

from daq.audit.recompute import differences
from tests.audit.nod_bolts import BOLTS, nod_loose
from tests.words import en


def over_at(bolt):
    """Nod loose at 1.100 with four bolts; that one of them has moved the number by 0.012."""
    b = nod_loose(free_mm=0.1)
    for before in BOLTS[: BOLTS.index(bolt)]:
        b.do("bolt", {"bolt": before}, [1.100] * 10)
    (pulled,) = b.do("bolt", {"bolt": bolt}, [1.112] * 10)
    assert pulled.over
    return b


@pytest.mark.parametrize("bolt", [BOLTS[0], BOLTS[1]], ids=["the first", "a later one"])
def test_a_bolt_that_was_over_is_put_right_as_the_same_step(bolt):
    b = over_at(bolt)
    step = BOLTS.index(bolt) + 1
    (again,) = b.do("bolt", {"bolt": bolt}, [1.103] * 10)
    assert (again.bolt, again.step, again.over, again.said) == (bolt, step, False, None)
    assert again.shift_face_mm == pytest.approx(0.003, abs=1e-9)
    assert again.since_face_mm == pytest.approx(0.003, abs=1e-9)
    assert (b.job.bolts.steps, b.console["message"]) == (step, None)
    said = en(b.refused("bolt", {"bolt": bolt}, [1.103] * 10))
    assert said.endswith(f"allowed: '{BOLTS[step]}', which is next.")
    (following,) = b.do("bolt", {"bolt": BOLTS[step]}, [1.105] * 10)
    assert (following.step, following.over) == (step + 1, False)
    assert following.shift_face_mm == pytest.approx(0.002, abs=1e-9)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_a_bolt_that_is_still_over_may_be_put_right_once_more():
    b = over_at(BOLTS[1])
    (second,) = b.do("bolt", {"bolt": BOLTS[1]}, [1.108] * 10)
    assert second.over and "by 0.008" in en(second)
    (third,) = b.do("bolt", {"bolt": BOLTS[1]}, [1.101] * 10)
    assert (third.over, third.step) == (False, 2)
    assert third.shift_face_mm == pytest.approx(0.001, abs=1e-9)


def test_a_bolt_that_was_over_may_be_left_and_does_not_blame_the_next():
    b = over_at(BOLTS[1])
    said = b.refused("bolt", {"bolt": BOLTS[0]}, [1.112] * 10)
    assert "'nod bolt 2', which is next; 'nod bolt 3' again, which is to be put right." in en(said)
    (following,) = b.do("bolt", {"bolt": BOLTS[2]}, [1.113] * 10)
    assert (following.step, following.over) == (3, False)
    assert following.shift_face_mm == pytest.approx(0.001, abs=1e-9)


def test_the_last_bolt_is_tight_when_it_is_put_right():
    b = over_at(BOLTS[3])
    assert b.job.step == "tighten" and b.job.axis in b.job.loose
    again, tight = b.do("bolt", {"bolt": BOLTS[3]}, [1.104] * 10)
    assert (again.step, again.over, type(tight).__name__) == (4, False, "Tightened")
    assert b.job.step == "check"


def test_the_last_bolt_may_be_left_over_by_saying_all_tight():
    b = over_at(BOLTS[3])
    b.do("tightened", {}, [1.112] * 10)
    assert b.job.step == "check" and not b.job.loose


def test_a_zero_before_a_bolt_is_put_right_is_no_shift_of_the_head():
    b = over_at(BOLTS[1])
    b.do("zeroed", {}, [1.112] * 12 + [0.0] * 5)
    (again,) = b.do("bolt", {"bolt": BOLTS[1]}, [-0.009] * 10)
    assert again.shift_face_mm == pytest.approx(0.003, abs=1e-9) and not again.over


def test_the_only_bolt_of_an_axis_goes_on_to_its_next_part():
    """It has none across from it: its name means the next step, not the same one again."""
    b = nod_loose(("the nod bolt",), passes=3)
    for step, value in ((1, 1.112), (2, 1.113)):
        (pulled,) = b.do("bolt", {"bolt": "the nod bolt"}, [value] * 10)
        assert (pulled.step, pulled.over) == (step, step == 1)


def test_putting_a_bolt_right_is_offered_beside_the_next_one():
    b = over_at("nod bolt 3")
    offered = {a["payload"].get("bolt"): a for a in b.console["actions"] if a["kind"] == "bolt"}
    assert set(offered) == {"nod bolt 3", "nod bolt 2"}
    assert offered["nod bolt 2"]["primary"] and not offered["nod bolt 3"]["primary"]


def test_the_last_bolt_can_be_put_right_before_all_is_tight():
    b = over_at("nod bolt 4")
    assert [(a["kind"], a["primary"]) for a in b.console["actions"]][:2] == [
        ("tightened", True),
        ("bolt", False),
    ]
