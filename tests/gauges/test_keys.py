"""A data cable that types as a keyboard does: held for this program alone, read line by line."""

import re
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from daq.gauges.config import SerialLine
from daq.gauges.link import Link, LinkError
from daq.gauges.ports import incoming, protocol_keys
from tests.rigs.keyboard import ENTER, KEY, SHIFT, SYN, InputDevice, Keyboard
from tests.words import en

PATH = "/dev/input/by-id/usb-Data_Cable_0017-event-kbd"
URL = f"keys://{PATH}"
LETTERS = {"shape": "text", "unit": "mm", "pattern": r"(?P<sign>[+-]?)(?P<value>\d+\.\d{3})"}
CODES = {key: code for code, key in protocol_keys._PLAIN.items() if code < 60}
HEADER = Path("/usr/include/linux/input-event-codes.h")
"""Of the kernel's own headers, which come with the C compiler that the tests need."""


@pytest.fixture
def keyboard(monkeypatch):
    made = Keyboard(PATH)
    monkeypatch.setitem(sys.modules, "evdev", SimpleNamespace(InputDevice=InputDevice))
    monkeypatch.setattr(InputDevice, "keyboards", {PATH: made})
    made.plug()
    yield made
    made.unplug()


def typed(keyboard, text):
    for character in text:
        if character == "+":
            keyboard.press(CODES["="], SHIFT)
        else:
            keyboard.press(CODES[character])
    keyboard.press(ENTER)


def came(link, size):
    found = b""
    while len(found) < size:
        block = link.read(5.0)
        assert block
        found += block
    return found


def test_what_is_typed_is_read_exactly_and_no_browser_gets_it(make_reader, heard, keyboard):
    reader = make_reader(URL, frame=LETTERS)
    reader.start()
    heard.opened()
    typed(keyboard, "")  # the end of what was typed before
    for n in range(100):
        typed(keyboard, f"{'+-'[n % 2]}{n / 1000:.3f}")
    assert [heard.sample().text for _ in range(100)] == [
        f"{'+-'[n % 2]}{n / 1000:.3f}" for n in range(100)
    ]
    assert reader.status.bad == 0
    assert keyboard.browser == []
    reader.stop()
    assert keyboard.taken_by is None
    typed(keyboard, "1")
    assert keyboard.browser != []


def test_pulled_out_and_put_back(make_reader, heard, keyboard):
    reader = make_reader(URL, frame=LETTERS)
    reader.start()
    assert heard.opened() == "run-1"
    keyboard.unplug()
    assert en(heard.until("unplugged").say) == "Test gauge has gone: is the cable plugged in?"
    keyboard.plug()
    assert heard.opened() == "run-2"
    typed(keyboard, "")
    typed(keyboard, "1.250")
    assert heard.sample().value_mm == 1.25


def test_another_program_that_has_taken_it(keyboard):
    first = Link(SerialLine("unused"), URL, 0.05)
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), URL, 0.05)
    assert en(caught.value.say) == f"another program has {URL} open; close it there."
    first.close()
    Link(SerialLine("unused"), URL, 0.05).close()


def test_a_keyboard_that_is_not_there(keyboard):
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), "keys:///dev/null/other", 0.05)
    assert caught.value.code == "unplugged"


def test_keys_that_are_no_character_spoil_their_line_and_no_other(keyboard):
    link = Link(SerialLine("unused"), URL, 0.05)
    left_control, f1, caps = 29, 59, 58
    keyboard.press(CODES["7"], left_control)
    keyboard.press(f1)
    keyboard.event(SYN, 3, 0)  # the kernel had no room for some
    keyboard.press(caps)
    keyboard.event(KEY, CODES["1"], 1)
    keyboard.event(KEY, CODES["1"], 2)  # held down: repeated
    keyboard.event(KEY, CODES["1"], 0)
    keyboard.press(CODES["m"], SHIFT)
    keyboard.press(96)  # the number pad's Enter
    assert came(link, 7) == b"\0\0\x001M\r\n"
    link.close()


def test_the_number_pad(keyboard):
    link = Link(SerialLine("unused"), URL, 0.05)
    for code in (74, 82, 83, 79, 80, 81, 75, 76, 77, 71, 72, 73, 78):
        keyboard.press(code)
    assert came(link, 13) == b"-0.123456789+"
    link.close()


def test_the_codes_are_the_kernels():
    defined = dict(re.findall(r"#define\s+KEY_(\w+)\s+(\d+)", HEADER.read_text("ascii")))
    named = {"-": "MINUS", "=": "EQUAL", "\t": "TAB", "[": "LEFTBRACE", "]": "RIGHTBRACE"}
    named |= {";": "SEMICOLON", "'": "APOSTROPHE", "`": "GRAVE", "\\": "BACKSLASH", " ": "SPACE"}
    named |= {",": "COMMA", ".": "DOT", "/": "SLASH", "*": "KPASTERISK"}
    for key, code in CODES.items():
        assert int(defined[named.get(key, key.upper())]) == code
    pad = {"-": "MINUS", "+": "PLUS", ".": "DOT", "/": "SLASH", "=": "EQUAL", ",": "COMMA"}
    for code, key in protocol_keys._PLAIN.items():
        if code > 60:
            assert int(defined["KP" + pad.get(key, key)]) == code
    keys = [defined[name] for name in ("ENTER", "KPENTER", "LEFTSHIFT", "RIGHTSHIFT")]
    assert tuple(map(int, keys)) == (*protocol_keys._ENTERS, *protocol_keys._SHIFTS)
    others = ("LEFTCTRL", "LEFTALT", "RIGHTCTRL", "RIGHTALT", "LEFTMETA", "RIGHTMETA")
    assert tuple(int(defined[name]) for name in others) == protocol_keys._OTHERS


def test_a_library_that_is_missing_is_named_with_the_package_that_brings_it(monkeypatch, tmp_path):
    monkeypatch.setattr(incoming, "DISTRIBUTION", str(tmp_path))
    monkeypatch.setitem(sys.modules, "evdev", None)
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), URL, 0.05)
    assert caught.value.code == "cannot-open"
    assert "As root: apt-get install python3-evdev." in en(caught.value.say)


@pytest.mark.parametrize(
    ("text", "there"), [("from evdevs import part", True), ("import evdevs.none", False)]
)
def test_the_distributions_library_is_taken_where_the_environment_has_none(
    monkeypatch, tmp_path, text, there
):
    """One that is built for another Python fails at its import."""
    package = tmp_path / "evdevs"
    package.mkdir()
    (package / "part.py").write_text("")
    (package / "__init__.py").write_text(text)
    monkeypatch.setattr(incoming, "DISTRIBUTION", str(tmp_path))
    try:
        if there:
            assert incoming.library("evdevs", "python3-evdevs").part.__name__ == "evdevs.part"
        else:
            with pytest.raises(incoming.NotInstalledError):
                incoming.library("evdevs", "python3-evdevs")
            assert "evdevs" not in sys.modules
    finally:
        for name in [each for each in sys.modules if each.startswith("evdevs")]:
            del sys.modules[name]
