"""In which order the files run, and how long a hurried run goes on.

Several workers take file after file. A room of services started last would leave one worker
waiting alone for its last long file; the quick rooms last even out what is left. A hurried run
goes the other way round, so that it gets as far as it can.
"""

import time

import pytest

SLOW_FIRST = ("system", "browser", "faults", "audit", "service", "gauges", "virtual")
"""The rooms whose files last longest; all others follow as they come."""


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


def pytest_configure(config: pytest.Config) -> None:
    if config.option.hurry:
        config.pluginmanager.register(Hurry(config.option.hurry))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Put the slow rooms' tests first, or last in a hurry; within a room nothing changes places."""

    def turn(item: pytest.Item) -> int:
        room = item.nodeid.removeprefix("tests/").partition("/")[0]
        place = SLOW_FIRST.index(room) if room in SLOW_FIRST else len(SLOW_FIRST)
        return -place if config.option.hurry else place

    items.sort(key=turn)
