"""An audit's page as a phone, a desk and the wall's screen show it, with everything opened."""

from collections.abc import Iterator

import pytest

from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, resize
from tests.records.in_memory import Shelf
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import made

DESK = {"width": 1280, "height": 800}
TARGET_PX = 64
OVER = "nodes => nodes.filter(n => n.scrollWidth > n.clientWidth).map(n => n.textContent)"


@pytest.fixture
def at(hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where an audit with addenda is found."""
    shelf = Shelf(made("signed-added"))
    with served(hub, inbox, on_record=shelf) as address:
        yield f"{address.partition('/machines/')[0]}/records/{shelf.audits[0]}"


def test_it_is_read_and_opened_by_keyboard_at_every_width(screens: Screens, at: str) -> None:
    page = screens.open("about:blank", viewport=PHONE)
    page.goto(at)
    heads = page.locator("summary")
    shut = page.locator("details:not([open])").count()
    assert shut == heads.count() > 3
    for _ in range(60):
        if not page.locator("details:not([open])").count():
            break
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('details:not([open]) > summary')"):
            page.keyboard.press("Enter")
    assert page.locator("details:not([open])").count() == 0
    for each in page.locator("main summary, main a, main button").all():
        box = each.bounding_box()
        assert box is not None
        assert box["height"] >= TARGET_PX
    for size in (PHONE, DESK, WALL):
        resize(page, size)
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
        assert page.locator("th, td, p, li, dd").evaluate_all(OVER) == []
        assert reading.faint(page) == []
    assert reading.nameless(page) == []
