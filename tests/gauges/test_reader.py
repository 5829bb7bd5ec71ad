"""A reader on a real terminal: samples, and every fault a wire has, without ever dying."""

import threading
import time
from pathlib import Path

from daq.gauges import config
from daq.gauges.config import SerialLine
from daq.gauges.link import Link
from daq.gauges.reader import PortReader, Reader, Retry
from tests.patience import PATIENCE_S, until
from tests.words import en

FRAME = b"+001.234 mm\r\n"
S = 1_000_000_000


def running(reader, far_end, heard):
    """Start, and let one frame through."""
    reader.start()
    return flowing(far_end, heard)


def flowing(far_end, heard):
    run = heard.opened()
    far_end.send(b"\r\n" + FRAME)
    assert heard.sample().run == run
    status = heard.status()
    assert (status.code, status.run, en(status.say)) == ("ok", run, "")
    return run


def open_files():
    return len(list(Path("/proc/self/fd").iterdir()))


def test_samples(reader, far_end, heard):
    reader.start()
    assert heard.opened() == "run-1"
    before = time.monotonic_ns()
    far_end.send(b".234 mm\r\n" + FRAME + b"-000.001 in\r\n")
    one, two = heard.sample(), heard.sample()
    assert (one.gauge, one.run, one.n, one.text) == ("dial", "run-1", 0, "+001.234")
    assert (one.unit, one.value_mm, one.flags, one.raw) == ("mm", 1.234, (), b"+001.234 mm")
    # NIST SP 811, appendix B.8: 1 in = 25.4 mm exactly.
    assert (two.n, two.text, two.unit, two.value_mm) == (1, "-000.001", "in", -0.001 * 25.4)
    assert before <= one.mono_ns <= two.mono_ns <= time.monotonic_ns()
    assert reader.ring.latest() == two
    assert reader.ring.since("run-1", before).samples == (one, two)


def test_status_before_and_after_the_first_frame(reader, far_end, heard):
    assert (reader.status.code, reader.status.run) == ("silent", "")
    assert en(reader.status.say) == "Test gauge: not yet opened."
    running(reader, far_end, heard)
    assert (reader.status.good, reader.status.bad) == (1, 0)
    assert reader.status.last_mono_ns == reader.ring.latest().mono_ns


def test_hang_up_and_return_thirty_times(make_reader, far_end, heard):
    reader = make_reader(far_end.path, talk={"interval": "10 s"})  # never called silent
    runs = [running(reader, far_end, heard)]
    files = open_files()
    threads = threading.active_count()
    for _ in range(30):
        far_end.send(b"+001.2")  # half a frame, never to be joined to what comes next
        far_end.unplug()
        lost = heard.status()
        assert (lost.code, lost.run) == ("unplugged", runs[-1])
        far_end.plug()
        runs.append(flowing(far_end, heard))
    assert len(set(runs)) == 31
    assert heard.statuses.empty()
    assert heard.samples.empty()
    assert [each.value_mm for each in reader.ring.since(None, 0).samples] == [1.234] * 31
    assert open_files() == files
    assert threading.active_count() == threads


def test_unplugged_is_noticed_the_next_time_round_and_named(reader, far_end, heard):
    running(reader, far_end, heard)
    rounds = heard.looks
    far_end.unplug()
    status = heard.status()
    assert heard.told_at - rounds <= 2  # one may be under way
    assert status.code == "unplugged"
    assert en(status.say) == "Test gauge has gone: is the cable plugged in?"
    assert en(status.in_full) == f"Test gauge: {far_end.path} has gone: is the cable plugged in?"


def test_a_port_that_was_never_there(reader, far_end, heard):
    far_end.unplug()
    reader.start()
    status = heard.status()
    assert status.code == "unplugged"
    assert en(status.say) == "Test gauge is not there: is the cable plugged in?"
    far_end.plug()
    flowing(far_end, heard)


def test_busy_until_the_other_lets_go(reader, far_end, heard):
    other = Link(SerialLine("unused"), str(far_end.path), 0.1)
    reader.start()
    status = heard.status()
    assert status.code == "busy"
    assert en(status.say) == "Test gauge: another program has its port open; close it there."
    assert f"another program has {far_end.path} open" in en(status.in_full)
    other.close()
    flowing(far_end, heard)


def test_silent_and_back(reader, far_end, heard):
    run = running(reader, far_end, heard)
    heard.ahead_ns += 4 * S
    status = heard.status()
    assert (status.code, status.run) == ("silent", run)
    assert en(status.say).startswith("Test gauge: silent for 4 s")
    far_end.send(FRAME)
    assert heard.status().code == "ok"
    assert heard.runs.empty()  # the port was open all the time


def test_silent_from_the_first(reader, heard):
    reader.start()
    heard.opened()
    heard.ahead_ns += 2 * S
    assert heard.status().code == "silent"


