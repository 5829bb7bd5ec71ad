"""A capture played as a port: through pyserial, the link and a whole reader."""

import threading
import time
from pathlib import Path

import pytest
import serial

from daq.gauges import capture
from daq.gauges.config import SerialLine
from daq.gauges.errors import LinkError
from daq.gauges.link import Link
from tests.patience import PATIENCE_S
from tests.words import en

CAPTURES = Path(__file__).parent / "captures"
FRAMES = b"\r\n+001.234 mm\r\n-000.001 mm\r\n"


@pytest.fixture
def one(tmp_path):
    path = tmp_path / "some captures" / "one.cap"
    path.parent.mkdir()
    path.write_text(f"cable: none\n\n{FRAMES[:20].hex(' ')}\npause\n{FRAMES[20:].hex(' ')}\n")
    return path


def url(path, options):
    return f"replay://{path}?{options}"


def played(address, size, wait_s=PATIENCE_S):
    with serial.serial_for_url(address, timeout=wait_s) as port:
        return port.read(size)


def test_all_bytes_in_their_order(one):
    assert played(url(one, "rate=1e6&pause=0.001"), len(FRAMES)) == FRAMES


def test_a_path_in_the_data_folder(one):
    line = SerialLine("replay://one.cap?rate=1e6&pause=0.001")
    assert played(line.url(one.parent), len(FRAMES)) == FRAMES


def test_over_and_over(one):
    address = url(one, "rate=1e6&pause=0.001&loop=yes")
    assert played(address, 3 * len(FRAMES)) == 3 * FRAMES


def test_once_and_then_silence(one):
    address = url(one, "rate=1e6&pause=0.001&loop=no")
    with serial.serial_for_url(address, timeout=PATIENCE_S) as port:
        assert port.read(len(FRAMES)) == FRAMES
        port.timeout = 0.01
        assert port.read(1) == b""
        assert port.in_waiting == 0


def test_bytes_take_their_time_and_so_do_pauses(one):
    start = time.monotonic()
    assert played(url(one, "rate=1000&pause=0.05"), len(FRAMES)) == FRAMES
    assert time.monotonic() - start >= len(FRAMES) / 1000 + 0.05


def test_what_has_come_can_be_read_without_waiting(one):
    with serial.serial_for_url(url(one, "rate=1e6&pause=0.001"), timeout=0) as port:
        while port.in_waiting < len(FRAMES):
            pass
        assert port.read(1000) == FRAMES
        assert port.write(b"R\r") == 2


def test_closing_wakes_whoever_reads(one):
    port = serial.serial_for_url(url(one, "rate=0.001"), timeout=None)
    got = []
    waiting = threading.Event()
    wait = port._closed.wait

    def waited(most_s):
        waiting.set()
        return wait(most_s)

    port._closed.wait = waited
    thread = threading.Thread(target=lambda: got.append(port.read(1)))
    thread.start()
    assert waiting.wait(PATIENCE_S)
    port.close()
    thread.join(PATIENCE_S)
    assert got == [b""]


def test_a_closed_port_is_refused(one):
    port = serial.serial_for_url(url(one, "rate=1"))
    port.close()
    port.close()
    for use in (lambda: port.in_waiting, lambda: port.read(1), lambda: port.write(b"R")):
        with pytest.raises(serial.SerialException):
            use()


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("rate=0", "found rate=0; allowed: replay://PATH?rate=960&pause=1&loop=yes"),
        ("rate=fast", "found rate=fast"),
        ("rate=nan", "found rate=nan"),
        ("pause=-1", "found pause=-1"),
        ("loop=maybe", "found loop=maybe"),
        ("rat=9", "found rat=9"),
        ("loop", "found loop="),
    ],
)
def test_options_that_mean_nothing_are_told(one, options, words):
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), url(one, options), 0.1)
    assert caught.value.code == "cannot-open"
    assert words in en(caught.value.say)


def test_no_such_file_and_no_capture(one):
    missing = one.with_name("two.cap")
    with pytest.raises(LinkError) as caught:
        Link(SerialLine("unused"), url(missing, ""), 0.1)
    assert caught.value.code == "unplugged"
    one.write_text("nonsense")
    with pytest.raises(LinkError, match="found no empty line") as caught:
        Link(SerialLine("unused"), url(one, ""), 0.1)
    assert caught.value.code == "cannot-open"


def test_an_empty_capture_played_over_and_over_is_silent(one):
    one.write_text("cable: none\n\n\n")
    assert played(url(one, "loop=yes"), 1, 0.01) == b""


def test_a_reader_reads_it(one, make_reader, heard):
    reader = make_reader(url(one, "rate=1e4&pause=0.02&loop=yes"), talk={"interval": "1 s"})
    reader.start()
    assert [heard.sample().text for _ in range(3)] == ["+001.234", "-000.001", "+001.234"]
    assert heard.until("ok").run == "run-1"
    reader.stop()
    assert heard.made == 1


@pytest.mark.parametrize("path", sorted(CAPTURES.glob("*.cap")), ids=lambda path: path.stem)
def test_each_capture_comes_as_it_was(path):
    pieces = capture.parse(path.read_text(encoding="utf-8"), path.name).pieces
    sent = b"".join(pieces)
    assert played(url(path, "rate=1e6&pause=0.001"), len(sent)) == sent
