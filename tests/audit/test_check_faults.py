"""Mistakes and faults at every station of every kind of check: the same answers as in a sweep."""

import re

import pytest

from daq.audit.input import Refused
from tests.audit.conftest import Bench
from tests.audit.stations import FREE_MM, GOOD, TABLES, offering, opened, press, read, take
from tests.words import en

PLACES = ("front", "right", "back", "left", "front")
SWEEP = (1.2, 1.201, 1.202, 1.2005, 1.2)
OF_A_HEAD = re.compile(r"\b(head|sweeps?|swept|arm|ring|circle|lean|nod)\b", re.IGNORECASE)
CASES = [(check, at) for check in TABLES for at in range(len(GOOD[check]))]


def begun(check, at):
    """So many stations of a check, or places of a sweep, are read."""
    if check:
        b = opened(Bench(offering()), check)
        read(b, GOOD[check][:at])
        return b
    b = Bench(offering()).start(free=FREE_MM)
    for place, value in zip(PLACES[:at], SWEEP, strict=False):
        b.take(place, value)
    return b


def asked(b, kind, payload=None, values=()):
    """What came of it: the events, or the code and words of the refusal."""
    try:
        return [type(data).__name__ for data in b.do(kind, payload or {}, values)], ""
    except Refused as refused:
        return refused.said.code, en(refused.said)


def payload(b, at):
    return press(b)["payload"] if b.job.check else {"position": PLACES[at]}


def zero(b, at):
    stood = (GOOD[b.job.check.kind] if b.job.check else SWEEP)[max(0, at - 1)]
    return asked(b, "zeroed", {}, [stood] * 12 + [0.0] * 5)


def unplug(b, at):
    gone = asked(b, "gauge-fault", {"code": "unplugged"})
    back = asked(b, "gauge-back", {"run": "run-2", "gauge": b.setup.gauge.key})
    return (gone[0], back[0]), gone[1] + back[1]


FAULTS = {
    "air": lambda b, at: asked(b, "take", payload(b, at), [FREE_MM] * 10),
    "end": lambda b, at: asked(b, "take", payload(b, at), [12.7 + FREE_MM] * 10),
    "zero": zero,
    "unplug": unplug,
    "restart": lambda b, at: asked(b, "restarted"),
    "undo": lambda b, at: asked(b, "undo"),
}


def shown(b):
    """Every text on the console."""
    console = b.console
    found = [console[key] for key in ("title", "detail", "notes", "cautions", "warnings")]
    return str(
        [*found, console["message"], console["halt"], [a["say"] for a in console["actions"]]]
    )


def stands(b, at):
    """How a round or a sweep stands after a fault; `at` is where in it that was."""
    message = b.console["message"]
    left = len(b.job.reads.taken) - at
    return b.job.step in ("stations", "as-found"), left, message and message["code"]


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize(("check", "at"), CASES)
def test_a_fault_is_answered_as_in_a_sweep(check, at, fault):
    # A sweep's first place and its last are what a check's are; those between are alike.
    like = 0 if at == 0 else 4 if at == len(GOOD[check]) - 1 else 2
    b, sweep = begun(check, at), begun("", like)
    (what, say), (known, _) = FAULTS[fault](b, at), FAULTS[fault](sweep, like)
    assert what == known
    (reads, left, code), (_, as_left, as_code) = stands(b, at), stands(sweep, like)
    begins_anew = len(sweep.job.reads.taken) == 0
    assert (code, left) == (as_code, -at if begins_anew else as_left)
    assert reads is (fault != "restart")
    assert not OF_A_HEAD.search(say), say
    assert not OF_A_HEAD.search(shown(b)), shown(b)


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize(("check", "at"), CASES)
def test_after_it_the_round_is_read_to_its_end(check, at, fault):
    b = begun(check, at)
    FAULTS[fault](b, at)
    values, off = GOOD[check], 0.0
    if fault == "restart":
        b.prepare(free=FREE_MM)
    if fault == "zero":
        off = values[max(0, at - 1)]
    *_, done = read(b, [round(value - off, 3) for value in values[len(b.job.reads.taken) :]])
    assert (done.round.word, done.round.usable, b.job.step) == ("in", True, "clear")


def test_at_another_height_the_contact_is_set_on_anew():
    b = begun("runout", 5)
    assert b.console["detail"].startswith("Quill up and locked. Raise the knee")
    take(b, GOOD["runout"][5])
    assert b.console["detail"] == "Take the reading."
