"""Why a port does not open, in words that say what to do: no number of the system's among them."""

import errno
import fcntl
import grp
import io
import os
import re
import socket
from pathlib import Path
from types import SimpleNamespace

import pytest
import serial

from daq.cli import parser
from daq.gauges.commands import hear
from daq.gauges.config import SerialLine
from daq.gauges.learn.command import learn
from daq.gauges.link import Link, LinkError
from tests.words import en

RAW = re.compile(r"Errno|\(\d+, |temporarily unavailable|Inappropriate|<\w+")
"""How the system's and the library's own words begin."""


def refused(url):
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), str(url), 0.05)
    told = [en(caught.value.say), en(caught.value.of("Arm gauge"))]
    assert not any(RAW.search(each) for each in told)
    return caught.value.code, *told


def failing(monkeypatch, error):
    def refuse(*args, **how):
        raise error

    monkeypatch.setattr(socket, "create_connection", refuse)


@pytest.mark.parametrize(
    ("error", "code", "words"),
    [
        (ConnectionRefusedError(errno.ECONNREFUSED, "x"), "cannot-open", "the port's number right"),
        (socket.gaierror(socket.EAI_NONAME, "x"), "cannot-open", "no computer of that name"),
        (TimeoutError("timed out"), "cannot-open", "does not answer: has the serial server power"),
        (OSError(errno.EHOSTUNREACH, "x"), "cannot-open", "does not answer: has the serial"),
        (OSError(errno.ENETUNREACH, "x"), "cannot-open", "does not answer: has the serial"),
        (ConnectionResetError(errno.ECONNRESET, "x"), "busy", "ends the connection at once"),
    ],
)
@pytest.mark.parametrize("scheme", ["socket", "rfc2217"])
def test_a_server_that_cannot_be_reached(monkeypatch, scheme, error, code, words):
    failing(monkeypatch, error)
    found = refused(f"{scheme}://shop-server:4001")
    assert found[0] == code
    assert words in found[1] and words in found[2]
    assert f"{scheme}://shop-server:4001" in found[1]
    assert "shop-server" not in found[2]


@pytest.mark.parametrize(
    ("url", "words"),
    [
        ("socket://shop-server", "names no server: correct the gauge's file, socket://NAME:PORT"),
        ("rfc2217://:4001", "names no server: correct the gauge's file, rfc2217://NAME:PORT"),
        ("socket://shop-server:99999", "names no server"),
        ("socket://shop-server:first", "names no server"),
        ("rfc2217://127.0.0.1:1?ignore", "Allowed: ign_set_control, poll_modem, timeout=SECONDS"),
        ("nonsense://here", "no such kind of port. Allowed: a path such as /dev/serial/by-id/"),
        ("/dev/null", "is no serial port"),
        ("/dev", "is no serial port"),
        ("/nowhere/by-id/adapter", "is not there, nor is its folder: is the cable plugged in"),
    ],
)
def test_a_name_that_leads_to_no_port(url, words):
    assert words in refused(url)[1]


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("remote rejected value for option 'baudrate'", "not take the speed of the gauge's file"),
        ("dict_values([baudrate:ACTIVE, datasize:REQUESTED])", "not take the number of data bits"),
        ("dict_values([parity:REALLY_INACTIVE, stopsize:ACTIVE])", "not take the parity"),
        ("remote rejected value for option 'stopsize'", "not take the number of stop bits"),
        ("remote rejected value for option 'control'", 'port = "rfc2217://a:1?ign_set_control"'),
        ("timeout while waiting for option 'control'", 'port = "rfc2217://a:1?ign_set_control"'),
        ("support RFC2217 or BINARY mode", "write socket:// and set"),
    ],
)
def test_a_server_that_refuses_a_setting(monkeypatch, said, words):
    """The words are those of pyserial 3.5, rfc2217.py."""

    def refuse(*args, **how):
        raise serial.SerialException(said)

    monkeypatch.setattr(serial, "serial_for_url", refuse)
    assert words in refused("rfc2217://a:1")[1]


@pytest.mark.parametrize(
    ("gid", "mode", "words"),
    [
        (20, 0o660, "As root: usermod -aG dialout "),
        (20, 0o600, "no group is let in: its udev rule is missing"),
        (0, 0o660, "no group is let in: its udev rule is missing"),
    ],
)
def test_a_port_that_the_user_may_not_open(monkeypatch, gid, mode, words):
    def refuse(*args, **how):
        raise serial.SerialException(errno.EACCES, "x")

    monkeypatch.setattr(serial, "serial_for_url", refuse)
    monkeypatch.setattr(Path, "stat", lambda path: SimpleNamespace(st_gid=gid, st_mode=mode))
    monkeypatch.setattr(grp, "getgrgid", lambda gid: SimpleNamespace(gr_name="dialout"))
    code, in_full, short = refused("/dev/ttyUSB0")
    assert code == "cannot-open"
    assert words in in_full
    assert short == "Arm gauge: this user may not open its port: the setup page says what to do."


def test_a_lock_that_is_held(far_end):
    with Path(far_end.node).open("rb+", buffering=0) as other:
        fcntl.flock(other, fcntl.LOCK_EX)
        code, told, _ = refused(far_end.path)
    assert code == "busy"
    assert told == f"another program has {far_end.path} open; close it there."


def test_no_more_open_files(monkeypatch):
    def refuse(*args, **how):
        raise serial.SerialException(errno.EMFILE, "x")

    monkeypatch.setattr(serial, "serial_for_url", refuse)
    why = os.strerror(errno.EMFILE)
    assert refused("/dev/ttyUSB0")[1].endswith(f"cannot be opened; the system says: {why}.")


def test_learning_asks_nothing_at_a_port_that_is_missing_or_busy(far_end, monkeypatch):
    terminal = SimpleNamespace(isatty=lambda: True, readline=lambda: pytest.fail("it was asked"))
    monkeypatch.setattr("sys.stdin", terminal)
    for port, words in ((far_end.path, "has {} open"), ("/nowhere/port", "{} is not there")):
        out, err = io.StringIO(), io.StringIO()
        args = parser().parse_args(["gauge", "learn", "--port", str(port)])
        with Path(far_end.node).open("rb+", buffering=0) as other:
            fcntl.flock(other, fcntl.LOCK_EX)
            assert learn(args, en, out, err) == 2
        assert words.format(port) in err.getvalue()
        assert out.getvalue() == ""


def test_listening_at_a_port_that_is_missing_says_so_at_once(tmp_path):
    file = Path(__file__).parents[2] / "config" / "gauges" / "example-inch.toml"
    out, err = io.StringIO(), io.StringIO()
    given = ["gauge", "listen", "--config", str(file), "--port", str(tmp_path / "port")]
    assert hear(parser().parse_args(given), en, out, err) == 2
    assert (out.getvalue(), "is not there" in err.getvalue()) == ("", True)
