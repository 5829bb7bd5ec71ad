"""What screens say after a run that was cut off: for a minute, and never in a step's way."""

from dataclasses import dataclass

import pytest

from daq.service.rise import OFFERED_NS, SHOWN_MS, NotFine, Rise
from daq.words import said
from tests.words import en

CUT = said("cut-off", how="power", at="14:02")


@dataclass
class Page:
    step: str


def amiss(*names):
    return [NotFine(said("doctor-about", it=name), said("doctor-fine"), None) for name in names]


def at(step):
    return {"wall": Page(step)}


@pytest.fixture
def woken():
    return []


@pytest.fixture
def rise(clock, woken):
    return Rise(lambda: woken.append(1), clock.mono_ns)


def short(rise, machine="mill", step="prepare"):
    told = rise.now(machine, at(step))
    return told and en(told["say"])


def test_before_anything_was_cut_off_there_is_nothing_to_say(rise):
    assert rise.now("mill", at("idle")) is None
    assert rise.now("mill", {}) is None


@pytest.mark.parametrize(
    ("found", "say"),
    [
        (None, "On again; looking it over."),
        ((), "On again, all is fine."),
        (amiss("clock"), "On again. Look at: Clock."),
        (amiss("clock", "clock", "disk"), "On again. Look at: Clock and Disk."),
        (amiss("clock", "disk", "card", "ports"), "On again. Look at: Clock, Disk and 2 more."),
    ],
    ids=["not yet", "fine", "one", "one twice", "many"],
)
def test_what_happened_and_what_is_not_fine_in_few_words(rise, found, say):
    rise.say(CUT, found)
    assert short(rise) == f"The Pi went off soon after 14:02. {say}"


def test_a_page_is_told_for_how_long_and_of_what_is_new_by_its_number(rise, woken):
    rise.say(CUT, None)
    first = rise.now("mill", at("prepare"))
    assert first["left_ms"] == SHOWN_MS
    rise.say(CUT, None)
    assert rise.now("mill", at("prepare")) == first
    assert len(woken) == 1
    rise.say(CUT, amiss("clock"))
    then = rise.now("mill", at("prepare"))
    assert then["n"] > first["n"]
    assert [en(each.about) for each in then["amiss"]] == ["Clock"]
    assert len(woken) == 2


def test_once_a_machine_goes_on_its_screens_are_its_steps_again(rise):
    rise.say(CUT, ())
    assert short(rise)
    assert rise.now("mill", at("touch-free")) is None
    assert short(rise, "other", "idle")


def test_whoever_has_read_it_takes_it_from_all_screens_for_good(rise, woken):
    rise.say(CUT, ())
    rise.away()
    assert short(rise) is None
    rise.say(CUT, amiss("clock"))
    assert short(rise) is None
    assert len(woken) >= 2


def test_a_screen_that_comes_much_later_is_not_told(rise, clock):
    rise.say(CUT, ())
    clock.ns += OFFERED_NS - 1
    assert short(rise)
    clock.ns += 1
    assert short(rise) is None
