"""An open audit handed over: both are named, nothing of it changes, and it is told ever after."""

from dataclasses import replace

import pytest

from daq.audit import seal
from daq.audit.apply import fold
from daq.audit.closing_events import HandedOver
from daq.audit.recompute import differences
from daq.audit.trend import latest, trend
from tests.audit.test_aside import EVERY, button, put_aside, restart
from tests.audit.test_restart import begun
from tests.audit.test_zero_expected import Slow
from tests.words import en

BOTH = {"left_by": "A", "taken_by": "B"}
SAID = "Handed over by A to B, 2026-06-01 12:00 UTC"
NOW_B = "B has it, from A"


def told_so(b):
    return [note for note in b.console["stands"] if note.startswith("Handed over")]


SHORT = ("prepare", "as-found", "loosen", "move")
STEPS = [pytest.param(step, marks=() if step in SHORT else pytest.mark.long) for step in EVERY]


@pytest.mark.parametrize("step", STEPS)
def test_at_every_step_it_changes_nothing_and_is_told(step):
    b = begun(step).bench
    before, asked = b.state, button(b, "hand-over")
    assert [field["name"] for field in asked["fields"]] == ["left_by", "taken_by"]
    assert not asked["confirm"]
    assert told_so(b) == [] and b.console["hands"] == ""
    assert b.do("hand-over", BOTH) == (HandedOver("A", "B"),)
    assert b.state.people == b.job.meanwhile.people == ("B", "A")
    then = replace(b.job, handed=(), meanwhile=before.job.meanwhile)
    assert replace(b.state, job=then, people=()) == before
    assert told_so(b) == [SAID] and b.console["hands"] == NOW_B
    assert fold(b.events) == b.shop and list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("left", ["safe", "as-is"])
def test_also_of_one_put_aside_and_it_outlives_that_a_restart_and_a_seal(left):
    b = begun("move").bench
    b.do("hand-over", BOTH)
    put_aside(b)
    b.do("rest", {"left": left})
    b.do("hand-over", {"left_by": "B", "taken_by": "C"})
    restart(b)
    b.do("take-up")
    assert [note.split(",")[0] for note in told_so(b)] == [
        "Handed over by A to B",
        "Handed over by B to C",
    ]
    assert b.console["hands"] == "C has it, from B"
    what = seal.decode(seal.encode(seal.sealed(b.shop)))
    rows = lambda audit: (event for event in b.events if event.audit == audit)  # noqa: E731
    assert seal.restored(what, b.events[-1].seq, rows) == b.shop


def test_taking_back_takes_back_the_step_before_and_calls_nobody_back(bench):
    b = bench()
    b.start()
    b.take("front", 1.0)
    b.do("hand-over", BOTH)
    b.do("undo")
    assert b.job.reads.taken == () and told_so(b) == [SAID]


def test_what_the_service_noticed_is_denied_and_nobody_is_called_back():
    b = Slow(4)
    b.start(free=-1.0)
    b.stands(0.2)
    b.read("front", 0.200)
    b.turn(0.0)
    b.do("answer", {"key": "zeroed"})
    b.do("hand-over", BOTH)
    b.do("not-zeroed")
    assert b.job.reads.taken and told_so(b) == [SAID]


def test_the_signature_and_the_trend_say_through_whose_hands_it_went(bench):
    b = bench()
    b.start()
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("cleared")
    b.do("hand-over", BOTH)
    assert told_so(b) == [SAID] and b.job.step == "sign"
    (signed,) = b.do("sign", {"done_by": "B"})
    assert [row.what for row in signed.handed] == [HandedOver("A", "B")]
    assert b.console["notes"] == [SAID] and b.console["hands"] == ""
    assert b.console["detail"].startswith("0 moves. Done by B.")
    view = trend(b.state, b.setup.machine, b.today, latest(b.state.history, 10))
    (point,) = view.axes.nod.as_left.points
    assert list(map(en, point.hands)) == [SAID, "Signed by B"]
    assert b.refused("hand-over", BOTH).code == "no-audit"


def test_a_clock_that_nobody_set_is_told(bench, monkeypatch):
    b = bench()
    b.start()
    unsure = replace(b.stamp(), utc_trusted=False)
    monkeypatch.setattr(b, "stamp", lambda: unsure)
    b.do("hand-over", BOTH)
    assert told_so(b) == [f"{SAID} (clock not set)"]


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ({"left_by": " "}, "handed-from-nobody"),
        ({"taken_by": ""}, "handed-to-nobody"),
        ({"taken_by": " A "}, "handed-to-oneself"),
        ({"note": "x"}, "payload"),
    ],
)
def test_what_will_not_do_is_refused(bench, wrong, code):
    b = bench()
    b.start()
    assert b.refused("hand-over", BOTH | wrong).code == code
