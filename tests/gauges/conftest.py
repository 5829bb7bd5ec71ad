"""A gauge's far end: a real pseudo-terminal, and what a reader reports, to be awaited."""

import os
import queue
import time
import tty
from contextlib import suppress
from pathlib import Path

import pytest

from daq.gauges import config
from daq.gauges.reader import PortReader, Reader, Retry
from tests.patience import PATIENCE_S, until

QUICK = Retry(0.002, 0.02)
NO_SYSFS = Path("/nowhere")


def flowing_frame(value_mm):
    """The frame of this number, as `gauge_table` describes it."""
    return b"%+08.3f mm\r\n" % value_mm


class FarEnd:
    """The wire's other end: a terminal at a path that stays the same when it is re-plugged."""

    def __init__(self, path: Path):
        self.path = path
        self.master = self.slave = -1

    def plug(self):
        self.master, self.slave = os.openpty()
        tty.setraw(self.slave)
        with suppress(FileNotFoundError):
            self.path.unlink()
        self.path.symlink_to(os.ttyname(self.slave))

    def unplug(self):
        self.path.unlink(missing_ok=True)
        for end in (self.master, self.slave):
            if end >= 0:
                os.close(end)
        self.master = self.slave = -1

    @property
    def node(self) -> str:
        """The terminal itself, which is another one after each plugging."""
        return os.ttyname(self.slave)

    def send(self, data: bytes):
        os.write(self.master, data)


class Heard:
    """Collects what a reader reports; each wait is for a thing to happen, not for a time."""

    def __init__(self):
        self.samples = queue.Queue()
        self.statuses = queue.Queue()
        self.runs = queue.Queue()
        self.made = 0
        self.ahead_ns = 0
        self.looks = 0
        self.told_at = 0
        self._stands_ns = None

    def new_run(self):
        self.made += 1
        run = f"run-{self.made}"
        self.runs.put(run)
        return run

    def now_ns(self):
        now = time.monotonic_ns() if self._stands_ns is None else self._stands_ns
        now += self.ahead_ns
        self.looks += 1
        return now

    def stand(self):
        """Let the clock stand still: from now on it goes on only by `goes_on`."""
        self._stands_ns = time.monotonic_ns()

    def goes_on(self, ns):
        """Turn the clock on, and wait until the reader has gone once round by the new time."""
        self.ahead_ns += ns
        # One look may be under way by the old time; what the next one finds is done by the third.
        seen = self.looks + 3
        until(lambda: self.looks >= seen)

    def told(self, status):
        """What a reader tells of a change; `told_at` is how often it had gone round by then."""
        self.told_at = self.looks
        self.statuses.put(status)

    def sample(self):
        return self.samples.get(timeout=PATIENCE_S)

    def status(self):
        return self.statuses.get(timeout=PATIENCE_S)

    def opened(self):
        return self.runs.get(timeout=PATIENCE_S)

    def until(self, code):
        """Return the next status with this code; others before it are passed over."""
        while (status := self.status()).code != code:
            pass
        return status


def gauge_table(**changes):
    """A gauge's table as its file would give it."""
    table = {
        "name": "Test gauge",
        "serial_number": "1",
        "kind": "plunger",
        "counts_up": True,
        "resolution": "0.001 mm",
        "travel": "12.7 mm",
        "max_error": "0.004 mm",
        "calibration_due": "2028-03-31",
        "line": {"port": "ttys/test"},
        "talk": {"interval": "20 ms"},
        "frame": {
            "shape": "text",
            "pattern": r"(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm|in)",
        },
    }
    return {key: value for key, value in {**table, **changes}.items() if value is not ...}


@pytest.fixture
def table():
    return gauge_table


@pytest.fixture
def far_end(tmp_path):
    end = FarEnd(tmp_path / "port")
    end.plug()
    yield end
    end.unplug()


@pytest.fixture
def heard():
    return Heard()


@pytest.fixture
def make_reader(heard):
    """Make readers that report to `heard`; each is stopped at the end.

    `url` may be the port of another one.
    """
    made = []

    def make(url, gauge="dial", sysfs=NO_SYSFS, retry=QUICK, heard=heard, **changes):
        read = config.from_table(gauge_table(**changes), "test.toml")
        if not isinstance(url, PortReader):
            url = PortReader(read.line, str(url), now_ns=heard.now_ns, retry=retry, sysfs=sysfs)
        made.append(
            Reader(
                gauge,
                read,
                url,
                on_sample=heard.samples.put,
                on_status=heard.told,
                new_run=heard.new_run,
            )
        )
        return made[-1]

    yield make
    for each in made:
        each.stop()


@pytest.fixture
def reader(far_end, make_reader):
    return make_reader(far_end.path)
