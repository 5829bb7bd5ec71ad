"""Switches on pins of a chip that is none (`tests/pinchip.py`)."""

import ast
import inspect
import logging
import time
from pathlib import Path

import gpiod
import pytest

from daq.service import inputs
from daq.service.sources.pins import PLACES, SOURCE, PinOptions, Switch
from daq.service.switchboard import Press
from daq.words import Ack
from tests import pinchip
from tests.patience import until
from tests.service.console import MILL, Console, action
from tests.words import en

FOUR = PinOptions(front=5, right=6, back=13, left=19)
TAKE = action("take", {"position": "front"}, primary=True)
OPEN, GROUND, HIGH = None, 0, 1
S = 10**9


@pytest.fixture
def kernel(tmp_path):
    with pinchip.kernel(tmp_path) as made:
        yield made


@pytest.fixture
def chip(kernel):
    return kernel.chip()


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


def warned(console):
    return [en(fault["say"]) for fault in console.hub.snapshot(MILL).faults]


def push(chip, pin):
    chip.until_held(pin)
    chip.drive(pin, GROUND)
    chip.drive(pin, OPEN)


def test_a_switch_presses_the_first_button_when_it_is_let_go(console, start, chip):
    start(PinOptions(press=17))
    chip.until_held(17)
    chip.drive(17, GROUND)
    console.done()
    assert console.inbox.got == []
    chip.drive(17, OPEN)
    command = console.inbox.next()
    assert (command.kind, command.payload) == ("take", {"position": "front"})
    assert command.expects_seq == 3


def test_a_take_bears_the_time_at_which_the_kernel_saw_it_let_go(console, start, chip):
    start(PinOptions(press=17))
    chip.until_held(17)
    let_go_ns = time.monotonic_ns() - 123_456_789
    chip.drive(17, GROUND, at_ns=let_go_ns - 1)
    chip.drive(17, OPEN, at_ns=let_go_ns)
    console.inbox.next()
    assert console.inbox.at_ns == [let_go_ns]


@pytest.mark.parametrize("place", PLACES)
def test_each_of_four_says_where_the_gauge_stands(console, start, chip, place):
    start(FOUR)
    push(chip, FOUR.pins[place])
    assert console.inbox.next().payload == {"position": place}


def test_a_switch_that_closes_to_3_3_v(console, start, chip):
    start(PinOptions(press=17, closes_to="3.3 V"))
    chip.until_held(17)
    chip.drive(17, HIGH)
    chip.drive(17, OPEN)
    assert console.inbox.next().kind == "take"


def test_held_it_takes_back_and_is_no_press(console, start, chip):
    start(PinOptions(press=17, undo_after=0.05))
    chip.until_held(17)
    chip.drive(17, GROUND)
    assert console.inbox.next().kind == "undo"
    chip.drive(17, OPEN)
    console.done()
    assert console.inbox.got == []


def test_how_long_it_was_held_is_told_by_the_kernel_not_by_a_late_thread(console):
    acted = []
    switch = Switch(console.switchboard, lambda *given: acted.append(given), 2.0)
    switch.turned(True, 10 * S)
    assert switch.due_ns == 12 * S
    switch.turned(False, 12 * S)
    assert (console.inbox.next().kind, acted, switch.due_ns) == ("undo", [], None)


def test_what_bounces_within_the_given_time_is_no_press(console, start, chip):
    start(PinOptions(press=17, bounce=0.02))
    chip.until_held(17)
    chip.blip(17, GROUND, lasts_us=19_999)
    console.press(Press("pushed"))
    console.done()
    chip.blip(17, GROUND, lasts_us=20_000)
    until(lambda: len(console.inbox.got) == 2)
    assert [command.kind for command in console.inbox.got] == ["pushed", "take"]


def test_a_double_press_is_one_press(console):
    acted = []
    switch = Switch(console.switchboard, lambda _, at_ns: acted.append(at_ns), 2.0)
    for at_ms in (0, 20, 220, 720):
        switch.turned(True, at_ms * 10**6)
        switch.turned(False, at_ms * 10**6)
    assert acted == [0, 720 * 10**6]


def test_a_press_is_about_what_was_shown_when_it_began(console, start, chip):
    console.inbox.answer = lambda c: Ack(c.id, False, (), "stale", "Something changed.")
    running = start(PinOptions(press=17))
    chip.until_held(17)
    chip.drive(17, GROUND)
    until(lambda: running.due_ns is not None)
    console.show([action("cleared", primary=True)], seq=4)
    chip.drive(17, OPEN)
    command = console.inbox.next()
    assert (command.kind, command.expects_seq) == ("take", 3)
    console.done()
    assert console.said["say"] == "NOT TAKEN: Something changed."


