"""A port that another program changed, or whose name leads elsewhere, is not believed."""

import os
import socket
import termios

import pytest

from daq.gauges.errors import LinkError
from daq.gauges.guard import Guard
from tests.words import en

SPEED = 5


def change(far_end, **what):
    found = termios.tcgetattr(far_end.slave)
    if "baud" in what:
        found[4] = found[SPEED] = what["baud"]
    found[2] |= what.get("control", 0)
    found[3] |= what.get("local", 0)
    termios.tcsetattr(far_end.slave, termios.TCSANOW, found)


@pytest.fixture
def guard(far_end):
    change(far_end, baud=termios.B9600)
    made = Guard(far_end.slave, str(far_end.path))
    made.look()
    return made


@pytest.mark.parametrize(
    ("what", "words"),
    [
        ({"baud": termios.B4800}, "the speed of {} from 9600 to 4800 baud"),
        ({"control": termios.CSTOPB}, "the bits, parity or stop bits of {}"),
        ({"local": termios.ICANON | termios.ECHO}, "how {} is read"),
    ],
)
def test_changed_settings(guard, far_end, what, words):
    change(far_end, **what)
    with pytest.raises(LinkError) as caught:
        guard.look()
    assert caught.value.code == "changed"
    words = words.format(far_end.path)
    assert en(caught.value.say) == f"another program changed {words}; close that program."


def test_set_as_it_was_is_not_changed(guard, far_end):
    change(far_end, baud=termios.B4800)
    change(far_end, baud=termios.B9600)
    guard.look()


def test_a_link_to_another_device(guard, far_end):
    master, slave = os.openpty()
    other = far_end.path.with_name("other")
    other.symlink_to(os.ttyname(slave))
    other.replace(far_end.path)
    with pytest.raises(LinkError, match="port-exchanged") as caught:
        guard.look()
    assert caught.value.code == "mixed-up"
    os.close(master)
    os.close(slave)


def test_a_link_that_is_gone_says_nothing(guard, far_end):
    far_end.path.unlink()
    guard.look()


def test_a_port_that_is_gone_is_for_the_read_to_tell(far_end):
    slave = os.open(far_end.path, os.O_RDWR | os.O_NOCTTY)
    guard = Guard(slave, str(far_end.path))
    far_end.unplug()
    guard.look()
    os.close(slave)


def test_what_is_no_terminal_has_no_settings():
    one, other = socket.socketpair()
    with one, other:
        Guard(one.fileno(), "socket://127.0.0.1:1").look()
