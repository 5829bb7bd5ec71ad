"""A port is opened alone, as its file says, and what is wrong with it is said plainly."""

import array
import errno
import fcntl
import os
import select
import socket
import subprocess
import termios

import pytest
import serial

from daq.gauges.config import SerialLine
from daq.gauges.link import Link, LinkError
from tests.words import en

WAIT_S = 5.0
TIOCGEXCL = 0x80045440  # Linux, asm-generic/ioctls.h: whether a terminal is shut to others


def refused(url, line=None):
    with pytest.raises(LinkError) as caught:
        Link(line or SerialLine("unused"), str(url), WAIT_S)
    return caught.value


def test_bytes_come_in_blocks(far_end):
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    far_end.send(b"0123456789" * 10)
    assert link.read(WAIT_S) == b"0123456789" * 10
    link.close()


def test_nothing_comes(far_end):
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    assert link.read(0.001) == b""
    link.close()


def test_the_line_is_set_up_as_the_file_says(far_end):
    line = SerialLine("unused", baud=4800, stop=2, flow="software")
    link = Link(line, str(far_end.path), WAIT_S)
    iflag, _, cflag, _, speed, _, _ = termios.tcgetattr(far_end.slave)
    link.close()
    assert speed == termios.B4800
    assert cflag & termios.CSTOPB
    assert iflag & termios.IXON


@pytest.mark.parametrize("parity", ["none", "even"])
def test_a_byte_with_a_wrong_parity_is_read_as_zero(far_end, parity):
    """What termios(3) promises with INPCK, and without IGNPAR and PARMRK."""
    link = Link(SerialLine("unused", parity=parity), str(far_end.path), WAIT_S)
    iflag = termios.tcgetattr(far_end.slave)[0]
    link.close()
    assert iflag & (termios.INPCK | termios.IGNPAR | termios.PARMRK) == termios.INPCK


def test_two_power_lines(far_end, monkeypatch):
    ports = []
    plain = serial.serial_for_url

    def spied(*args, **how):
        ports.append(plain(*args, **how))
        return ports[-1]

    monkeypatch.setattr(serial, "serial_for_url", spied)
    Link(SerialLine("unused", dtr=False, rts=True), str(far_end.path), WAIT_S).close()
    assert (ports[0].dtr, ports[0].rts) == (False, True)


def test_a_second_opening_is_refused_by_name_until_the_first_is_closed(far_end):
    first = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    error = refused(far_end.path)
    assert error.code == "busy"
    assert en(error.say) == f"another program has {far_end.path} open; close it there."
    first.close()
    Link(SerialLine("unused"), str(far_end.path), WAIT_S).close()


def test_programs_that_ask_for_no_lock_are_kept_out_too(far_end):
    flag = array.array("i", [0])
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    fcntl.ioctl(far_end.slave, TIOCGEXCL, flag)
    assert flag[0] == 1
    os.fchmod(far_end.slave, 0o666)
    other = subprocess.run(
        ["cat", os.ttyname(far_end.slave)],
        user=65534 if os.geteuid() == 0 else None,  # the lock holds for all but root
        env={"LC_ALL": "C"},
        capture_output=True,
        timeout=30,
        check=False,
    )
    assert b"Device or resource busy" in other.stderr
    link.close()
    fcntl.ioctl(far_end.slave, TIOCGEXCL, flag)
    assert flag[0] == 0


def test_hang_up(far_end):
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    far_end.unplug()
    with pytest.raises(LinkError) as caught:
        link.read(WAIT_S)
    assert caught.value.code == "unplugged"
    assert en(caught.value.say) == f"{far_end.path} has gone: is the cable plugged in?"
    link.close()


class AlwaysReady:
    def poll(self, wait_ms):
        return [(0, select.POLLIN)]


def test_ready_but_no_data_is_a_port_that_has_gone(far_end):
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    link._poll = AlwaysReady()
    with pytest.raises(LinkError, match="port-gone"):
        link.read(WAIT_S)
    link.close()


