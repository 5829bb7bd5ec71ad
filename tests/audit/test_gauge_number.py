"""The number is read off the gauge: no button says it, one of three is picked, or it is typed."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.audit.codec import decode
from daq.audit.recompute import differences
from daq.audit.views.alike import alike
from tests.audit.bar import BarBench, with_bar
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import changed
from tests.words import en


def opened(number="P-0417"):
    b = Bench(changed(setup_of(), gauge={"serial_number": number}))
    b.do("open", {"reason": "scheduled"})
    return b.powered()


def cards(b):
    return [a for a in b.console["actions"] if a["kind"] == "prepared"]


def offered(b):
    return [choice["key"] for choice in cards(b)[0]["fields"][0]["choices"]]


def test_no_button_carries_the_number_and_every_one_asks_for_it():
    b = opened()
    page = b.console
    assert cards(b)
    for action in cards(b):
        assert "serial_number" not in action["payload"]
        asked = action["fields"][0]
        assert (asked["name"], asked["type"], asked["value"]) == ("serial_number", "choice", "")
        assert asked["required"]
    shown = {key: page[key] for key in ("title", "detail", "notes", "message")}
    assert "0417" not in json.dumps(shown)
    assert all("0417" not in action["say"] for action in page["actions"])


@pytest.mark.parametrize("number", ["P-0417", "7", "P-1", "AB", "0099", "x-9-", "№", "--"])
def test_the_right_one_stands_among_two_that_look_alike(number):
    keys = offered(opened(number))
    assert number in keys
    assert len(set(keys)) == 3


def test_after_a_restart_no_button_says_it_either():
    b = opened()
    b.do("prepared", {"serial_number": "P-0417"})
    b.do("restarted")
    assert all("0417" not in action["say"] for action in cards(b))
    assert "0417" not in b.console["detail"]
    assert all(action["fields"][0]["name"] == "serial_number" for action in cards(b))


def test_a_wrong_pick_is_refused_with_words_and_recorded_nowhere():
    b = opened()
    rows = len(b.events)
    for wrong in set(offered(b)) - {"P-0417"}:
        told = en(b.refused("prepared", {"serial_number": wrong}))
        assert repr(wrong) in told
        assert "Put the right gauge on" in told
    assert len(b.events) == rows


NUMBERS = st.text(st.characters(categories=["L", "N", "P"]), min_size=1, max_size=12)
PLAIN = st.from_regex(r"[A-Z0-9-]{0,9}[0-9]", fullmatch=True)


@given(NUMBERS, st.uuids())
def test_three_different_ones_in_an_order_that_follows_from_the_audit(number, audit):
    found = alike(number, str(audit))
    assert len(set(found)) == 3
    assert number in found
    assert found == alike(number, str(audit))


@given(PLAIN, st.uuids())
def test_they_differ_in_the_last_digit_alone(number, audit):
    assert {each[:-1] for each in alike(number, str(audit))} == {number[:-1]}


def test_no_place_in_the_row_gives_the_right_one_away():
    places = {alike("P-0417", f"audit {n}").index("P-0417") for n in range(40)}
    assert places == {0, 1, 2}


def typed(b):
    """The field beside the picks on each of the card's buttons."""
    return [next(f for f in a["fields"] if f["instead_of"] == "serial_number") for a in cards(b)]


def test_beside_the_picks_its_last_two_characters_may_be_typed():
    b = opened()
    for field in typed(b):
        assert (field["name"], field["type"], field["value"]) == ("last_two", "text", "")
        assert not field["required"] and "last two" in field["say"]
    b.do("prepared", {"last_two": "17"})
    by_hand = decode(b.events[-1])
    b.do("undo")
    b.do("prepared", {"serial_number": "P-0417"})
    assert by_hand == decode(b.events[-1]) and by_hand.serial_number == "P-0417"
    assert not list(differences(b.events, b.chunks.__getitem__))


@pytest.mark.parametrize(
    ("number", "given"),
    [
        ("P-0417", " 1 7 "),
        ("P-0417", "0417"),
        ("P-0417", "p-0417"),
        ("7", "7"),
        ("x-9-", "9-"),
        ("A 7", "a7"),
        ("ab", "AB"),
    ],
)
def test_typed_as_hands_type_it_is_the_same_number(number, given):
    b = opened(number)
    b.do("prepared", {"last_two": given})
    assert decode(b.events[-1]).serial_number == number


@pytest.mark.parametrize("given", ["71", "7", "18", "--", "ß", "9P-0417", "17 17", "1" * 900])
def test_typed_wrong_it_is_refused_as_a_wrong_pick_is(given):
    b = opened()
    rows = len(b.events)
    said = b.refused("prepared", {"last_two": given})
    assert said.code == "other-gauge" and "Put the right gauge on" in en(said)
    assert said.code == b.refused("prepared", {"serial_number": "P-0416", "last_two": "17"}).code
    assert said.code == b.refused("prepared", {"serial_number": "P-0417", "last_two": given}).code
    assert len(b.events) == rows


def test_neither_picked_nor_typed_it_is_asked_for():
    b = opened()
    for nothing in ({}, {"serial_number": " "}, {"last_two": ""}):
        said = en(b.refused("prepared", nothing))
        assert "serial_number" in said and "last_two" in said


def test_of_a_bar_the_last_two_of_both_are_typed_a_space_between():
    b = BarBench(with_bar(setup_of(), 80.0))
    b.do("open", {"reason": "scheduled"})
    b.powered()
    ends = [gauge.serial_number[-2:] for gauge in b.setup.gauges]
    assert "both" in typed(b)[0]["say"]
    for wrong in (ends[0], "".join(ends), " ".join(reversed(ends)), " ".join([*ends, ends[0]])):
        assert b.refused("prepared", {"last_two": wrong}).code == "other-gauge"
    b.do("prepared", {"last_two": "  ".join(ends)})
    assert decode(b.events[-1]).serial_number == b.setup.gauge.serial_number
