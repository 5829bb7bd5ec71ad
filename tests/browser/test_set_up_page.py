"""The set-up page, all of it at once, and the start page of an empty shop, on every size."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, resize
from tests.entry import ticket
from tests.web.conftest import shop_set_up
from web.rights import COOKIE

SIZES = (PHONE, {"width": 1280, "height": 800}, WALL)
LEAST = 44
"""CSS pixels of what is pressed by a thumb (WCAG 2.2, target size, enhanced)."""
SHOWN = """for (const each of document.querySelectorAll("[hidden], details")) {
  each.hidden = false; each.open = true;
}"""
PRESSED = "button, select, summary, .go, .line input, .port"
SMALL = """([least, pressed]) => [...document.querySelectorAll(pressed)]
  .filter(each => each.checkVisibility() && each.getBoundingClientRect().height < least)
  .map(each => each.outerHTML.slice(0, 80))"""
WIDER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture
def site(hub, inbox, tmp_path) -> Iterator[str]:
    """A shop with a gauge and a machine, its start page as that of one without."""
    there = shop_set_up(tmp_path / "config")
    hub.names = ()
    with served(hub, inbox, access=Access(tmp_path, SystemClock()), set_up=there) as found:
        yield found.partition("/machines")[0]


def looked_at(page: Page, address: str) -> dict[object, object]:
    """Whatever breaks a rule of axe-core, is too small to be pressed, or makes the page wider."""
    page.goto(address)
    page.evaluate(SHOWN)
    return looked_at_as_it_is(page)


def looked_at_as_it_is(page: Page) -> dict[object, object]:
    """The same of a page as it stands."""
    axe, wrong = Axe(), {}
    for size in SIZES:
        resize(page, size)
        found = [*axe.run(page).response["violations"]] if size is not SIZES[1] else []
        wrong |= {(size["width"], f["id"]): [n["html"] for n in f["nodes"]][:3] for f in found}
        wrong[size["width"], "small"] = page.evaluate(SMALL, [LEAST, PRESSED])
        wrong[size["width"], "wider"] = page.evaluate(WIDER)
    return {where: what for where, what in wrong.items() if what}


def test_they_fit_and_break_no_rule(screens: Screens, site, tmp_path):
    page = screens.open("about:blank", viewport=PHONE, bypass_csp=True)
    assert page.goto(f"{site}/own?ticket={ticket(tmp_path)}").ok
    assert looked_at(page, f"{site}/") == {}
    assert page.context.cookies()[0]["name"] == COOKIE, "the own wall may work"
    assert looked_at(page, f"{site}/set-up") == {}
    page.context.clear_cookies()
    page.goto("about:blank")


def test_no_form_can_be_sent_before_its_script_is_there(screens: Screens, site, tmp_path):
    """The browser alone would put a PIN into the address."""
    page = screens.open("about:blank", viewport=PHONE, java_script_enabled=False)
    page.goto(f"{site}/own?ticket={ticket(tmp_path)}")
    for path in ("set-up", "pair"):
        page.goto(f"{site}/{path}")
        sends = page.locator("form button:visible")
        expect(sends.first).to_be_disabled()
        expect(sends.and_(page.locator(":enabled"))).to_have_count(0)
    page.context.clear_cookies()
