import shutil
from pathlib import Path

import pytest

from daq.service.files import shipped
from daq.words import Sample, Stamp
from tests.audit.pupil import audit, head_at, taught_bench
from tests.benchmarks.past import Past
from tests.service.machine_text import File
from tests.service.rig import Rig
from tests.system.shop import Shop
from tests.system.ttygauge import TtyGauge


class HandClock:
    """A clock the test turns."""

    def __init__(self):
        self.ns = 5_000_000_000

    def mono_ns(self):
        return self.ns

    def stamp(self):
        return Stamp(self.ns, 1_700_000_000_000_000 + self.ns // 1000, "boot", False)


@pytest.fixture
def clock():
    return HandClock()


@pytest.fixture
def config(tmp_path) -> Path:
    """A copy of the shipped configuration."""
    return Path(shutil.copytree(shipped(), tmp_path / "config"))


@pytest.fixture
def sample():
    def make(n, mono_ns, value=1.0, gauge="practice", run="r1"):
        text = f"{value:+.3f}"
        return Sample(gauge, run, n, mono_ns, text, "mm", value, (), text.encode())

    return make


@pytest.fixture
def rig(tmp_path, config, clock, sample):
    made = Rig(tmp_path / "data", config, clock, sample)
    yield made
    if not made.closed:
        made.decider.close("over")


@pytest.fixture
def shop(tmp_path):
    return Shop(tmp_path)


@pytest.fixture
def gauge(shop):
    """That of the shop, talking on its terminal."""
    with TtyGauge(shop.tty) as talking:
        yield talking


@pytest.fixture
def mill_file(config):
    """The practice mill's file."""
    return File(config / "machines" / "practice-mill.toml")


@pytest.fixture
def ram_file(config):
    """The file of the example that writes out every key."""
    return File(config / "machines" / "example-ram-mill.toml")


@pytest.fixture(scope="session")
def past():
    """One audit, signed."""
    made = taught_bench()
    return Past(made.events, made.chunks)


@pytest.fixture(scope="session")
def unfinished():
    """One audit, given up half way by nobody."""
    made = taught_bench()
    begun = len(made.events)
    audit(made, head_at(0.3, 0.2)).work("move")
    return Past(made.events[begun:], made.chunks)
