"""In which order the files run, and how long a hurried run goes on.

Several workers take file after file. A room of services started last would leave one worker
waiting alone for its last long file; the quick rooms last even out what is left. Screens drawn
by all workers at once would wait for the processor, and gauges listened to by all at once leave
it idle: so their files take turns. A hurried run goes the other way round, so that it gets as
far as it can.
"""

import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.forked import Workers

HERE = Path(__file__).parent
BUSY = ("browser", "audit")
"""The rooms whose files last long because the processor has much to do."""
WAITING = ("system", "faults", "gauges", "service", "virtual")
"""Those whose files last long because gauges take their time; all others follow as they come."""

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")  # before any file says settings of its own, which add to these


class Hurry:
    """Begins no test once the time is up, and tells how many it left."""

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._end = time.monotonic() + seconds
        self._left = 0

    def pytest_collection_finish(self) -> None:
        self._end = time.monotonic() + self._seconds

    def pytest_runtest_protocol(self) -> bool | None:
        late = time.monotonic() > self._end
        self._left += late
        return late or None

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        if self._left:
            terminalreporter.write_line(f"not begun in {self._seconds:g} s: {self._left} tests")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--hurry", type=float, metavar="SECONDS", help="begin no test after so long")
    parser.addoption("--workers", type=int, metavar="N", help="run by so many processes at once")


def pytest_configure(config: pytest.Config) -> None:
    if config.option.hurry:
        config.pluginmanager.register(Hurry(config.option.hurry))
    if config.option.workers:
        config.pluginmanager.register(Workers(config.option.workers))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Put the slow rooms' files first, or last in a hurry; within a room nothing changes places."""
    files = list(dict.fromkeys(item.path for item in items))
    turns = dict.fromkeys(files, 1.0)
    for rooms in (BUSY, WAITING):
        slow = sorted((f for f in files if _room(f) in rooms), key=lambda f: rooms.index(_room(f)))
        turns |= {file: nth / len(slow) for nth, file in enumerate(slow)}
    way = -1 if config.option.hurry else 1
    items.sort(key=lambda item: way * turns[item.path])


def _room(file: Path) -> str:
    return file.relative_to(HERE).parts[0]
