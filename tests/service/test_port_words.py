"""What keeps a gauge's port from being read is said on the screens without the port's path.

A name under by-id is some hundred characters long and tells a machinist nothing; it stands on
the setup page and at the command line, where the cable's own person works.
"""

import datetime
import errno
import json
import os
import re
import socket
import termios
from pathlib import Path
from types import SimpleNamespace

import pytest
import serial

from daq.audit.state import Shop
from daq.gauges import reader as reading
from daq.gauges.config import SerialLine
from daq.gauges.errors import LinkError
from daq.gauges.guard import Guard
from daq.gauges.identity import Adapter, Identity
from daq.gauges.link import Link
from daq.gauges.reader import PortReader, Reader
from daq.ledger import Ledger
from daq.service import setup as setup_page
from daq.service.files import load
from daq.service.hub import Hub, Served
from daq.service.people import People
from daq.service.proof import Known
from daq.service.screens import Screens
from tests.words import en, told

BY_ID = "/dev/serial/by-id/usb-" + "Adapter_of_a_long_name_" * 4 + "0042-if00-port0"
BY_PATH = "platform-fd500000.pcie-pci-0000:01:00.0-usb-0:1.2:1.0-port0"
DAY = (datetime.date(2023, 11, 14), True)
URLS = (BY_ID, "socket://192.168.1.77:4001", "rfc2217://server.local:4001?logging=debug")
RAW = re.compile(r"/dev|/sys|://|Errno|\(\d+, '|by-(id|path)/|-port0|[\w.]+/[\w.]+/")


class Refusing:
    """pyserial as it refuses to open a port."""

    def __init__(self, error):
        self.error = error

    def __call__(self, *_, **__):
        raise self.error


def pyserials_own(url):
    """An error as pyserial words it, the reason behind it in its context."""
    try:
        try:
            raise ConnectionRefusedError(errno.ECONNREFUSED, "Connection refused")
        except OSError as why:
            raise serial.SerialException(f"Could not open port {url}: {why}") from None
    except serial.SerialException as error:
        return error


def opening(monkeypatch, url, error):
    monkeypatch.setattr(serial, "serial_for_url", Refusing(error))
    with pytest.raises(LinkError) as caught:
        Link(SerialLine(url), url, 0.1)
    return caught.value


def refusals(monkeypatch, url):
    """Every kind of error a port is not opened for."""
    for number in (errno.EBUSY, errno.EAGAIN, errno.ENOENT, errno.EIO, errno.EACCES, errno.EPERM):
        yield opening(monkeypatch, url, OSError(number, os.strerror(number), url))
    for error in (
        termios.error(errno.EINVAL, "Invalid argument"),
        pyserials_own(url),
        ValueError(f"invalid URL, protocol {url!r} not known"),
        OSError(errno.EHOSTUNREACH, "No route to host"),
        socket.gaierror(-2, "Name or service not known"),
        serial.SerialException(f"could not open port {url}: (25, 'Inappropriate ioctl')"),
    ):
        yield opening(monkeypatch, url, error)


def exchanges(monkeypatch, url):
    """Every way in which an adapter is not the one it was, or may be another."""
    one, other = frozenset({BY_PATH}), frozenset({BY_PATH.replace("1.2", "1.3")})
    for first, now in (
        (Adapter(one, ""), Adapter(other, "")),
        (Adapter(one, "A1"), Adapter(one, "A2")),
        (Adapter(one, ""), Adapter(frozenset(), "")),
        (None, Adapter(one, "", other)),
    ):
        identity = Identity(url)
        adapters = iter([first, now] if first else [now])
        monkeypatch.setattr(identity, "adapter", lambda _, adapters=adapters: next(adapters))
        if first:
            identity.verify(1)
        with pytest.raises(LinkError) as caught:
            identity.verify(1)
        yield caught.value
    identity = Identity(url)
    identity.exchange(2)
    with pytest.raises(LinkError) as caught:
        identity.verify(1)
    yield caught.value


