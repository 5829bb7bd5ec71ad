"""In which order the files run: those that start whole services first.

Two workers take file after file. A room of services started last would leave one worker waiting
alone for its last long file; the quick rooms last even out what is left.
"""

import pytest

SLOW_FIRST = ("system", "browser", "faults", "audit", "service", "gauges", "virtual")
"""The rooms whose files last longest; all others follow as they come."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the slow rooms' tests first; within a room nothing changes places."""

    def turn(item: pytest.Item) -> int:
        room = item.nodeid.removeprefix("tests/").partition("/")[0]
        return SLOW_FIRST.index(room) if room in SLOW_FIRST else len(SLOW_FIRST)

    items.sort(key=turn)
