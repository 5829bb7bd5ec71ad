"""The console's section "Numbers": closed at first, by keyboard too, still while numbers run."""

import re
from dataclasses import replace

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser import reading
from tests.browser.daemon import Demo
from tests.browser.mill import audit
from tests.browser.person import Finger
from tests.browser.screens import DESKTOP, DRESSED, PHONE, Screens, part
from tests.web.conftest import LIVE, FakeHub, FakeInbox
from tests.web.scenes import Screen, made, scene

BOX = "[data-part=numbers]"
PLACED = """() => [...document.querySelectorAll("[data-part=numbers] *, [data-part=primary] *")]
    .map(node => { const box = node.getBoundingClientRect();
        return [box.x, box.y, box.width, box.height]; })"""

SHEET = """() => [...document.querySelectorAll(".sheet *, .foot *")]
    .map(node => { const box = node.getBoundingClientRect();
        return [box.x, box.y, box.width, box.height]; })"""


def is_open(page: Page, *, yes: bool = True) -> None:
    expect(page.locator(f"{BOX}[open]")).to_have_count(int(yes))


def test_the_numbers_of_a_real_sweep(demo: Demo, screens: Screens) -> None:
    page = screens.phone(demo.address("console"))
    person = Finger(page, demo, demo)
    person.come_to("as-found")
    expect(page.locator(BOX)).to_be_hidden()
    person.come_to("park")
    is_open(page, yes=False)
    page.locator("[data-part=numbers-head]").tap()
    is_open(page)
    text = part(page, "numbers-body")
    numbers = demo.console()["numbers"]
    for axis in numbers["axes"]:
        for key in ("error", "u", "expanded", "k", "dof", "guard", "guard_say", "probability"):
            assert axis[key] in text, key
        assert {"cancels"} < {term["value"] for term in axis["terms"]}
        for term in axis["terms"]:
            assert term["say"] in text
            assert term["value"] in text
    for line in (numbers["rule"], *numbers["work"], *numbers["head"]):
        assert line in text
    rows = page.locator(f"{BOX} tbody tr")
    assert rows.count() == sum(len(axis["terms"]) for axis in numbers["axes"])
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    # The finger left no focus there: the pedal still does what the big button does.
    with page.expect_response(lambda answer: answer.url.endswith("/commands")) as got:
        person.obey()
        page.keyboard.press("Enter")
    assert got.value.request.post_data_json["kind"] == "take"
    is_open(page)


def test_it_opens_by_keyboard_and_presses_nothing(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    hub.current = scene("final-close")
    page = screens.open(f"{address}/console", viewport=DESKTOP)
    head = page.locator("[data-part=numbers-head]")
    for _ in range(40):
        page.keyboard.press("Tab")
        if head.evaluate("node => node === document.activeElement"):
            break
    expect(head).to_be_focused()
    assert head.evaluate("node => parseFloat(getComputedStyle(node).outlineWidth)") >= 2.0
    page.keyboard.press("Enter")
    is_open(page)
    page.keyboard.press("Space")
    is_open(page, yes=False)
    assert inbox.got == []


@pytest.mark.parametrize("style", DRESSED)
def test_it_stands_still_while_numbers_run(
    browser: Browser, hub: FakeHub, address: str, style: str
) -> None:
    hub.current = scene("final-close")
    screens = Screens(browser, style)
    page = screens.phone(f"{address}/console")
    page.locator("[data-part=numbers-head]").tap()
    is_open(page)
    page.locator(f"{BOX} table").first.scroll_into_view_if_needed()
    page.evaluate("() => { window.kept = document.querySelector('[data-part=numbers] td'); }")
    before = page.evaluate(PLACED)
    assert len(before) > 100
    for n, text in enumerate(("1.205", "-1.198", "0.001", "-12.345")):
        hub.publish(replace(LIVE, n=100 + n, text=text, value_mm=float(text)))
        expect(page.locator("[data-part=digits]")).to_have_text(text)
        assert page.evaluate(PLACED) == before
    # The snapshot is drawn before the number that follows it.
    hub.publish(replace(LIVE, n=110, text="1.208"), scene("final-close", 42))
    expect(page.locator("[data-part=digits]")).to_have_text("1.208")
    is_open(page)
    assert page.evaluate("window.kept.isConnected")
    screens.close()
    assert screens.wrong == []


@pytest.mark.parametrize("style", DRESSED)
@pytest.mark.parametrize("name", ["move", "move-past", "bolt-over"])
def test_the_step_stands_still_while_the_distance_runs(
    browser: Browser, hub: FakeHub, address: str, style: str, name: str
) -> None:
    shown = Screen(made(name))
    hub.publish(shown.reads(shown.aim.stop_face_mm), shown.publish())
    screens = Screens(browser, style)
    page = screens.phone(f"{address}/console")
    before = page.evaluate(SHEET)
    assert len(before) > 10
    for off_mm in (0.001, -0.002, -12.345, 1.222, 0.0):
        live = shown.reads(shown.aim.stop_face_mm + off_mm)
        hub.publish(live)
        expect(page.locator("[data-part=digits]")).to_have_text(live.text)
        assert page.evaluate(SHEET) == before, off_mm
    screens.close()
    assert screens.wrong == []


def test_a_screen_reader_hears_a_table_with_its_heads(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    hub.current = scene("final-close")
    page = screens.phone(f"{address}/console")
    page.locator("[data-part=numbers-head]").tap()
    table = page.get_by_role("table", name="Uncertainty budget: Nod")
    expect(table.get_by_role("columnheader")).to_have_count(3)
    zero = table.get_by_role("row", name=re.compile("The gauge's zero"))
    expect(zero.get_by_role("cell").first).to_have_text("cancels")
    assert reading.nameless(page) == []


def test_the_pages_have_no_numbers_on_the_wall(demo: Demo, screens: Screens) -> None:
    audit(demo, "park")
    wall = screens.wall(demo.address("wall"))
    console = screens.open(demo.address("console"), viewport=DESKTOP)
    expect(wall.locator("[data-part=title]")).to_have_text(part(console, "title"))
    assert wall.locator(BOX).count() == 0
    assert "%" not in wall.inner_text("body")
