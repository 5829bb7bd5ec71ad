"""The service was off in the middle of an audit; meanwhile anything may have happened."""

from dataclasses import replace
from functools import partial

import pytest

from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench
from tests.audit.nod_bolts import BOLTS
from tests.audit.rigid import Machinist, RigidHead, changed, leans_mm, mill, told
from tests.audit.shapes import machine
from tests.thinned import thinned

STEPS = (
    "touch-free",
    "touch-push",
    "as-found",
    "park",
    "loosen",
    "move",
    "check",
    "tighten",
    "final",
    "clear",
    "sign",
)
LIMIT_MM = 0.010


def begun(until: str) -> Machinist:
    """An audit that stands at this step for the first time, half-read where it reads."""
    setup = changed(machine(), both={"tighten": Tighten(BOLTS), "limit": LIMIT_MM, "over": 200.0})
    head = RigidHead(mill(nod=(170.0, 0.01)), 0.21, -0.34)
    m = Machinist(Bench(setup), head, shifts={"side": 0.003, "nod": -0.004}, plus_mm=0.2)
    m.bench.do("open", {"reason": "scheduled"})
    m.work(until)
    if m.bench.job.step in ("as-found", "final", "check", "tighten"):
        m.step()
    return m


def zeroed(m: Machinist) -> None:
    m.plus_mm = -0.7


def turned(m: Machinist) -> None:
    """Somebody turned what was loose, or cracked, turned and tightened it."""
    axis = m.bench.job.axis or "nod"
    m.head.shift(axis, 0.12)


def unplugged(m: Machinist) -> None:
    m.bench.do("gauge-fault", {"code": "unplugged"})
    m.bench.do("gauge-back", {"run": "run-2", "gauge": m.bench.setup.gauge.key})


def deeper(m: Machinist) -> None:
    """The contact was lifted for the touch test and set anew, further in."""
    m.head.lift_mm += 0.4


MEANWHILE = {
    "nothing": lambda m: None,
    "zeroed": zeroed,
    "unplugged": unplugged,
    "turned": turned,
    "set deeper": deeper,
}


@pytest.mark.parametrize(("step", "meanwhile"), thinned(STEPS, MEANWHILE))
def test_a_restart_asks_and_reads_anew_before_any_stop_at(step, meanwhile):
    m = begun(step)
    b = m.bench
    MEANWHILE[meanwhile](m)
    moves = b.job.moves.made
    b.do("restarted")
    console = b.console
    assert console["stop_at"] is None and b.aim is None
    if step in ("clear", "sign"):
        assert console["step"] == step and "Was anything touched" in console["message"]["say"]
        if meanwhile == "turned":
            b.do("again", {"why": "somebody was at the head"})
    else:
        assert console["step"] == "prepare"
        assert console["title"] == "The screen was off: is the lock still on?"
        said = [a for a in console["actions"] if a["kind"] == "prepared"]
        assert [bool(a["payload"].get("touched")) for a in said[:2]] == [False, True]
        assert [a["payload"].get("cracked") for a in said[2:]] == [True] * (step == "loosen")
        told_so = said[meanwhile == "turned"]
        b.do("prepared", {**told_so["payload"], "serial_number": b.number})
        assert b.job.step == "touch-free"
    # No stop-at before the axis was read with the gauge as it is now.
    read = len(b.events)
    while b.job is not None and b.job.stop is None and b.job.step not in ("clear", "sign"):
        m.step()
    since = [event.type for event in b.events[read:]]
    if b.job.stop is not None:
        assert {"FreeRead", "Pushed", "ReadingTaken"} & set(since) and "Parked" in since
        assert not b.job.loose or "CheckDone" in since
    m.finish()
    assert b.shop.machine(b.machine).last.signed.verdict == "conforms"
    for off_mm in leans_mm(m.head).values():
        assert abs(off_mm) < LIMIT_MM
    assert moves <= told(b, "Signed")[0].moves


