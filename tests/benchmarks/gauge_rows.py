"""What reading a gauge costs, each figure beside its bare anchor in the same run.

Own work and anchor take turns, at equal rates and over the same frames, so that a
busy machine slows both. Seconds are per event, each the median of the repeats.
"""

import os
import select
import statistics
import threading
import time
import tty
from collections.abc import Callable

from daq.gauges import config, frames
from daq.gauges.reader import PortReader, Reader
from daq.units import MM_PER
from daq.words import Sample

Row = tuple[str, float, float, float]

TERMINATOR = b"\r\n"
FRAME_TABLE = {
    "shape": "text",
    "pattern": r"(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm)",
}
GAUGE_TABLE = {
    "name": "Benchmark gauge",
    "serial_number": "1",
    "kind": "plunger",
    "counts_up": True,
    "resolution": "0.001 mm",
    "travel": "12.7 mm",
    "max_error": "0.004 mm",
    "calibration_due": "2028-03-31",
    "line": {"port": "unused"},
    "talk": {"interval": "1 ms"},
    "frame": FRAME_TABLE,
}


def measure(events: int = 1000, repeats: int = 5, rate_hz: float = 1000.0) -> list[Row]:
    """Return (label, own seconds, anchor seconds, ratio to reach) a row.

    `events` a turn, `repeats` turns each; frames come at `rate_hz` where a wire is read.
    """
    sent = [b"%+08.3f mm" % (number * 0.013 - 6.0) + TERMINATOR for number in range(events)]
    pairs = [(float(frame[:8]), "mm" if number % 2 else "in") for number, frame in enumerate(sent)]
    return [
        _row(
            f"reader CPU at {rate_hz:g} frames/s / select + os.read",
            lambda: _reader_cpu(sent, rate_hz),
            lambda: _bare_cpu(sent, rate_hz),
            2.0,
            repeats,
        ),
        _row(
            "decode of a text frame, in blocks of 50 / slice + float",
            lambda: _decode(sent, 50),
            lambda: _timed(lambda: [float(frame[0:8]) for frame in sent], events),
            8.0,
            repeats,
        ),
        _row(
            "decode of a text frame, one a call / slice + float",
            lambda: _decode(sent, 1),
            lambda: _timed(lambda: [float(frame[0:8]) for frame in sent], events),
            8.0,
            repeats,
        ),
        _row(
            "unit conversion of a sample / one multiply",
            lambda: _timed(lambda: [value * MM_PER[unit] for value, unit in pairs], events),
            lambda: _timed(lambda: [value * 25.4 for value, unit in pairs], events),
            3.0,
            repeats,
        ),
    ]


def _row(
    label: str, own: Callable[[], float], anchor: Callable[[], float], reach: float, repeats: int
) -> Row:
    turns = [(own(), anchor()) for _ in range(repeats)]
    return (
        label,
        statistics.median(turn[0] for turn in turns),
        statistics.median(turn[1] for turn in turns),
        reach,
    )


def _timed(work: Callable[[], object], events: int) -> float:
    """Return the CPU time of one event of `work`, which handles `events` of them."""
    work()
    start = time.thread_time()
    for _ in range(20):
        work()
    return (time.thread_time() - start) / (20 * events)


def _decode(sent: list[bytes], block: int) -> float:
    decoder = frames.decoder(FRAME_TABLE, "benchmark")
    decoder.feed(TERMINATOR)
    blocks = [b"".join(sent[first : first + block]) for first in range(0, len(sent), block)]
    return _timed(lambda: [decoder.feed(each) for each in blocks], len(sent))


def _send(master: int, sent: list[bytes], rate_hz: float) -> None:
    due = time.monotonic()
    for frame in sent:
        os.write(master, frame)
        due += 1.0 / rate_hz
        time.sleep(max(0.0, due - time.monotonic()))


def _reader_cpu(sent: list[bytes], rate_hz: float) -> float:
    """Return the reader thread's CPU time per frame, from the first frame to the last."""
    master, slave = os.openpty()
    tty.setraw(slave)
    opened, done = threading.Event(), threading.Event()
    marks: list[float] = []

    def on_sample(sample: Sample) -> None:
        if sample.n in (0, len(sent)):
            marks.append(time.thread_time())
        if len(marks) == 2:
            done.set()

    def new_run() -> str:
        opened.set()
        return "run"

    read = config.from_table(GAUGE_TABLE, "benchmark")
    reader = Reader(
        "benchmark",
        read,
        PortReader(read.line, os.ttyname(slave)),
        on_sample=on_sample,
        on_status=lambda status: None,
        new_run=new_run,
    )
    reader.start()
    opened.wait()
    _send(master, [TERMINATOR + sent[0], *sent], rate_hz)
    done.wait()
    reader.stop()
    os.close(slave)
    os.close(master)
    return (marks[1] - marks[0]) / len(sent)


def _bare_cpu(sent: list[bytes], rate_hz: float) -> float:
    """Return the CPU time per frame of a thread that only waits and reads."""
    master, slave = os.openpty()
    tty.setraw(slave)
    os.set_blocking(slave, False)
    spent: list[float] = []
    due = sum(map(len, sent))

    def work() -> None:
        start, got = time.thread_time(), 0
        while got < due:
            if select.select([slave], [], [], 0.2)[0]:
                got += len(os.read(slave, 4096))
        spent.append(time.thread_time() - start)

    thread = threading.Thread(target=work)
    thread.start()
    _send(master, sent, rate_hz)
    thread.join()
    os.close(slave)
    os.close(master)
    return spent[0] / len(sent)
