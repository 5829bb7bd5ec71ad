"""The setup page in a browser, and a warning that leaves the number on every screen."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, ViewportSize, expect

from tests.browser.daemon import Demo
from tests.browser.screens import DESKTOP, PHONE, Screens

OVERDUE = "Practice gauge (P-0417) is overdue: its calibration was good until 2020-02-29."


@pytest.fixture
def overdue(tmp_path: Path) -> Iterator[Demo]:
    """A demo whose gauge was due long ago."""
    running = Demo(tmp_path)
    config = running.config()
    gauge = config / "gauges" / "practice.toml"
    text = gauge.read_text(encoding="utf-8")
    due = "calibration_due = 2020-02-29"
    gauge.write_text(re.sub(r"calibration_due = \S+", due, text), encoding="utf-8")
    try:
        yield running.start()
    finally:
        running.stop()


def opened(browser: Browser, demo: Demo, viewport: ViewportSize) -> Page:
    page = browser.new_page(viewport=viewport)
    page.goto(f"http://127.0.0.1:{demo.port}/")
    page.get_by_role("link", name="Setup").click()
    return page


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_it_fits_and_keeps_itself_fresh(
    browser: Browser, demo: Demo, viewport: ViewportSize
) -> None:
    page = opened(browser, demo, viewport)
    card = page.locator("[data-gauge=practice]")
    expect(card.locator("[data-part=say]")).to_have_text("It talks and is well.")
    before = int(card.locator("[data-part=good]").inner_text())
    page.wait_for_function(
        "was => Number(document.querySelector('[data-gauge=practice] [data-part=good]')"
        ".textContent) > was",
        arg=before,
    )
    demo.do("unplug")
    expect(card.locator("[data-part=say]")).to_contain_text("is the cable plugged in?")
    expect(card.locator("[data-part=status]")).to_have_attribute("data-code", "unplugged")
    assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]
    page.close()


def test_what_was_learned_of_a_head_is_kept_fresh(browser: Browser, demo: Demo) -> None:
    page = opened(browser, demo, PHONE)
    learned = page.locator("[data-machine=practice-mill] [data-group=learned]")
    expect(learned.locator("[data-part=note]")).to_contain_text("Nothing yet")

    def later(route: Route) -> None:
        view = route.fetch().json()
        (group,) = (g for g in view["machines"][0]["groups"] if g["key"] == "learned")
        group["note"] = "From 1 audit."
        group["facts"] = [{"key": "k", "say": "Nod: pivot acts at", "value": "182.9 ± 1.0 mm"}]
        route.fulfill(json=view)

    page.route("**/api/setup", later)
    expect(learned.locator("[data-part=note]")).to_have_text("From 1 audit.")
    expect(learned.locator("dd")).to_have_text("182.9 ± 1.0 mm")
    page.unroute_all(behavior="wait")
    page.close()


def test_it_says_when_what_it_shows_is_old(browser: Browser, demo: Demo) -> None:
    page = opened(browser, demo, DESKTOP)
    expect(page.locator("[data-part=lost]")).to_be_hidden()
    page.route("**/api/setup", lambda route: route.abort())
    expect(page.locator("[data-part=lost]")).to_be_visible()
    page.unroute("**/api/setup")
    expect(page.locator("[data-part=lost]")).to_be_hidden()
    page.close()


def test_an_overdue_gauge_is_told_everywhere_and_keeps_its_number(
    browser: Browser, overdue: Demo, screens: Screens
) -> None:
    for page in (screens.wall(overdue.address("wall")), screens.phone(overdue.address("console"))):
        expect(page.locator("[data-part=alerts]")).to_contain_text(OVERDUE)
        expect(page.locator("[data-part=alerts] .alert").first).to_have_attribute(
            "data-kind", "message"
        )
        expect(page.locator("[data-part=number]")).to_have_attribute("data-state", "live")
        expect(page.locator("[data-part=digits]")).to_have_text(re.compile(r"^-?\d+\.\d{3}$"))
    setup = opened(browser, overdue, PHONE)
    expect(setup.locator("[data-gauge=practice] [data-part=warnings]")).to_contain_text(OVERDUE)
    setup.close()