@pytest.mark.parametrize("meanwhile", ["zeroed", "turned"])
def test_a_loose_axis_is_checked_even_if_all_is_said_to_be_untouched(meanwhile):
    m = begun("move")
    MEANWHILE[meanwhile](m)
    m.bench.do("restarted")
    m.work("check")
    assert m.bench.job.axis == "nod" and m.bench.job.loose == {"nod"}
    assert any("may be loose" in note for note in _notes_of(m))
    m.finish()
    assert abs(m.head.true_mm("nod")) < LIMIT_MM


def _notes_of(m: Machinist) -> list[str]:
    m.bench.do("restarted")
    notes = m.bench.console["notes"]
    m.work("check")
    return notes


def test_a_restart_before_the_card_was_read_asks_nothing():
    b = Bench(machine())
    b.do("open", {"reason": "scheduled"})
    assert b.refused("restarted").code == "card-unread"


def test_a_second_restart_goes_on_where_the_first_would_have():
    m = begun("tighten")
    m.bench.do("restarted")
    m.step()
    m.bench.do("restarted")
    m.work("check")
    assert m.bench.job.axis == "nod"


def every_200_ms(bench, samples, values):
    found = []
    for sample in samples(values):
        bench.ns += 180_000_000
        found.append(replace(sample, mono_ns=bench.ns))
    return found


@pytest.mark.parametrize("step", ["as-found", "park", "check", "move"])
def test_asked_whether_the_gauge_was_zeroed_a_restart_asks_of_all_else_first(step, monkeypatch):
    m = begun(step)
    b, face = m.bench, m.face(m.place)
    # Slow enough that a turn fits between two of its frames.
    monkeypatch.setattr(b, "samples", partial(every_200_ms, b, b.samples))
    b.do("zeroed", {}, [face] * 12 + [0.0] * 6)
    assert b.job.zero_asked is not None
    b.do("restarted")
    m.finish()
    assert told(b, "Signed")[0].verdict == "conforms"


def test_touched_is_only_said_after_a_restart():
    b = Bench(machine())
    b.do("open", {"reason": "scheduled"})
    said = b.refused("prepared", {"serial_number": "P-1", "touched": True})
    assert said.code == "touched-while-watched"


def told_to_crack() -> Machinist:
    """The nod a little out; its bolts are to be cracked, and the service goes off."""
    head = RigidHead(mill(nod=(170.0, 0.01)), 0.0, -0.03)
    m = Machinist(Bench(changed(machine(), both={"limit": LIMIT_MM, "over": 200.0})), head)
    m.start().work("loosen")
    m.bench.do("restarted")
    return m


def test_bolts_cracked_while_the_screen_was_off_are_never_taken_for_tight():
    m = told_to_crack()
    b = m.bench
    assert "Keep the head supported: the nod bolts may be loose." in b.console["notes"]
    m.head.shift("nod", 0.028)
    (cracked,) = [a for a in b.console["actions"] if "cracked" in a["payload"]]
    assert cracked["say"] == "Locked out, but the nod bolts are cracked"
    b.do("prepared", {**cracked["payload"], "serial_number": b.number})
    m.work("tighten", "clear")
    assert (b.job.step, b.job.loose) == ("tighten", {"nod"})
    assert m.finish().verdict == "conforms"


def test_given_up_after_the_screen_was_off_the_bolts_are_named_as_well():
    b = told_to_crack().bench
    b.do("abandon", {"why": "no time"})
    assert b.console["title"] == "NOT SAFE TO RUN: nod bolts loose, arm in the spindle."


@pytest.mark.parametrize("touched", [False, True])
def test_a_head_that_was_being_brought_closer_is_brought_closer_still(touched):
    m = begun("as-found")
    b = m.bench
    b.do("off-scale", {"position": "back"}, [0.0] * 10)
    b.do("restarted")
    b.do("prepared", {"serial_number": b.setup.gauge.serial_number, "touched": touched})
    m.work("closer", "as-found", "final")
    assert b.job.step == "closer"
    m.work("final")
    m.finish()
    assert told(b, "Signed")[0].as_found is None