def test_a_switch_that_is_closed_from_the_first_is_no_press(console, start, chip):
    chip.drive(17, GROUND)
    start(PinOptions(press=17, front=5, right=6, back=13, left=19))
    chip.until_held(17)
    chip.drive(17, OPEN)
    push(chip, 6)
    assert console.inbox.next().payload == {"position": "right"}
    assert console.inbox.got == []


def test_stopped_it_gives_its_pins_back(console, chip):
    running = SOURCE.start(PinOptions(press=17), console.switchboard)
    chip.until_held(17)
    running.stop()
    chip.drive(17, GROUND)
    chip.drive(17, OPEN)
    console.press(Press("pushed"))
    console.done()
    assert [command.kind for command in console.inbox.got] == ["pushed"]
    assert chip.requests == []


UNHEARD = "The switches are not heard: "


def test_a_chip_that_goes_is_said_and_heard_again_once_it_is_back(
    console, start, chip, caplog, monkeypatch
):
    monkeypatch.setattr(inputs, "AGAIN_S", 0.01)
    start(PinOptions(press=17, chip=str(chip.path)))
    chip.until_held(17)
    chip.drive(17, GROUND)
    chip.unplug()
    until(lambda: warned(console))
    assert warned(console) == [f"{UNHEARD}{chip.path} is not there: is it plugged in?"]
    assert [r.levelno for r in caplog.records] == [logging.WARNING]
    chip.drive(17, OPEN)
    chip.plug()
    chip.until_held(17)
    until(lambda: not warned(console))
    assert console.inbox.got == [], "what was pressed as it went is none"
    push(chip, 17)
    assert console.inbox.next().kind == "take"


@pytest.mark.parametrize(
    ("spoil", "options", "said"),
    [
        (lambda chip: chip.path.unlink(), {}, "this computer has no input pins."),
        (
            lambda chip: setattr(chip, "forbidden", True),
            {},
            "this user may not open {path}: add it to the group gpio.",
        ),
        (
            lambda chip: chip.held.update({17: "another"}),
            {},
            "another program has pin 17 open (another); close it there.",
        ),
        (
            lambda chip: chip.held.update({17: ""}),
            {},
            "another program has pin 17 open; close it there.",
        ),
        (
            lambda chip: setattr(chip, "lines", 8),
            {},
            "{path} has no pin 17: correct shop.toml.",
        ),
        (lambda chip: None, {"chip": "expander"}, "expander is not there: is it plugged in?"),
    ],
)
def test_why_no_switch_is_heard_is_said_on_the_screens(console, start, chip, spoil, options, said):
    spoil(chip)
    start(PinOptions(press=17, **options))
    until(lambda: warned(console))
    assert warned(console) == [UNHEARD + said.format(path=chip.path)]
    # Pages and keys go on.
    console.press(Press("pushed"))
    assert console.inbox.next().kind == "pushed"


@pytest.mark.parametrize(
    ("chips", "named", "found"),
    [
        ({"gpiochip0": "gpio-brcmstb@107d508500", "gpiochip4": "pinctrl-rp1"}, "", "gpiochip4"),
        ({"gpiochip0": "pinctrl-rp1", "gpiochip10": "gpio-brcmstb"}, "", "gpiochip0"),
        ({"gpiochip0": "pinctrl-bcm2711", "gpiochip1": "raspberrypi-exp-gpio"}, "", "gpiochip0"),
        ({"gpiochip0": "anything", "gpiochip1": "else"}, "", "gpiochip0"),
        ({"gpiochip0": "pinctrl-bcm2835", "gpiochip2": "expander"}, "expander", "gpiochip2"),
    ],
)
def test_the_chip_of_the_header_is_found_by_its_name(kernel, console, start, chips, named, found):
    """The names are from memory of the kernels of Raspberry Pi OS, 6.1 to 6.12."""
    made = {name: kernel.chip(name, label) for name, label in chips.items()}
    start(PinOptions(press=17, chip=named))
    made[found].until_held(17)
    assert [name for name, chip in made.items() if chip.requests] == [found]


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


def test_the_chip_that_is_none_is_asked_as_gpiod_asks_a_real_one():
    """By the signatures that gpiod states of its C part (its _ext.pyi)."""
    stated = Path(gpiod.__file__).with_name("_ext.pyi").read_text(encoding="utf-8")
    classes = {each.name: each for each in ast.parse(stated).body if isinstance(each, ast.ClassDef)}
    for ours, name in ((pinchip.Request, "Request"), (pinchip.Opened, "Chip")):
        theirs = {f.name: [a.arg for a in f.args.args] for f in classes[name].body}
        made = dict(inspect.getmembers(ours, inspect.isfunction))
        named = {f: list(inspect.signature(made[f]).parameters) for f in made.keys() & theirs}
        named.pop("__init__", None)
        assert named and named == {f: theirs[f] for f in named}
