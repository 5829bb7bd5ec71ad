"""Gauges behind serial servers as shops have them: Debian's ser2net and socat."""

import re
import termios
from contextlib import closing

import pytest

from daq.gauges.config import SerialLine
from daq.gauges.link import Link, LinkError
from tests.gauges.conftest import flowing_frame
from tests.gauges.serial_server import ser2net, socat
from tests.words import en

RFC2217 = "telnet(rfc2217),tcp"
# pyserial's RFC 2217 client starts its thread in a way that Python has deprecated.
pytestmark = pytest.mark.filterwarnings("ignore:set(Daemon|Name):DeprecationWarning")


@pytest.fixture
def served(tmp_path, far_end):
    """Start a server before the terminal; it is killed at the end."""
    servers = []

    def start(kind, accepter="", device=far_end.path):
        if kind == "ser2net":
            servers.append(ser2net(tmp_path, accepter, device))
        else:
            servers.append(socat(tmp_path, device))
        servers[-1].start()
        return servers[-1]

    yield start
    for each in servers:
        each.kill()


def numbers(far_end, heard, first, count):
    """Send so many numbers, and return those that come."""
    far_end.send(b"\r\n" + b"".join(flowing_frame(n / 1000) for n in range(first, first + count)))
    return [round(heard.sample().value_mm * 1000) for _ in range(count)]


@pytest.mark.parametrize(
    ("kind", "accepter", "url"),
    [
        ("ser2net", RFC2217, "rfc2217://127.0.0.1:{}?ign_set_control"),
        ("ser2net", "tcp", "socket://127.0.0.1:{}"),
        ("socat", "", "socket://127.0.0.1:{}"),
    ],
)
def test_a_stream_comes_exactly_and_again_after_the_server_was_gone(
    served, far_end, make_reader, heard, kind, accepter, url
):
    server = served(kind, accepter)
    reader = make_reader(url.format(server.port), line={"port": "unused", "baud": 4800})
    reader.start()
    assert heard.opened() == "run-1"
    assert numbers(far_end, heard, 0, 200) == list(range(200))
    if accepter == RFC2217:
        assert termios.tcgetattr(far_end.slave)[4] == termios.B4800
    server.kill()
    told = heard.until("unplugged")
    assert en(told.say).startswith("Test gauge has ended the connection: has the serial server")
    server.start()
    assert heard.opened() == "run-2"
    assert numbers(far_end, heard, 200, 200) == list(range(200, 400))
    assert reader.status.bad == 0


def refused(url):
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), url, 0.05)
    return caught.value.code, en(caught.value.say)


def test_a_server_that_does_not_answer_about_flow_control_is_cured_as_it_says(served, far_end):
    server = served("ser2net", RFC2217)
    code, said = refused(f"rfc2217://127.0.0.1:{server.port}?timeout=0.5")
    assert code == "cannot-open"
    found = re.search(r'in the gauge\'s file, port = "(.+)"$', said)
    assert found and found[1].endswith("?timeout=0.5&ign_set_control")
    with closing(Link(SerialLine("unused"), found[1], 5.0)) as link:
        far_end.send(b"+001.234 mm\r\n")
        came = b""
        while not came.endswith(b"\n"):
            came += link.read(5.0)
        assert came == b"+001.234 mm\r\n"


def test_a_server_that_somebody_else_uses(served):
    server = served("ser2net", RFC2217)
    url = f"rfc2217://127.0.0.1:{server.port}?ign_set_control"
    with closing(Link(SerialLine("unused"), url, 0.05)):
        code, said = refused(url)
    assert code == "busy"
    assert "ends the connection at once: does another program use it, is its own cable in" in said


def test_a_server_whose_own_cable_is_out(served, tmp_path):
    server = served("ser2net", RFC2217, tmp_path / "none")
    assert refused(f"rfc2217://127.0.0.1:{server.port}?ign_set_control")[0] == "busy"


def test_a_plain_connection_that_somebody_else_uses(served, make_reader, heard):
    server = served("ser2net", "tcp")
    url = f"socket://127.0.0.1:{server.port}"
    with closing(Link(SerialLine("unused"), url, 0.05)):
        make_reader(url).start()
        assert en(heard.until("unplugged").say).endswith("does nobody else use its port?")
