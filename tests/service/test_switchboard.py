"""Presses that come from no page: what they ask for, and where the answer is said."""

import threading

import pytest

from daq.service.switchboard import Press
from daq.service.takes import HOLD_STILL
from daq.words import Ack
from tests.service.console import MILL, Console, action


@pytest.fixture
def console(clock):
    with Console(clock) as made:
        yield made


def test_the_first_button_is_pressed_as_the_console_has_it(console):
    console.show([action("take", {"position": "front"}, primary=True)], seq=7)
    console.switchboard.primary(console.switchboard.look())
    command = console.inbox.next()
    assert (command.kind, command.payload) == ("take", {"position": "front"})
    assert (command.machine, command.actor, command.audit) == (MILL, "switch", "A")
    assert command.expects_seq == 7


def test_each_press_has_an_id_of_its_own(console):
    console.show([action("prepared", primary=True)])
    for _ in range(2):
        console.switchboard.primary(console.switchboard.look())
        console.done()
    assert len({command.id for command in console.inbox.got}) == 2


def test_what_asks_for_words_is_left_to_the_console(console):
    console.show([action("sign", say="Sign", primary=True, fields=["done_by"])])
    console.switchboard.primary(console.switchboard.look())
    assert console.said == {
        "outcome": "refused",
        "say": "Not done: Sign: that is done on the console.",
    }
    assert console.inbox.got == []


def test_without_a_first_button_nothing_is_pressed(console):
    console.show([action("answer", {"key": "a"})])
    console.switchboard.primary(console.switchboard.look())
    assert "answer on the console" in console.said["say"]


def test_undo_is_asked_for_only_where_there_is_something_to_take_back(console):
    console.switchboard.undo(console.switchboard.look())
    assert console.said["say"] == "Not done: There is nothing to take back."
    console.show([action("undo")])
    console.switchboard.undo(console.switchboard.look())
    assert console.inbox.next().kind == "undo"


def test_a_place_is_taken_only_where_places_are_read(console):
    console.show([action("take", primary=True)])
    console.switchboard.take(console.switchboard.look(), position="front")
    assert console.said["say"] == "NOT TAKEN: No reading is wanted front now."
    console.show([action("take", {"position": "right"}, primary=True)])
    console.switchboard.take(console.switchboard.look(), position="back")
    assert console.inbox.next().payload == {"position": "back"}


def test_a_refusal_is_said_on_the_screens_until_the_next_event(console):
    console.inbox.answer = lambda c: Ack(c.id, False, (), "refused", "Not yet.")
    console.press()
    console.done()
    assert console.said == {"outcome": "refused", "say": "NOT TAKEN: Not yet."}
    console.show([])
    assert console.said is not None, "the same state, shown again"
    console.show([], seq=console.seq + 1)
    assert console.said is None


def test_a_long_wait_is_said_and_ends(console):
    console.inbox.hold.clear()
    console.press(Press("take", wait="Hold still…"))
    console.until(lambda: console.said == {"outcome": "wait", "say": "Hold still…"})
    console.inbox.hold.set()
    console.done()
    assert console.said is None


def test_a_second_press_while_one_waits_is_not_heard(console):
    console.inbox.hold.clear()
    console.press()
    console.press()
    console.inbox.hold.set()
    console.done()
    console.press()
    console.done()
    assert len(console.inbox.got) == 2


def test_a_press_during_a_take_from_a_page_says_nothing(console):
    console.inbox.answer = lambda c: Ack(c.id, False, (), "refused", HOLD_STILL)
    console.press()
    console.done()
    assert console.said is None


def test_a_gauges_key_that_came_second_says_nothing(console):
    console.inbox.answer = lambda c: Ack(c.id, False, (), "stale", "Something changed.")
    console.press(Press("take", second=True))
    console.done()
    assert console.said is None
    console.press(Press("take"))
    console.done()
    assert console.said["say"] == "NOT TAKEN: Something changed."


def test_no_thread_is_left(clock):
    before = set(threading.enumerate())
    with Console(clock) as console:
        console.press()
    assert set(threading.enumerate()) <= before
