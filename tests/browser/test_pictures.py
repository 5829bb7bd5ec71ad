"""A machine's pictures in a real browser: strict policy, by tap, by keyboard, on every screen."""

from playwright.sync_api import Page

from daq.plots.run import FRAME
from tests.audit import worn
from tests.audit.save_golden import audits
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, resize
from tests.records.in_memory import Shelf
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.test_pictures import Worn

DESK = {"width": 1280, "height": 900}
COUNT = 32
AT = """([x, y]) => document.elementFromPoint(x, y).closest("a")?.getAttribute("href")"""


def middle(page: Page, link: int) -> tuple[float, float]:
    """The middle of an audit's column in the run of the nod, where nothing is drawn."""
    column = page.locator("#run-nod a use").nth(link)
    column.scroll_into_view_if_needed()
    box = column.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + 5


def test_an_audits_pictures_fit_a_phone_and_the_wall(screens: Screens) -> None:
    made = audits()
    audit = Shelf(made).audits[1]
    row = next(e.seq for e in made.events if e.audit == audit and e.type == "SweepDone")
    with served(FakeHub(), FakeInbox(), on_record=Shelf(made)) as at:
        there = f"{at.partition('/machines')[0]}/records/{audit}"
        page = screens.open(there, viewport=PHONE)
        for address in (there, f"{there}/rows/{row}"):
            page.goto(address)
            for size in (WALL, PHONE):
                resize(page, size)
                assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
                box = page.locator("svg.swept").bounding_box()
                assert box is not None and box["width"] <= size["width"]
        screens.close()


def test_pictures_fit_every_screen_and_each_point_leads_to_its_audit(screens: Screens) -> None:
    with served(FakeHub(), FakeInbox(), trends=Worn(COUNT)) as at:
        page = screens.open(f"{at}/trend", viewport=PHONE)
        newest = page.locator("#run-nod use").last.bounding_box()
        assert newest is not None and 0 < newest["x"] < PHONE["width"], "seen without scrolling"
        for size in (WALL, DESK, PHONE):
            resize(page, size)
            assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
            for link in (COUNT - 1, 0):
                href = f"/records/{worn.ident(link)}"
                assert page.evaluate(AT, middle(page, link)) == href, size
        wide = page.locator("#run-nod use").first.bounding_box()
        assert wide is not None and wide["height"] > 64 and wide["width"] > 16

        # The strict page lets its stylesheet draw it: light lines on the blue of layout dye.
        ground = page.locator("#run-nod .ground")
        assert ground.evaluate("e => getComputedStyle(e).fill") == "rgb(27, 48, 105)"
        marks = page.locator("#run-nod svg > .marks").first
        assert marks.evaluate("e => getComputedStyle(e).fill") == "rgb(223, 231, 251)"

        page.locator("#run-nod .past").focus()
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.getAttribute('role')") == "region"
        page.keyboard.press("Tab")
        first = page.evaluate("document.activeElement.getAttribute('href')")
        assert first == f"/records/{worn.ident(0)}"
        page.locator("#run-nod .past").focus()
        page.keyboard.press("Enter")
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.tagName") == "SUMMARY"
        screens.close()
    assert screens.wrong == [] and FRAME.width > PHONE["width"]
