"""One browser for all tests; a service and its screens for each."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

from tests.browser.daemon import Demo
from tests.browser.plain import served
from tests.browser.proxy import Proxy
from tests.browser.screens import Screens, launch
from tests.patience import PATIENCE_S
from tests.web.conftest import LIVE, FakeHub, FakeInbox

expect.set_options(timeout=1000.0 * PATIENCE_S)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        found = launch(playwright)
        yield found
        found.close()


@pytest.fixture
def screens(browser: Browser) -> Iterator[Screens]:
    """Screens; the test fails if anything went wrong on one of them."""
    opened = Screens(browser)
    yield opened
    opened.close()
    assert opened.wrong == []


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Demo]:
    """A running demo, its head half a millimetre out on both axes."""
    running = Demo(tmp_path)
    try:
        yield running.start()
    finally:
        running.stop()


@pytest.fixture
def hub() -> FakeHub:
    """What the screens at `address` show is put here."""
    made = FakeHub()
    made.number = LIVE
    return made


@pytest.fixture
def inbox() -> FakeInbox:
    """What the screens at `address` hand in arrives here."""
    return FakeInbox()


@pytest.fixture
def address(hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where pages are served that show a scene, with no machine behind them."""
    with served(hub, inbox) as found:
        yield found


@pytest.fixture
def proxy(address: str) -> Iterator[Proxy]:
    """A line to `address` that can be held."""
    made = Proxy(address)
    yield made
    made.close()