def test_garbage_is_told_and_forgiven(reader, far_end, heard):
    running(reader, far_end, heard)
    far_end.send(b"\xf8\x80\r\n" * 37)
    until(lambda: reader.status.bad == 37)
    heard.ahead_ns += 2 * S
    far_end.send(b"\xf0" * 20)  # it still comes; until it does, the gauge may be called silent
    status = heard.until("garbled")
    assert "37 bad frames" in en(status.say) or "38 bad frames" in en(status.say)
    assert "none good: wrong speed or framing?" in en(status.say)
    far_end.send(b"\r\n" + FRAME)
    assert heard.until("ok").bad == 38
    assert heard.sample().value_mm == 1.234


def test_garbage_among_good_frames_is_counted_and_no_fault(reader, far_end, heard):
    running(reader, far_end, heard)
    far_end.send(b"+001.234\r\n" + FRAME)
    heard.sample()
    heard.ahead_ns += S // 2
    far_end.send(FRAME)
    heard.sample()
    reader.stop()
    assert (reader.status.code, reader.status.bad) == ("ok", 1)


def test_a_pause_within_a_frame_breaks_it(reader, far_end, heard):
    running(reader, far_end, heard)
    far_end.send(b"+001.2")
    until(lambda: reader.status.bad == 1)
    far_end.send(b"99 mm\r\n" + FRAME)
    assert heard.sample().value_mm == 1.234


def test_a_fault_of_whoever_listens_does_not_end_it(far_end, heard, table, caplog):
    def stumble(sample):
        if heard.made == 1:
            raise KeyError("a fault elsewhere")
        heard.samples.put(sample)

    read = config.from_table(table(), "test.toml")
    reader = Reader(
        "dial",
        read,
        PortReader(read.line, str(far_end.path)),
        on_sample=stumble,
        on_status=heard.statuses.put,
        new_run=heard.new_run,
    )
    reader.start()
    heard.opened()
    far_end.send(b"\r\n" + FRAME)
    status = heard.status()
    assert status.code == "cannot-open"
    assert "a fault elsewhere" in en(status.in_full)
    flowing(far_end, heard)
    reader.stop()
    assert "gauge dial" in caplog.text


def test_retries_slow_down(make_reader, far_end, monkeypatch):
    far_end.unplug()
    reader = make_reader(far_end.path, retry=Retry())
    waits = []
    monkeypatch.setattr(reader._port._stopping, "wait", waits.append)
    monkeypatch.setattr(reader._port._stopping, "is_set", lambda: len(waits) >= 6)
    reader.start()
    reader.stop()
    assert waits == [0.2, 0.4, 0.8, 1.6, 2.0, 2.0]


def test_stop_gives_the_port_back(reader, far_end, heard):
    running(reader, far_end, heard)
    reader.stop()
    assert "gauge-dial" not in [thread.name for thread in threading.enumerate()]
    Link(SerialLine("unused"), str(far_end.path), 0.1).close()


def test_the_gauges_own_warning_is_passed_on_once(make_reader, far_end, heard):
    frame = {
        "shape": "text",
        "unit": "mm",
        "pattern": r"(?P<value>\d\.\d)(?P<status>L?)",
        "flags": {"L": "weak-battery"},
    }
    reader = make_reader(far_end.path, frame=frame, resolution="0.1 mm")
    reader.start()
    heard.opened()
    far_end.send(b"\r\n1.5\r\n")
    assert heard.status().warnings == ()
    far_end.send(b"1.5L\r\n")
    status = heard.status()
    assert status.code == "ok"
    (warning,) = status.warnings
    assert en(warning) == "Test gauge: its battery is weak: change it before the next job."
    far_end.send(b"1.5L\r\n")
    assert [heard.sample().flags for _ in range(3)] == [(), ("weak-battery",), ("weak-battery",)]
    assert heard.statuses.empty()


def test_the_wire_can_be_looked_at(reader, far_end, heard):
    assert reader.wire.run == ""
    run = running(reader, far_end, heard)
    far_end.send(b"+001.2?4 mm\r\n")
    until(lambda: reader.wire.bad == 1)
    assert (reader.wire.run, reader.wire.good) == (run, 1)
    assert [frame.text for frame in reader.wire.frames] == ["+001.234 mm"]
    assert reader.wire.last_bad.text.endswith("+001.2?4 mm··")
    assert reader.wire.last_bad.hex.endswith("6d 6d 0d 0a")


def test_an_opening_that_fails_leaves_nothing_open(make_reader, far_end, heard):
    other = Link(SerialLine("unused"), str(far_end.path), 0.1)
    files = open_files()
    reader = make_reader(far_end.path)
    tries = threading.Semaphore(0)
    waited = reader._port._stopping.wait

    def wait(retry_s):
        tries.release()
        return waited(retry_s)

    reader._port._stopping.wait = wait
    reader.start()
    for _ in range(20):
        assert tries.acquire(timeout=PATIENCE_S)
    reader.stop()
    assert open_files() == files
    assert [heard.status().code] == ["busy"]
    assert heard.statuses.empty()
    other.close()