def test_ready_but_not_just_now_is_no_fault(far_end):
    link = Link(SerialLine("unused"), str(far_end.path), WAIT_S)
    link._poll = AlwaysReady()
    settings = termios.tcgetattr(far_end.slave)
    settings[6][termios.VMIN] = 1  # a terminal so set answers "again" where it has nothing
    termios.tcsetattr(far_end.slave, termios.TCSANOW, settings)
    assert link.read(WAIT_S) == b""
    link.close()


def test_no_such_port(tmp_path):
    error = refused(tmp_path / "port")
    assert error.code == "unplugged"
    assert en(error.say) == f"{tmp_path / 'port'} is not there: is the cable plugged in?"


def test_the_far_end_has_gone(far_end):
    name = os.ttyname(far_end.slave)
    far_end.unplug()
    assert refused(name).code == "unplugged"


def test_not_a_port(tmp_path):
    (tmp_path / "file").write_text("")
    error = refused(tmp_path / "file")
    assert error.code == "cannot-open"
    assert en(error.say).startswith(f"{tmp_path / 'file'} is no serial port: ")
    assert refused("nonsense://here").code == "cannot-open"


@pytest.mark.parametrize(
    ("error", "code", "words"),
    [
        (serial.SerialException(errno.EACCES, "x"), "cannot-open", "may not open"),
        (serial.SerialException(errno.EBUSY, "x"), "busy", "another program has"),
        (serial.SerialException(errno.ENXIO, "x"), "unplugged", "is not there"),
        (termios.error(errno.EINVAL, "x"), "cannot-open", "does not take this speed"),
        (ValueError("x"), "cannot-open", "cannot be opened: x"),
    ],
)
def test_refusals_in_plain_words(monkeypatch, error, code, words):
    def refuse(*args, **how):
        raise error

    monkeypatch.setattr(serial, "serial_for_url", refuse)
    got = refused("/dev/ttyUSB0")
    assert got.code == code
    assert words in en(got.say)
    assert "/dev/ttyUSB0" in en(got.say)


def test_a_port_on_the_network():
    with socket.create_server(("127.0.0.1", 0)) as server:
        url = f"socket://127.0.0.1:{server.getsockname()[1]}"
        link = Link(SerialLine("unused"), url, WAIT_S)
        peer, _ = server.accept()
        with peer:
            peer.sendall(b"+001.234 mm\r\n")
            assert link.read(WAIT_S) == b"+001.234 mm\r\n"
        with pytest.raises(LinkError, match="server-gone"):
            link.read(WAIT_S)
        link.close()


HANDLER = """
from serial.serialutil import SerialBase, SerialException


class Serial(SerialBase):
    waiting = [b"first", b"", b"second"]

    def open(self):
        self.is_open = True

    def close(self):
        self.is_open = False

    def _reconfigure_port(self, **how):
        pass

    _update_dtr_state = _update_rts_state = _reconfigure_port

    @property
    def in_waiting(self):
        if not self.waiting:
            raise SerialException("gone")
        return len(self.waiting[0])

    def read(self, size=1):
        return self.waiting.pop(0)
"""


def test_a_port_that_is_no_file(tmp_path, monkeypatch):
    package = tmp_path / "canned_ports"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "protocol_canned.py").write_text(HANDLER)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(serial, "protocol_handler_packages", ["canned_ports"])
    line = SerialLine("unused", baud=300, bits=7, parity="even", stop=2, flow="hardware")
    link = Link(line, "canned://", WAIT_S)
    port = link._port
    assert (port.baudrate, port.bytesize, port.parity, port.stopbits) == (300, 7, "E", 2)
    assert (port.rtscts, port.xonxoff, port.timeout, port.exclusive) == (True, False, WAIT_S, True)
    assert [link.read(WAIT_S), link.read(WAIT_S), link.read(WAIT_S)] == [b"first", b"", b"second"]
    with pytest.raises(LinkError, match=r"port-gone\(it=canned://\)"):
        link.read(WAIT_S)
    link.close()
