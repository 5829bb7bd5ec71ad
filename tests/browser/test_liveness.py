"""What a screen shows while its data does not come, and how it comes back by itself."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.daemon import Demo
from tests.browser.mill import audit
from tests.browser.person import Finger
from tests.browser.screens import CUT, DESKTOP, Screens
from tests.web.conftest import FakeHub

SILENT_MS, NOTICED_MS = 1000, 1500
"""A stream beats twice a second; after the second of these without a word it is cut."""

GONE = """() => document.querySelector('[data-part=digits]').textContent === ''
  && document.querySelector('[data-part=none]').innerText.startsWith('No live reading')
  && document.querySelector('[data-part=alive]').dataset.state !== 'live'"""
STOPPED = (
    GONE
    + """
  && document.querySelector('[data-part=title]').textContent === 'STOP turning: no reading.'
  && document.querySelector('[data-part=stop]').hidden
  && !document.body.innerText.includes('until the gauge reads')"""
)
CUT_OFF = "() => document.querySelector('[data-part=alive]').dataset.state === 'cut'"
BACK = """() => document.querySelector('[data-part=digits]').textContent !== ''
  && document.querySelector('[data-part=alive]').dataset.state === 'live'"""


MARK = "getComputedStyle(document.querySelector('[data-part=alive] .alive-mark')).backgroundColor"
BEATS, MOST_DRAWN = 6, 4
"""The dot turns once a beat, and the number comes; an animation draws thirty frames in one."""
AFTER_BEATS = """n => new Promise(after => {
  const line = new EventSource("/api/machines/practice-mill/stream");
  let left = n;
  line.addEventListener("beat", () => { if (--left === 0) { line.close(); after(); } });
})"""


def drawn(page: Page) -> int:
    """How many frames are drawn in so many beats."""
    browser = page.context.browser
    assert browser is not None
    session = browser.new_browser_cdp_session()
    ends: list[Any] = []
    frames: list[Any] = []
    # Neither list's own method: Playwright marks what it is given.
    session.on("Tracing.tracingComplete", lambda told: ends.extend([told]))
    session.on("Tracing.dataCollected", lambda told: frames.extend(told["value"]))
    session.send("Tracing.start", {"categories": "viz", "transferMode": "ReportEvents"})
    page.evaluate(AFTER_BEATS, BEATS)
    session.send("Tracing.end")
    while not ends:
        page.evaluate("0")
    session.detach()
    return sum(each["name"] == "Display::DrawAndSwap" for each in frames)


@pytest.mark.parametrize("name", ["wall", "console"])
def test_a_screen_at_rest_draws_a_few_frames_a_beat(
    screens: Screens, hub: FakeHub, address: str, name: str
) -> None:
    page = screens.open(f"{address}/{name}", reduced_motion="no-preference")
    page.evaluate(AFTER_BEATS, 1)
    assert drawn(page) <= MOST_DRAWN * BEATS
    assert page.evaluate("document.getAnimations().length") == 0


def test_the_dot_turns_with_each_beat_unless_nothing_is_to_move(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.open(f"{address}/wall", reduced_motion="no-preference")
    for beat in ("off", "on", "off"):
        page.wait_for_selector(f"[data-part=alive][data-state=live][data-beat={beat}]")
    page.wait_for_function(f"() => {MARK}.endsWith(', 0)')")
    page.wait_for_function(f"() => !{MARK}.endsWith(', 0)')")
    still = screens.open(f"{address}/wall")
    still.wait_for_selector("[data-part=alive][data-beat=off]")
    assert not still.evaluate(MARK).endswith(", 0)")


@pytest.fixture
def pages(demo: Demo, screens: Screens) -> tuple[Page, Page]:
    """A wall and a console that follow the same machine."""
    wall = screens.wall(demo.address("wall"))
    return wall, screens.open(demo.address("console"), viewport=DESKTOP)


@pytest.fixture
def at_move(demo: Demo) -> None:
    """The demo comes to the first stop-at; before `pages`, so that none draws each step to it."""
    audit(demo, "move")


def all_show(pages: tuple[Page, ...], true_of: str) -> None:
    """Wait until it is true of every page."""
    for page in pages:
        page.wait_for_function(true_of)


def test_a_frozen_service_takes_the_number_away(
    demo: Demo, screens: Screens, at_move: None, pages: tuple[Page, Page]
) -> None:
    wall, _ = pages
    with screens.allowing(CUT):
        with demo.frozen():
            all_show(pages, STOPPED)
            for page in pages:
                expect(page.locator("[data-part=alive]")).to_have_text("No connection")
        all_show(pages, BACK)
    expect(wall.locator("[data-part=togo]")).to_have_text(re.compile(r"(up|down) \d\.\d+ to go"))


@pytest.mark.parametrize("name", ["wall", "console"])
def test_a_silent_line_is_noticed_by_the_pages_own_clock(
    demo: Demo, screens: Screens, name: str
) -> None:
    page = screens.open(demo.address(name))
    screens.clock(page)
    with screens.allowing(CUT):
        page.reload()
        page.wait_for_function(BACK)
        page.clock.pause_at(page.evaluate("Date.now()") + 60_000)
        # From now on the page hears every word at this very moment, the last one too.
        page.wait_for_function(BACK, polling=100)
        with demo.frozen():
            page.clock.run_for(SILENT_MS)
            # The number may have had its own time; the line is not given up yet.
            assert not page.evaluate(CUT_OFF)
            page.clock.run_for(NOTICED_MS - SILENT_MS)
            if not page.evaluate(GONE):
                # A word was still on its way as the service froze, and was heard meanwhile.
                page.clock.run_for(SILENT_MS)
            assert page.evaluate(GONE)
            assert page.evaluate(CUT_OFF)


def test_a_killed_service_asks_what_changed_and_comes_back_to_the_same_move(
    demo: Demo, screens: Screens, at_move: None, pages: tuple[Page, Page]
) -> None:
    _, console = pages
    person = Finger(console, demo, demo)
    axis = person.axis()
    with screens.allowing(CUT):
        demo.kill()
        all_show(pages, STOPPED)
        demo.start()
        all_show(pages, BACK)
    for page in pages:
        expect(page.locator("[data-part=title]")).to_have_text(
            "The screen was off: is the lock still on?"
        )
        expect(page.locator("[data-part=notes]")).to_have_text(
            f"Keep the head supported: the {axis} bolts may be loose."
        )
        expect(page.locator("[data-part=stop]")).to_be_hidden()
    person.come_to("move")
    assert person.axis() == axis
    assert len(demo.events("Loosened")) == 1
    person.obey()
    person.press()
    assert person.step == "check"


def test_a_press_while_the_service_is_away_is_carried_out_once(
    demo: Demo, screens: Screens, pages: tuple[Page, Page]
) -> None:
    _, console = pages
    person = Finger(console, demo, demo)
    person.press()
    with screens.allowing(CUT):
        demo.kill()
        all_show(pages, GONE)
        person.press_primary()
        expect(console.locator("[data-part=sent]")).to_have_text("No answer yet: sending again…")
        demo.start()
        expect(console.locator("[data-part=console]")).to_have_attribute("data-step", "power")
        all_show(pages, BACK)
    assert len(demo.events("TableReadied")) == 1


@pytest.mark.parametrize(
    ("cut", "mend", "said"),
    [
        pytest.param(
            lambda demo: demo.do("unplug"),
            lambda demo: demo.do("replug"),
            r"cable|unplugged",
            id="unplugged",
        ),
        pytest.param(
            lambda demo: demo.do("fault", name="silent"),
            lambda demo: demo.do("fault", name="none"),
            r"silent|sends nothing",
            id="silent",
        ),
    ],
)
def test_a_gauge_that_is_away_is_said(
    demo: Demo,
    at_move: None,
    pages: tuple[Page, Page],
    cut: Callable[[Demo], None],
    mend: Callable[[Demo], None],
    said: str,
) -> None:
    cut(demo)
    all_show(pages, STOPPED)
    for page in pages:
        alert = page.locator("[data-part=alerts] [data-kind=fault]")
        expect(alert).to_be_visible()
        expect(alert).to_have_text(re.compile(said))
        expect(page.locator("[data-part=alive]")).to_have_text("No live reading")
    mend(demo)
    all_show(pages, BACK)
    for page in pages:
        expect(page.locator("[data-kind=fault]")).to_have_count(0)
        expect(page.locator("[data-part=say]")).to_have_attribute("data-halted", "false")


def test_a_zero_takes_the_stop_at_away(demo: Demo, at_move: None, pages: tuple[Page, Page]) -> None:
    wall, console = pages
    person = Finger(console, demo, demo)
    demo.do("zero")
    for page in pages:
        expect(page.locator("[data-part=stop]")).to_be_hidden()
    told, step = "Zeroed: read this spot again.", "park"
    message = console.locator("[data-kind=message]")
    asked = console.get_by_role("button", name="Yes, it was zeroed")
    expect(message.or_(asked)).to_be_visible()
    if asked.count():  # the samples came late, as of a number that was turned to zero
        asked.click()
        told, step = "Zeroed with the bolts loose: check this axis again.", "check"
    for page in pages:
        expect(page.locator("[data-kind=message]")).to_have_text(told)
    person.see_step()
    assert person.step == step
    if step == "park":
        person.obey()
        person.press()
        expect(wall.locator("[data-part=stop]")).to_be_visible()


def test_a_second_console_shows_what_the_first_did(
    demo: Demo, screens: Screens, pages: tuple[Page, Page]
) -> None:
    _, console = pages
    other = Finger(screens.phone(demo.address("console")), demo, demo)
    Finger(console, demo, demo).press()
    other.see_step()
    assert other.step == "table"
    other.press()
    expect(console.locator("[data-part=console]")).to_have_attribute("data-step", "power")
    assert len(demo.events("AuditOpened")) == 1


def test_a_press_on_an_old_screen_changes_nothing_and_says_what_came_between(
    demo: Demo, screens: Screens, pages: tuple[Page, Page]
) -> None:
    _, console = pages
    first = Finger(console, demo, demo)
    first.press()
    second = Finger(screens.phone(demo.address("console")), demo, demo)

    def press_there_first(route: Route) -> None:
        second.press()
        route.continue_()

    console.route("**/commands", press_there_first)
    with screens.refusing(console, "409"):
        first.press_primary()
        expect(console.locator("[data-part=sent]")).to_have_text(
            "Something came in between: the table was made ready. Look again, then press."
        )
    first.see_step()
    assert first.step == "power"
    assert len(demo.events("TableReadied")) == 1
    console.unroute("**/commands")
    first.obey()
    first.press()
    assert first.step == "prepare"
