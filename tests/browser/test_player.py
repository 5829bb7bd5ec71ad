"""A recorded audit on the wall's and the console's own pages: always told from a live one."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, Request, expect

from daq.records.played import count
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, part
from tests.records.in_memory import Shelf
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import made

LIVE_WORDS = ("Live", "Connecting", "Not live")


@pytest.fixture
def shelf() -> Shelf:
    return Shelf(made("signed"))


@pytest.fixture
def at(shelf: Shelf, hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where the one audit is played."""
    with served(hub, inbox, on_record=shelf) as address:
        yield f"{address.partition('/machines/')[0]}/records/{shelf.audits[0]}/play"
    assert inbox.got == []


class Asked:
    """Everything a page asked for, but what it is made of."""

    def __init__(self, page: Page) -> None:
        self.presses: list[str] = []
        self.streams: list[str] = []
        page.on("request", self._note)

    def _note(self, request: Request) -> None:
        if request.method not in ("GET", "HEAD"):
            self.presses.append(request.url)
        if request.resource_type == "eventsource" or "/stream" in request.url:
            self.streams.append(request.url)


def is_marked(page: Page) -> None:
    mark = page.locator("[data-part=band] .mark")
    assert mark.inner_text().startswith("RECORD of ")
    assert mark.inner_text().endswith(": not live")
    box, size = mark.bounding_box(), page.viewport_size
    assert box is not None
    assert size is not None
    assert 0 <= box["y"] <= box["y"] + box["height"] <= size["height"]
    assert page.evaluate(
        """([x, y]) => document.elementFromPoint(x, y).closest('[data-part=band]') !== null""",
        [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2],
    )
    assert part(page, "alive-say") not in LIVE_WORDS


@pytest.mark.parametrize("view", ["", "/console"], ids=["wall", "console"])
def test_a_whole_audit_by_steps_is_marked_at_every_moment(
    screens: Screens, shelf: Shelf, at: str, view: str
) -> None:
    size = PHONE if view else WALL
    page = screens.open("about:blank", viewport=size)
    asked = Asked(page)
    page.goto(at + view)
    rows = count(shelf.read(shelf.audits[0]))
    titles = set()
    for n in range(rows):
        expect(page.locator("body")).to_have_attribute("data-moment", str(n))
        is_marked(page)
        assert page.locator("[data-action]").count() == 0
        titles.add(part(page, "title"))
        for key in ("Enter", "u", "ArrowRight"):
            page.keyboard.press(key)
    expect(page.locator("body")).to_have_attribute("data-moment", str(rows - 1))
    assert len(titles) > 10
    assert asked.presses == []
    assert asked.streams == []
