"""Which axis is moved first, by file or by button, and one that is left alone today."""

import pytest

from tests.audit.rigid import changed, told
from tests.audit.test_reasons import OPENED, button, no_difference, opened, press
from tests.words import en

SIDE_WORSE, NOD_WORSE = {"side_mm": 0.3, "nod_mm": -0.1}, {"side_mm": 0.1, "nod_mm": -0.3}


def moved(m):
    """The axes in the order they were moved, each once for moves in a row."""
    axes = [each.axis for each in told(m.bench, "Moved")]
    return [axis for i, axis in enumerate(axes) if i == 0 or axis != axes[i - 1]]


def offered(m, kind):
    return [a["payload"].get("axis") for a in m.look()["actions"] if a["kind"] == kind]


@pytest.mark.parametrize(
    "first, head, order",
    [
        ("worst", SIDE_WORSE, ["side", "nod"]),
        ("worst", NOD_WORSE, ["nod", "side"]),
        ("nod", SIDE_WORSE, ["nod", "side"]),
        ("side", NOD_WORSE, ["side", "nod"]),
        ("nod", {"side_mm": 0.3, "nod_mm": 0.0}, ["side"]),
    ],
)
def test_the_file_says_which_axis_is_moved_first(first, head, order):
    m = opened("scheduled", changed(OPENED, machine={"first": first}), **head).work("signed")
    assert moved(m)[: len(order)] == order
    assert told(m.bench, "Signed")[-1].verdict == "conforms"
    assert no_difference(m)


def test_a_button_puts_the_other_axis_first():
    m = opened("scheduled", **SIDE_WORSE).work("park")
    assert m.bench.job.axis == "side"
    assert button(m, "first")["say"] == "Nod first"
    press(m, "first", axis="nod")
    assert m.bench.job.axis == "nod" and button(m, "first")["say"] == "Side to side first"
    press(m, "undo")
    assert m.bench.job.axis == "side"
    press(m, "first", axis="nod")
    m.bench.do("again", {"why": "a chip"})
    m.work("park")
    assert m.bench.job.axis == "nod"
    m.work("signed")
    assert moved(m)[0] == "nod"
    assert told(m.bench, "Signed")[-1].verdict == "conforms"
    assert no_difference(m)


@pytest.mark.parametrize("axis, other", [("nod", "side"), ("side", "nod")])
@pytest.mark.parametrize("head", [SIDE_WORSE, NOD_WORSE])
def test_an_axis_left_alone_is_not_moved_and_the_signature_says_so(axis, other, head):
    m = opened("scheduled", **head).work("park")
    press(m, "leave-alone", axis=axis)
    m.work("clear")
    assert moved(m) == [other] and told(m.bench, "CheckDone")
    say = m.bench.setup.machine.axis(axis).say
    note = f"{say} left alone today: Alex"
    assert note in m.look()["notes"]
    m.work("sign")
    assert note in m.look()["notes"]
    m.work("signed")
    signed = told(m.bench, "Signed")[-1]
    last = told(m.bench, "SweepDone")[-1]
    assert [(each.axis, each.why) for each in signed.left_alone] == [(axis, "Alex")]
    assert signed.as_left == last.results and signed.as_left[axis].word == "out"
    assert (signed.as_left[other].word, signed.verdict) == ("in", "does-not-conform")
    assert note in m.look()["notes"]
    assert no_difference(m)


def test_both_left_alone_one_after_the_other_it_ends_as_found():
    m = opened("scheduled", **SIDE_WORSE).work("park")
    press(m, "leave-alone", axis="side")
    assert m.bench.job.axis == "nod"
    assert offered(m, "first") == offered(m, "leave-alone") == []
    assert "left alone already" in en(m.bench.refused("leave-alone", {"axis": "side", "why": "x"}))
    m.bench.do("leave-alone", {"axis": "nod", "why": "no time"})
    assert m.look()["step"] == "clear"
    m.work("signed")
    assert told(m.bench, "Moved") == [] and len(told(m.bench, "SweepDone")) == 1
    assert no_difference(m)


def test_an_axis_that_is_inside_may_be_left_alone_before_the_other_throws_it_out():
    m = opened("scheduled", side_mm=0.3, nod_mm=0.0).work("park")
    assert offered(m, "leave-alone") == ["nod"] and offered(m, "first") == []
    press(m, "leave-alone", axis="nod")
    m.work("signed")
    assert moved(m) == ["side"]
    assert no_difference(m)


def test_left_alone_after_the_other_was_moved_the_proof_is_swept_all_the_same():
    m = opened("scheduled", **SIDE_WORSE).work("park").work("check").work("park")
    while m.bench.job.loose or m.bench.job.axis != "nod":
        m.step()
        m.work("park")
    sweeps = len(told(m.bench, "SweepDone"))
    m.bench.do("leave-alone", {"axis": "nod", "why": "no time"})
    m.work("signed")
    assert len(told(m.bench, "SweepDone")) == sweeps + 1
    assert no_difference(m)


def test_what_cannot_be_chosen_is_neither_offered_nor_taken():
    m = opened("scheduled", **SIDE_WORSE).work("park")
    assert en(m.bench.refused("first", {"axis": "side"})).startswith("Only an axis that is out")
    assert en(m.bench.refused("leave-alone", {"axis": "nod", "why": " "})).startswith("Say why")
    m.work("loosen")
    assert m.bench.refused("first", {"axis": "nod"}).code == "not-this-step"


def test_restarted_after_the_choice_it_still_holds():
    m = opened("scheduled", **SIDE_WORSE).work("park")
    press(m, "leave-alone", axis="nod")
    m.bench.do("restarted")
    m.work("signed")
    assert moved(m) == ["side"]
    assert no_difference(m)
