"""The number is read off the gauge: no button says it, and one of three is picked."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.audit.views.alike import alike
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
