"""Another sweep wants a why: pressed as a rule, typed where it is another one."""

import pytest

from tests.audit.conftest import Bench
from tests.audit.rigid import told
from tests.audit.stations import BAD, offering, read
from tests.audit.stations import opened as opened_check
from tests.audit.test_reasons import no_difference, opened
from tests.words import en


def asked(page):
    """The fields of "Sweep again"."""
    (found,) = [a for a in page["actions"] if a["kind"] == "again" and a["fields"]]
    return {field["name"]: field for field in found["fields"]}


def say(why):
    return why if isinstance(why, str) else en(why)


def test_a_chip_bumped_and_not_sure_are_pressed_and_another_is_typed():
    m = opened("scheduled").work("park")
    fields = asked(m.look())
    assert [c["say"] for c in fields["why"]["choices"]] == ["a chip", "bumped", "not sure", "other"]
    assert fields["why"]["required"] and not fields["why"]["value"]
    assert not fields["own_words"]["required"]


@pytest.mark.parametrize(
    "pressed, listed",
    [
        ({"why": "chip"}, "a chip"),
        ({"why": "bumped"}, "bumped"),
        ({"why": "unsure"}, "not sure"),
        ({"why": "other", "own_words": " the coolant ran "}, "the coolant ran"),
        ({"why": "the ring was not wiped"}, "the ring was not wiped"),
    ],
)
def test_it_is_listed_with_the_sweep_and_in_the_signature(pressed, listed):
    m = opened("scheduled").work("clear")
    m.bench.do("again", pressed)
    m.work("signed")
    assert say(told(m.bench, "SweepDone")[-1].why) == listed
    assert say(told(m.bench, "Signed")[-1].sweeps[-1].why) == listed
    assert no_difference(m)


@pytest.mark.parametrize("nothing", [{}, {"why": " "}, {"why": "other"}, {"own_words": "x"}])
def test_without_one_there_is_no_other_sweep(nothing):
    m = opened("scheduled").work("clear")
    assert m.bench.refused("again", nothing).code == "sweep-again-without-why"


def test_stations_are_read_again_for_the_same_reasons():
    b = opened_check(Bench(offering()), "runout")
    read(b, BAD["runout"])
    assert [c["key"] for c in asked(b.console)["why"]["choices"]][-1] == "other"
    b.do("again", {"why": "chip"})
    read(b, BAD["runout"])
    assert say(b.job.rounds[-1].why) == "a chip"
