"""A data cable of USB's class for input devices: its reports as bytes."""

import sys

import hidraw
import pytest

from daq.gauges.config import SerialLine
from daq.gauges.link import Link, LinkError
from tests.patience import until
from tests.rigs.keyboard import Cables
from tests.words import en

FRAME = {"shape": "fields", "layout": ["bytes 01", "signed 16 low-first", "any 5"], "unit": "mm"}
FRAME |= {"places": 3, "apart": "pause"}
TALK = {"interval": "50 ms", "pause": "10 ms"}


@pytest.fixture
def nodes(tmp_path):
    found = [tmp_path / name for name in ("hidraw0", "hidraw1")]
    for each in found:
        each.touch()
    return [str(each) for each in found]


@pytest.fixture
def cables(monkeypatch, nodes):
    made = Cables({nodes[0]: (0x1234, 0xABCD, "0017"), nodes[1]: (0x1234, 0xABCE, "")})
    monkeypatch.setitem(sys.modules, "hidraw", made)
    return made


def report(counts):
    return b"\x01" + counts.to_bytes(2, "little", signed=True) + bytes(5)


def refused(url):
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), url, 0.05)
    return caught.value.code, en(caught.value.say)


@pytest.mark.parametrize("url", ["hid://1234:abcd", "hid://1234:ABCD/0017", "hid://{}"])
def test_reports_are_read_as_they_come(cables, nodes, url):
    link = Link(SerialLine("unused"), url.format(nodes[0]), 0.05)
    cables.reports = [report(n) for n in range(5)]
    found = b""
    while len(found) < 40:
        found += link.read(0.05)
    assert found == b"".join(report(n) for n in range(5))
    assert link.read(0.001) == b""
    link.close()


def test_a_gauge_by_its_reports_pulled_out_and_put_back(make_reader, heard, cables, nodes):
    def paused():
        """The silence in which a frame may begin was heard."""
        asked = cables.asked + 8
        until(lambda: cables.asked >= asked)

    make_reader("hid://1234:abcd", frame=FRAME, talk=TALK).start()
    heard.opened()
    paused()
    cables.reports.append(report(-1250))
    assert heard.sample().value_mm == -1.25
    node = cables.devices.pop(nodes[0])
    assert heard.until("unplugged").run == "run-1"
    cables.devices[nodes[0]] = node
    assert heard.opened() == "run-2"
    paused()
    cables.reports.append(report(30))
    assert heard.sample().value_mm == 0.03


def test_what_names_no_device_or_several(cables, nodes):
    assert refused("hid://1234:0001")[0] == "unplugged"
    assert refused("hid://1234:abcd/0018")[0] == "unplugged"
    code, said = refused("hid://1234")
    assert (code, "allowed: hid://VENDOR:PRODUCT" in said) == ("cannot-open", True)
    cables.devices[nodes[1]] = (0x1234, 0xABCD, "0018")
    code, said = refused("hid://1234:abcd")
    assert code == "cannot-open"
    assert f"found 2 devices: {nodes[0]}, {nodes[1]}; allowed: one" in said


def test_a_device_that_does_not_open_says_why(cables, nodes, monkeypatch):
    cables.devices["/nowhere/hidraw7"] = (0x1234, 0x0007, "")
    assert refused("hid://1234:0007")[0] == "unplugged"
    monkeypatch.setattr("os.access", lambda *_: False)
    monkeypatch.setattr("os.open", forbidden)
    code, said = refused("hid://1234:abcd")
    assert (code, "may not open hid://1234:abcd" in said) == ("cannot-open", True)


def forbidden(path, flags):
    raise PermissionError(13, "no", path)


def test_the_library_takes_what_its_stand_in_takes():
    """hidapi itself, without a device."""
    assert hidraw.enumerate(0x1234, 0xABCD) == []
    device = hidraw.device()
    with pytest.raises(OSError, match="open failed"):
        device.open_path(b"/nowhere/hidraw7")
    with pytest.raises(ValueError, match="not open"):
        device.read(8, 1)
    device.close()
