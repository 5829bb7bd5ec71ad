"""A cable pulled out and put back a thousand times, in one process."""

import threading
from pathlib import Path

from tests.gauges.conftest import flowing_frame

TIMES = 1000
EACH = 3


def open_files():
    return len(list(Path("/proc/self/fd").iterdir()))


def run_of_frames(far_end, heard, number):
    """Send a run's frames, half a frame before and behind; return the samples."""
    far_end.send(b"234 mm\r\n")
    for k in range(EACH):
        far_end.send(flowing_frame(number % 1000 - 500 + k / 1000))
    samples = [heard.sample() for _ in range(EACH)]
    far_end.send(b"+001.2")
    return samples


def test_a_thousand_times(far_end, make_reader, heard):
    reader = make_reader(far_end.path, talk={"interval": "10 s"})  # never called silent
    reader.start()
    taken = []
    for number in range(TIMES + 1):
        assert heard.opened() == f"run-{number + 1}"
        taken.append(run_of_frames(far_end, heard, number))
        back = heard.status()
        assert (back.code, back.run) == ("ok", f"run-{number + 1}")
        if number == 0:
            files, threads = open_files(), threading.active_count()
        if number == TIMES:
            break
        far_end.unplug()
        lost = heard.status()
        assert (lost.code, lost.run) == ("unplugged", back.run)
        far_end.plug()
    assert open_files() == files
    assert threading.active_count() == threads
    reader.stop()
    assert heard.statuses.empty()
    assert heard.samples.empty()
    ring = reader.ring.since(None, 0)
    assert ring.samples == tuple(sample for each in taken for sample in each)
    for number, samples in enumerate(taken):
        assert [sample.n for sample in samples] == list(range(EACH))
        assert {sample.run for sample in samples} == {f"run-{number + 1}"}
        sent = [f"{number % 1000 - 500 + k / 1000:+08.3f}" for k in range(EACH)]
        assert [sample.text for sample in samples] == sent
