"""What stands in place of the instruction while there is no number to act upon."""

from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from daq.audit.parts import Step
from daq.words import Live, Snapshot
from tests.browser import reading
from tests.browser.proxy import Proxy
from tests.browser.screens import CUT, PHONE, WALL, Screens, part
from tests.web.conftest import LIVE, FakeHub
from tests.web.scenes import scene, view

SEEN = """() => {
  window.seen = [];
  const digits = document.querySelector("[data-part=digits]");
  new MutationObserver(() => digits.textContent && window.seen.push(digits.textContent))
    .observe(digits, { childList: true, characterData: true, subtree: true });
}"""
STANDS: dict[Step, str] = {"tighten": "bolt-first"}
AWAY = {"code": "unplugged", "say": "It has gone."}
STEPS = (
    *("touch-free", "touch-push", "as-found", "park", "loosen", "move", "check", "tighten"),
    "final",
)
"""Where something is read or watched."""

KINDS = pytest.mark.parametrize("kind", ["wall", "console"])


def at(step: Step, **more: object) -> Snapshot:
    """A scene at this step, with whatever else it is to carry."""
    return replace(scene(STANDS.get(step, step)), **more)


def opened(screens: Screens, address: str, kind: str) -> Page:
    return screens.open(f"{address}/{kind}", viewport=WALL if kind == "wall" else PHONE)


def stopped(page: Page, step: Step) -> None:
    """STOP in the largest letters of the screen, and nothing to turn to."""
    expect(page.locator("[data-part=title]")).to_have_text(
        view(STANDS.get(step, step))["halt"]["say"]
    )
    expect(page.locator("[data-part=say]")).to_have_attribute("data-halted", "true")
    expect(page.locator("[data-part=stop]")).to_be_hidden()
    expect(page.locator("[data-part=shift]")).to_be_hidden()
    assert part(page, "digits") == ""
    sizes = page.evaluate(
        "() => [...document.querySelectorAll('p, h1, li, button')].filter((n) => n.offsetParent"
        " && n.textContent.trim()).map((n) => [n.dataset.part,"
        " parseFloat(getComputedStyle(n).fontSize)]).sort((a, b) => b[1] - a[1])"
    )
    assert sizes[0][0] in ("title", "digits-line"), sizes[:3]


def goes_on(page: Page, step: Step) -> None:
    title = view(STANDS.get(step, step))["title"]
    expect(page.locator("[data-part=title]")).to_have_text(title)
    expect(page.locator("[data-part=alive]")).to_have_text("Live")


@KINDS
def test_without_a_number_no_step_that_needs_one_tells_to_go_on(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    page = opened(screens, address, kind)
    for opening, step in enumerate(STEPS):
        live = replace(LIVE, run=f"run-{2 * opening}", to_go="+0.013", to_go_mm=0.013)
        hub.publish(live, at(step))
        goes_on(page, step)
        fault = {**AWAY, "run": live.run, "n": live.n}
        hub.publish(snapshot=at(step, faults=(fault,)))
        stopped(page, step)
        assert not [*reading.clipped(page), *reading.faint(page)], step
        hub.publish(replace(LIVE, run=f"run-{2 * opening + 1}", n=0), at(step))
        goes_on(page, step)


@KINDS
def test_no_number_of_an_opening_is_shown_after_the_fault_that_ended_it(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    """Whatever was under way when the gauge went arrives after the word that it has gone."""
    page = opened(screens, address, kind)
    hub.publish(LIVE, at("move"))
    goes_on(page, "move")
    fault = {**AWAY, "run": LIVE.run, "n": LIVE.n + 5}
    hub.publish(snapshot=at("move", faults=(fault,)))
    stopped(page, "move")
    page.evaluate(SEEN)
    for late in range(6):
        hub.publish(replace(LIVE, n=LIVE.n + late, text=f"9.00{late}", age_ms=0))
        page.wait_for_timeout(60)  # streams tell 25 a second
    hub.publish(snapshot=at("move"))  # it is back, and a number of before is still under way
    hub.publish(replace(LIVE, n=LIVE.n + 5, text="9.009", age_ms=0))
    page.wait_for_timeout(60)
    stopped(page, "move")
    assert page.evaluate("window.seen") == []
    hub.publish(replace(LIVE, run="run-2", n=0, text="1.111"))
    goes_on(page, "move")
    assert page.evaluate("window.seen") == ["1.111"]


@KINDS
def test_a_gauge_that_sends_in_spite_of_a_fault_keeps_what_it_sends_after_it(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    page = opened(screens, address, kind)
    hub.publish(LIVE, at("move", faults=({**AWAY, "run": LIVE.run, "n": LIVE.n},)))
    stopped(page, "move")
    hub.publish(replace(LIVE, n=LIVE.n + 1))
    goes_on(page, "move")


@KINDS
def test_a_gauge_that_sends_on_its_key_has_no_live_number_to_miss(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    page = opened(screens, address, kind)
    keyed = replace(LIVE, fresh=False, keyed=True, age_ms=4200, to_go="+0.013", to_go_mm=0.013)
    hub.publish(keyed, at("move"))
    expect(page.locator("[data-part=none]")).to_have_text("Sent 4 s ago, by its key")
    expect(page.locator("[data-part=stop]")).to_be_visible()
    expect(page.locator("[data-part=title]")).to_have_text(view("move")["title"])
    hub.publish(snapshot=at("move", faults=({**AWAY, "run": LIVE.run, "n": LIVE.n},)))
    stopped(page, "move")


@KINDS
def test_the_page_alone_notices_that_its_gauge_fell_silent(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    """The line still beats and still repeats the last number, as a stuck service would."""
    page = opened(screens, address, kind)
    hub.publish(LIVE, at("move"))
    goes_on(page, "move")
    page.evaluate(SEEN)
    hub.publish(replace(LIVE, n=LIVE.n + 1, text="1.205", fresh_for_ms=300))
    page.wait_for_function("() => window.seen.includes('1.205')")
    hub.number = replace(LIVE, text="", fresh=False)
    stopped(page, "move")


@KINDS
def test_the_page_alone_notices_a_line_that_fell_silent(
    hub: FakeHub, proxy: Proxy, screens: Screens, kind: str
) -> None:
    """By the page's own clock: 1.5 s after the last word, whatever time that takes here."""
    page = opened(screens, proxy.address, kind)
    hub.publish(LIVE, at("move"))
    goes_on(page, "move")
    screens.clock(page)
    with screens.allowing(CUT):  # the stream is opened anew
        proxy.hold()
        page.clock.run_for(1500)
        stopped(page, "move")
        expect(page.locator("[data-part=alive]")).to_have_text("No connection")
        proxy.go_on()
        page.clock.run_for(3000)
        goes_on(page, "move")


def test_a_step_that_needs_no_number_goes_on_without_one(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = opened(screens, address, "wall")
    shown = scene("prepare")
    hub.publish(Live("", "", 0, "", "", None, 0, fresh=False), replace(shown, faults=(AWAY,)))
    expect(page.locator("[data-part=none]")).to_have_text("No live reading")
    expect(page.locator("[data-part=title]")).to_have_text(view("prepare")["title"])
