"""A second program on the port, whoever opened it first: noticed by the first byte it takes."""

import os
import subprocess
import termios
from contextlib import closing
from pathlib import Path

import pytest

from daq.gauges import config
from daq.gauges.errors import LinkError
from daq.gauges.link import Link
from daq.gauges.others import Others
from tests.gauges.conftest import flowing_frame, gauge_table
from tests.gauges.test_changed import flowing
from tests.patience import until
from tests.words import en

FRAME = flowing_frame(1.234)
LINE = config.from_table(gauge_table(), "test.toml").line
NOBODY = 65534


def beside(far_end):
    """Another program's descriptor of the port: root's, or of one that was there before."""
    return os.open(far_end.node, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)


def taken(device):
    """Everything that another program finds there."""
    try:
        return os.read(device, 4096)
    except BlockingIOError:
        return b""


@pytest.fixture
def thief(far_end):
    device = beside(far_end)
    yield device
    os.close(device)


@pytest.fixture
def link(thief, far_end):
    """Opened while the other one had the port open already."""
    with closing(Link(LINE, str(far_end.path), 0.2)) as made:
        yield made


def test_what_is_read_and_written_here_is_nobody_elses(link, far_end):
    for _ in range(20):
        far_end.send(FRAME)
        assert link.read(1.0) == FRAME
        link.write(b"?")
        assert link.read(0.0) == b""
        link.look()


@pytest.mark.parametrize("then", ["nothing", "a frame"])
def test_bytes_taken_by_a_program_that_was_there_before_are_noticed(link, thief, far_end, then):
    far_end.send(FRAME)
    until(lambda: taken(thief))
    if then == "a frame":
        far_end.send(FRAME)
    with pytest.raises(LinkError) as caught:
        link.read(0.0)
    assert caught.value.code == "shared"
    assert en(caught.value.of("Arm gauge")).startswith(
        "Arm gauge: another program reads or writes its port as well"
    )


def test_bytes_sent_by_another_program_are_noticed_before_the_next_are_sent(link, thief):
    os.write(thief, b"AT\r")
    with pytest.raises(LinkError):
        link.write(b"?")


def test_one_that_only_holds_it_open_or_looks_at_its_settings_takes_nothing(link, far_end, thief):
    termios.tcgetattr(thief)
    os.close(beside(far_end))
    far_end.send(FRAME)
    assert link.read(1.0) == FRAME


def test_where_nothing_can_be_watched_the_port_is_read_all_the_same(far_end, monkeypatch, thief):
    class Without:
        def inotify_init1(self, _):
            return -1

    monkeypatch.setattr("daq.gauges.others.ctypes.CDLL", lambda *_, **__: Without())
    with closing(Link(LINE, str(far_end.path), 0.2)) as link:
        far_end.send(FRAME)
        assert link.read(1.0) == FRAME


def test_a_file_that_is_not_open_is_watched_by_nobody():
    handle = os.open("/dev/null", os.O_RDONLY)
    os.close(handle)
    others = Others(handle)
    assert not others.used()
    others.close()


def test_a_reader_says_so_keeps_nothing_and_goes_on_once_it_is_alone(reader, far_end, heard, thief):
    reader.start()
    flowing(far_end, heard)
    looks = heard.looks
    while True:  # who is quicker is chance
        far_end.send(FRAME)
        if taken(thief):
            break
        heard.sample()
    status = heard.status()
    assert (status.code, heard.told_at - looks >= 0) == ("shared", True)
    assert "another program reads or writes its port" in en(status.say)
    assert far_end.node in en(status.in_full) or str(far_end.path) in en(status.in_full)
    flowing(far_end, heard)
    reader.stop()


def test_exclusive_use_keeps_out_whoever_is_not_root(link, far_end):
    """Of ioctl_tty(2): TIOCEXCL makes open(2) fail with EBUSY, but for CAP_SYS_ADMIN."""
    Path(far_end.node).chmod(0o666)
    user = NOBODY if os.geteuid() == 0 else None
    opens = ("/bin/sh", "-c", 'exec 3<>"$0"', far_end.node)
    done = subprocess.run(
        opens, user=user, cwd="/", env={"LC_ALL": "C"}, capture_output=True, text=True, check=False
    )
    assert done.returncode != 0
    assert "Device or resource busy" in done.stderr
