"""Switches on pins, with the package's own pins that are none."""

import pytest
from gpiozero import Device
from gpiozero.pins.mock import MockFactory

from daq.service.sources import SourceError, pins
from daq.service.sources.pins import PLACES, SOURCE, PinOptions, Switch
from daq.service.switchboard import Press
from tests.service.console import Console, action

FOUR = PinOptions(front=5, right=6, back=13, left=19)
TAKE = action("take", {"position": "front"}, primary=True)


@pytest.fixture(autouse=True)
def factory():
    Device.pin_factory = MockFactory()
    yield Device.pin_factory
    Device.pin_factory.reset()
    Device.pin_factory = None


@pytest.fixture
def console(clock):
    with Console(clock) as made:
        made.show([TAKE, action("undo")], seq=3)
        yield made


@pytest.fixture
def start(console):
    """Start the source with options; it is stopped at the end."""
    running = []

    def make(options):
        running.append(SOURCE.start(options, console.switchboard))
        return running[-1]

    yield make
    for each in running:
        each.stop()


def push(pin):
    pin.drive_low()
    pin.drive_high()


def test_a_switch_presses_the_first_button_when_it_is_let_go(console, start, factory):
    start(PinOptions(press=17, bounce=0.001))
    factory.pin(17).drive_low()
    console.done()
    assert console.inbox.got == []
    factory.pin(17).drive_high()
    command = console.inbox.next()
    assert (command.kind, command.payload) == ("take", {"position": "front"})
    assert command.expects_seq == 3


@pytest.mark.parametrize("place", PLACES)
def test_each_of_four_says_where_the_gauge_stands(console, start, factory, place):
    start(FOUR)
    push(factory.pin(FOUR.pins[place]))
    assert console.inbox.next().payload == {"position": place}


def test_a_switch_that_closes_to_3_3_v(console, start, factory):
    start(PinOptions(press=17, closes_to="3.3 V"))
    pin = factory.pin(17)
    pin.drive_high()
    pin.drive_low()
    assert console.inbox.next().kind == "take"


def test_held_it_takes_back_and_is_no_press(console, start, factory):
    start(PinOptions(press=17, undo_after=0.05))
    factory.pin(17).drive_low()
    assert console.inbox.next().kind == "undo"
    factory.pin(17).drive_high()
    console.done()
    assert console.inbox.got == []


def test_a_bounce_and_a_double_press_are_one_press(console):
    now = [10.0]
    acted = []
    switch = Switch(console.switchboard, acted.append, lambda: now[0])
    for after_s in (0.0, 0.02, 0.2):
        now[0] += after_s
        switch.down()
        switch.up()
    assert len(acted) == 1
    now[0] += 0.5
    switch.down()
    switch.up()
    assert len(acted) == 2


def test_a_press_is_about_what_was_shown_when_it_began(console, start, factory):
    start(PinOptions(press=17))
    factory.pin(17).drive_low()
    console.show([action("cleared", primary=True)], seq=4)
    factory.pin(17).drive_high()
    command = console.inbox.next()
    assert (command.kind, command.expects_seq) == ("take", 3)


def test_stopped_it_gives_its_pins_back(console, start, factory):
    start(PinOptions(press=17)).stop()
    push(factory.pin(17))
    console.press(Press("pushed"))
    console.done()
    assert [command.kind for command in console.inbox.got] == ["pushed"]
    start(PinOptions(press=17))


def test_a_pin_that_another_holds_is_said(start):
    start(PinOptions(press=17))
    with pytest.raises(SourceError, match=r"the pins cannot be reached.*17"):
        start(PinOptions(press=17))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({}, "found no switch"),
        ({"front": 5, "left": 6}, "found only front, left"),
        ({"press": 5, "front": 5, "right": 6, "back": 7, "left": 8}, "found pin 5 twice"),
    ],
)
def test_options_that_make_no_sense_are_refused(given, said):
    with pytest.raises(ValueError, match=said):
        PinOptions(**given)


def test_without_the_package_the_line_that_installs_it_is_said(monkeypatch):
    monkeypatch.setattr(pins.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(ValueError, match=r'-m pip install "gpiozero>=2,<3" lgpio'):
        SOURCE.check(PinOptions(press=17), None)
