"""A recorded audit on the wall's and the console's own pages: always told from a live one."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, Request, ViewportSize, expect

from daq.records.played import LONGEST_S, count, moments
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.records.in_memory import Shelf
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import made

TARGET_PX = 64
LIVE_WORDS = ("Live", "Connecting", "Not live")


@pytest.fixture
def shelf(request: pytest.FixtureRequest) -> Shelf:
    """One whole audit, squaring where a test names none."""
    return Shelf(made(getattr(request, "param", "signed")))


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


LOOK = """() => {
  const box = document.querySelector("[data-part=band] .mark").getBoundingClientRect();
  const there = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
  const text = (of) => document.querySelector(of)?.innerText.trim() ?? "";
  return {
    mark: text("[data-part=band] .mark"),
    seen: box.top >= 0 && box.bottom <= innerHeight && there.closest("[data-part=band]") !== null,
    alive: text("[data-part=alive-say]"),
    title: text("[data-part=title]"),
    buttons: document.querySelectorAll("[data-action]").length,
    wide: document.documentElement.scrollWidth > innerWidth,
  };
}"""
"""What a person sees of a moment."""


@pytest.mark.parametrize(
    ("shelf", "view", "size"),
    [
        pytest.param("signed", "", WALL, id="wall"),
        pytest.param("check-signed", "/console", PHONE, id="console"),
        pytest.param("signed", "", PHONE, id="wall-on-a-phone", marks=pytest.mark.long),
        pytest.param("signed", "/console", PHONE, id="console-squaring", marks=pytest.mark.long),
        pytest.param("signed", "/console", WALL, id="console-on-a-wall", marks=pytest.mark.long),
    ],
    indirect=["shelf"],
)
def test_a_whole_audit_by_steps_is_marked_at_every_moment(
    screens: Screens, shelf: Shelf, at: str, view: str, size: ViewportSize
) -> None:
    page = screens.open("about:blank", viewport=size)
    asked = Asked(page)
    page.goto(at + view)
    record = shelf.read(shelf.audits[0])
    titles = set()
    for n in range(count(record)):
        page.wait_for_selector(f"body[data-moment='{n}']")
        found = page.evaluate(LOOK)
        assert found["mark"] == f"RECORD of 2026-06-01, {record.opened.short}: not live"
        assert found["seen"]
        assert found["alive"] not in LIVE_WORDS
        assert (found["buttons"], found["wide"]) == (0, False)
        titles.add(found["title"])
        page.keyboard.press("ArrowRight")
    for key in ("Enter", "u", "1", "c"):
        page.keyboard.press(key)
    assert len(titles) > 5
    assert asked.presses == []
    assert asked.streams == []


def test_it_goes_back_to_the_next_step_and_at_its_own_pace(
    screens: Screens, shelf: Shelf, at: str
) -> None:
    page = screens.open("about:blank", viewport=WALL)
    screens.clock(page)
    told = moments(shelf.read(shelf.audits[0])).moments
    page.goto(f"{at}#{told[7].seq}")
    now = page.locator("body")
    expect(now).to_have_attribute("data-moment", "7")
    page.locator("[data-part=play-back]").click()
    expect(now).to_have_attribute("data-moment", "6")
    later = next(each.n for each in told if each.n > 6 and each.step != told[6].step)
    page.locator("[data-part=play-step]").click()
    expect(now).to_have_attribute("data-moment", str(later))
    run = page.locator("[data-part=play-run]")
    run.click()
    expect(run).to_have_text("Pause")
    for n in range(later + 1, later + 4):
        page.clock.run_for(1000 * LONGEST_S)
        expect(now).not_to_have_attribute("data-moment", str(n - 1))
    run.click()
    expect(run).to_have_text("Play")
    assert shelf.reads < len(told)


def test_controls_are_named_large_and_legible(screens: Screens, at: str) -> None:
    for size in (PHONE, WALL):
        page = screens.open("about:blank", viewport=size)
        page.goto(at)
        page.wait_for_selector("body[data-moment='0']")
        band = page.locator("[data-part=band]")
        for each in band.locator("button, a").all():
            box = each.bounding_box()
            assert box is not None
            assert min(box["width"], box["height"]) >= TARGET_PX
        assert reading.nameless(page) == []
        assert reading.faint(page) == []
