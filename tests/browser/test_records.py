"""The list of audits in a real browser: on every screen, without a script, by keyboard."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

from daq.audit.state import Shop
from daq.service.listing import Listing
from daq.service.trends import Trends
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, resize
from tests.patience import PATIENCE_S
from tests.records.conftest import data, many  # noqa: F401 - fixtures
from tests.records.many import PEOPLE
from tests.web.conftest import FakeHub, FakeInbox, Name
from tests.web.test_records import Today

SIZES = (PHONE, {"width": 1280, "height": 900}, WALL, {"width": 3840, "height": 2160})
LEAST = 64
"""CSS pixels that a finger in a glove needs."""
SMALL = """least => [...document.querySelectorAll("main a, summary, input, select, button")]
  .filter(node => node.offsetParent && node.getBoundingClientRect().height < least)
  .map(node => node.outerHTML)"""
FOCUS = "document.activeElement.getAttribute('href') || document.activeElement.tagName"


@pytest.fixture
def pages(
    many: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[str]:
    """Where the pages of a shop with sixty audits are; they wait for the list."""
    monkeypatch.setattr("daq.service.listing.AWAITED_S", PATIENCE_S)
    folder = tmp_path / "data"
    shutil.copytree(many, folder)
    listing = Listing(folder, 1)
    listing.start()
    hub = FakeHub()
    hub.people, hub.names = PEOPLE, (*hub.names, Name("mill-1", "Bench 1, long name of a mill"))
    trends = Trends({}, Shop(), Today(), folder)  # type: ignore[arg-type]
    with served(hub, FakeInbox(), trends=trends, listing=listing) as at:
        yield at.partition("/machines/")[0]
    listing.stop()


def test_the_list_fits_every_screen_and_is_filtered_without_a_script(
    screens: Screens, pages: str
) -> None:
    page = screens.open(f"{pages}/", viewport=PHONE, java_script_enabled=False)
    page.get_by_role("link", name="Records").click()
    page.locator("summary").click()
    page.get_by_label("By", exact=True).fill("bo sample")
    page.get_by_label("Practice").select_option("yes")
    page.get_by_role("button", name="Show").click()
    expect(page).to_have_url(re.compile(r"by=bo\+sample&.*practice=yes"))
    page.wait_for_load_state()
    rows = page.locator("table.audits tbody tr")
    assert 0 < rows.count() < 25
    assert page.get_by_label("By", exact=True).input_value() == "bo sample"
    page.get_by_role("link", name="All audits").click()
    expect(page).to_have_url(f"{pages}/records")
    screens.close()


def test_cards_on_a_phone_and_a_table_on_a_wide_screen_all_within_reach(
    screens: Screens, pages: str
) -> None:
    page = screens.open(f"{pages}/records", viewport=PHONE)
    page.locator("summary").click()
    for where in ("/records", "/records?gauge=G-1", "/machines/mill-1/records"):
        if where != "/records":
            page.goto(f"{pages}{where}")
        for size in SIZES:
            resize(page, size)
            assert page.evaluate("document.documentElement.scrollWidth") <= size["width"], size
            assert page.evaluate(SMALL, LEAST) == []
            head = page.locator("table.audits thead").last
            expect(head).to_be_visible(visible=size["width"] > 1120)
    link = page.locator("table.audits tbody a").first
    link.focus()
    page.keyboard.press("Tab")
    second = page.locator("table.audits tbody a").nth(1).get_attribute("href")
    assert page.evaluate(FOCUS) == second
    screens.close()