def changes(tmp_path):
    """Every setting another program may change, and a name that leads elsewhere."""
    for index, change in enumerate(
        ((4, termios.B4800), (2, termios.CSTOPB | termios.CS8 | termios.CREAD), (3, termios.ECHO))
    ):
        master, slave = os.openpty()
        link = tmp_path / f"usb-{'long_name_' * 9}{index}-port0"
        link.symlink_to(os.ttyname(slave))
        guard = Guard(slave, str(link))
        now = termios.tcgetattr(slave)
        now[change[0]] = change[1]
        if change[0] == 4:
            now[5] = change[1]
        termios.tcsetattr(slave, termios.TCSANOW, now)
        with pytest.raises(LinkError) as caught:
            guard.look()
        yield caught.value
        guard = Guard(slave, str(link))
        link.unlink()
        link.symlink_to("/dev/null")
        with pytest.raises(LinkError) as caught:
            guard.look()
        yield caught.value
        os.close(master)
        guard._watched = False  # hung up, before its settings could not be read any more
        with pytest.raises(LinkError) as caught:
            guard.look()
        yield caught.value
        os.close(slave)


def status_of(monkeypatch, config, url, error):
    """What the reader of the practice gauge says when its port gives this error."""
    told = []

    class Failing:
        def __init__(self, *_):
            made.end()
            raise error

    made = Reader(
        "practice",
        config,
        PortReader(config.line, url, retry=reading.Retry(0.001, 0.001)),
        on_sample=lambda sample: None,
        on_status=told.append,
        new_run=lambda: "run",
    )
    monkeypatch.setattr(reading, "Link", Failing)
    made.start()
    made.stop()
    return made.status, told


@pytest.fixture
def shown(monkeypatch, tmp_path, config, clock):
    """What stands on the screens, and on the setup page, while a port gives an error."""
    gauge = load(config).gauges["practice"]
    hub = Hub((Served("practice-mill", "Mill", "practice", 1000),), clock.mono_ns)
    ledger = Ledger.open(tmp_path / "data", stamp=clock.stamp())
    screens = Screens(hub, Shop(), ledger.head, clock, {"practice": gauge}, Known(), People({}))

    def show(url, error):
        status, heard = status_of(monkeypatch, gauge, url, error)
        assert heard == [status]
        screens.status(status)
        snapshot = hub.snapshot("practice-mill")
        fault = told(snapshot.faults[0])
        on_screens = json.dumps([told(snapshot.pages), fault], ensure_ascii=False)
        card = setup_page._gauge(
            "practice",
            gauge,
            SimpleNamespace(status=status, wire=reading.Wire(), beside=()),
            None,
            DAY,
        )
        return on_screens, fault, json.dumps(told(hub.health())), en(card.say)

    yield show
    ledger.close()


@pytest.mark.parametrize("url", URLS)
def test_no_screen_shows_where_a_port_is(monkeypatch, tmp_path, shown, url):
    errors = [
        *refusals(monkeypatch, url),
        *exchanges(monkeypatch, url),
        *changes(tmp_path),
        RuntimeError(f"{url}: [Errno 5] (5, 'Input/output error')"),
    ]
    assert len(errors) > 20
    for error in errors:
        screens, fault, health, on_setup = shown(url, error)
        assert not RAW.search(screens), fault["say"]
        assert not RAW.search(health)
        assert fault["say"].startswith("Practice gauge")
        assert len(fault["say"]) < 200
        assert "usb-" in on_setup or url in on_setup


def test_a_cable_that_was_pulled_is_said_by_the_gauges_name(monkeypatch, tmp_path, shown):
    port = str(tmp_path / Path(BY_ID).name)
    error = opening(monkeypatch, port, OSError(errno.ENOENT, "x"))
    _, fault, _, on_setup = shown(port, error)
    assert fault["say"] == "Practice gauge is not there: is the cable plugged in?"
    assert on_setup == f"Practice gauge: {port} is not there: is the cable plugged in?"
    assert en(error.say) == f"{port} is not there: is the cable plugged in?"
