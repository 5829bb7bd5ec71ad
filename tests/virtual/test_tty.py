"""The pseudo-terminal, read the way a shop's port is read: with pyserial."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
import serial

from daq.virtual.tty import PtyLine
from tests.patience import PATIENCE_S


@pytest.fixture
def line(tmp_path: Path) -> Iterator[PtyLine]:
    made = PtyLine(tmp_path / "ports" / "gauge")
    made.plug()
    yield made
    made.unplug()


def opened(line: PtyLine) -> serial.SerialBase:
    return serial.serial_for_url(str(line.link), baudrate=9600, timeout=PATIENCE_S, exclusive=True)


def drained(port: serial.SerialBase) -> bytes:
    port.timeout = 0.2
    got = b""
    while more := port.read(4096):
        got += more
    return got


def frame(n: int) -> bytes:
    return f"+{n:07.3f} mm\r\n".encode()


def test_frames_arrive_as_they_were_sent(line: PtyLine) -> None:
    with opened(line) as port:
        sent = [frame(n) for n in range(5)]
        assert all(line.send(one) for one in sent)
        assert [port.readline() for _ in sent] == sent


def test_raw_bytes_pass_unchanged(line: PtyLine) -> None:
    every = bytes(range(256))
    with opened(line) as port:
        line.send(every)
        assert port.read(256) == every
        port.write(b"\x03\x04hello")
        line.send(b"after\r\n")
        assert port.readline() == b"after\r\n"


def test_a_late_reader_gets_no_stale_frames(line: PtyLine) -> None:
    """Opened without pyserial, which would throw old input away by itself."""
    assert not any(line.send(frame(n)) for n in range(2000))
    port = os.open(line.link, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)
    try:
        with pytest.raises(BlockingIOError):
            os.read(port, 4096)
        line.send(frame(7))
        assert os.read(port, 4096) == frame(7)
    finally:
        os.close(port)


def test_what_one_reader_left_behind_is_not_for_the_next(line: PtyLine) -> None:
    first = os.open(line.link, os.O_RDWR | os.O_NOCTTY)
    assert line.send(frame(1))
    os.close(first)
    assert not line.send(frame(2))
    second = os.open(line.link, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)
    try:
        assert line.send(frame(3))
        assert os.read(second, 4096) == frame(3)
    finally:
        os.close(second)


def test_a_reader_that_never_reads_does_not_hold_the_mill_up(line: PtyLine) -> None:
    with opened(line) as port:
        taken = sum(line.send(frame(n % 1000)) for n in range(5000))
        assert 0 < taken < 5000
        got = drained(port)
        # The rest of a frame that did not fit follows with the next one sent.
        taken += line.send(frame(7))
        got += drained(port)
        assert got.endswith(frame(7))
        rows = got.split(b"\r\n")[:-1]
        assert len(rows) == taken
        assert all(len(row) == len(frame(0)) - 2 for row in rows)


def test_unplugging_hangs_up_and_replugging_comes_back(line: PtyLine) -> None:
    port = opened(line)
    line.unplug()
    assert not line.plugged
    assert not line.link.is_symlink()
    assert not line.send(frame(1))
    with pytest.raises(serial.SerialException):
        port.read(1)
    port.close()
    with pytest.raises(serial.SerialException):
        opened(line)
    line.plug()
    with opened(line) as again:
        line.send(frame(2))
        assert again.readline() == frame(2)


def test_plugging_and_unplugging_twice_changes_nothing(line: PtyLine) -> None:
    name = line.link.readlink()
    line.plug()
    assert line.link.readlink() == name
    line.unplug()
    line.unplug()
    assert not line.plugged


def test_a_link_left_by_a_crash_is_replaced(tmp_path: Path) -> None:
    link = tmp_path / "gauge"
    link.symlink_to("/dev/pts/999999")
    line = PtyLine(link)
    line.plug()
    assert link.readlink() != Path("/dev/pts/999999")
    line.unplug()


def test_a_file_in_the_way_is_left_alone(tmp_path: Path) -> None:
    link = tmp_path / "gauge"
    link.write_text("precious")
    line = PtyLine(link)
    with pytest.raises(FileExistsError, match="not a link"):
        line.plug()
    assert link.read_text() == "precious"
    assert not line.plugged


def test_another_mills_link_is_not_removed(line: PtyLine) -> None:
    line.link.unlink()
    line.link.symlink_to("/dev/null")
    line.unplug()
    assert line.link.is_symlink()


def test_two_hundred_replugs_leave_no_descriptor(line: PtyLine) -> None:
    before = len(list(Path("/proc/self/fd").iterdir()))
    for _ in range(200):
        line.unplug()
        line.plug()
    assert len(list(Path("/proc/self/fd").iterdir())) == before
