"""The console's "Why this?": one tap tells what a stop-at, or a shim, is made of."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser import reading
from tests.browser.screens import DESKTOP, DRESSED, PHONE, Screens, part
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import scene

BOX = "[data-part=why]"
OPEN = f"{BOX}[open]"
GLOVE_PX = 48


def lines(page: Page) -> list[str]:
    return [str(line) for line in page.locator(f"{BOX} li").all_inner_texts()]


@pytest.mark.parametrize("name", ["move", "shim"])
@pytest.mark.parametrize("style", DRESSED)
def test_one_tap_tells_all_of_it_on_a_phone_and_nothing_is_cut(
    browser, hub: FakeHub, inbox: FakeInbox, address: str, name: str, style: str
) -> None:
    screens, hub.current = Screens(browser, style), scene(name)
    page = screens.phone(f"{address}/console")
    expect(page.locator(BOX)).to_be_visible()
    expect(page.locator(OPEN)).to_have_count(0)
    page.locator("[data-part=why-head]").tap()
    expect(page.locator(OPEN)).to_have_count(1)
    told = list(hub.current.pages["console"]["why"])
    assert len(told) >= 5
    assert lines(page) == told
    flaws = [*reading.clipped(page), *reading.in_any_font(page)]
    flaws += reading.low_controls(page, GLOVE_PX)
    assert flaws == []
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"] == 390
    # It says the number that stands on the screen, and presses nothing.
    if name == "move":
        assert part(page, "stop-value") in told[0]
    assert inbox.got == []
    screens.close()
    assert screens.wrong == []


def test_it_opens_by_keyboard_and_there_is_none_without_a_stop_at(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    hub.current = scene("move")
    page = screens.open(f"{address}/console", viewport=DESKTOP)
    expect(page.locator(BOX)).to_be_visible()
    page.locator("[data-part=why-head]").focus()
    expect(page.locator("[data-part=why-head]")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator(OPEN)).to_have_count(1)
    hub.publish(None, scene("final-close", 42))
    expect(page.locator(BOX)).to_be_hidden()
    wall = screens.wall(f"{address}/wall")
    move = scene("move", 43)
    hub.publish(None, move)
    expect(wall.locator("[data-part=title]")).to_have_text(move.pages["wall"]["title"])
    assert wall.locator(BOX).count() == 0
