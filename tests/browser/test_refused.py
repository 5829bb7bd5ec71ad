"""A press that did nothing is said on the wall too, wherever it was made."""

from dataclasses import replace

from playwright.sync_api import Locator, Page, Route, expect

from tests.browser import reading
from tests.browser.daemon import Demo
from tests.browser.mill import audit
from tests.browser.person import Finger
from tests.browser.screens import BOUNCE_MS, DESKTOP, WALL, Screens, later
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import scene, view

LONG = "NOT TAKEN: " + "the contact is not on the surface at the front " * 2
TAPPED = """for (const type of ["keydown", "keyup"]) {
  const pressed = { key: "Enter", code: "Enter", bubbles: true };
  document.body.dispatchEvent(new KeyboardEvent(type, pressed));
}"""
"""Down and up at once: on a machine that stands still between them, a key is held, which undoes."""
SHOWN_PX = WALL["height"] / 20.0


def refused(page: Page) -> Locator:
    return page.locator(".alert[data-kind=refused]")


def test_a_take_in_the_air_is_said_on_the_wall_until_one_is_taken(
    demo: Demo, screens: Screens
) -> None:
    audit(demo, "as-found")
    wall = screens.wall(demo.address("wall"))
    console = screens.open(demo.address("console"), viewport=DESKTOP)
    other = screens.open(demo.address("console"), viewport=DESKTOP)
    person = Finger(console, demo, demo)
    demo.do("swing", position="front")
    demo.do("free")
    with screens.refusing(console, "422"):
        person.press_primary()
        expect(refused(wall)).to_have_text("NOT TAKEN: Off contact at front.")
        box = refused(wall).bounding_box()
        expect(refused(other)).to_have_text("NOT TAKEN: Off contact at front.")
    expect(console.locator("[data-part=sent]")).to_contain_text("Off contact at front. The")
    expect(refused(console)).to_have_count(0)
    assert box and box["width"] == WALL["width"]
    person.obey()
    person.press()
    for page in (wall, other):
        expect(refused(page)).to_have_count(0)


def test_each_refusal_is_shown_once_and_for_its_time(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.open(f"{address}/wall", viewport=WALL)
    screens.clock(page)
    said = {"outcome": "refused", "say": LONG, "command": "c", "n": 1, "left_ms": 10_000}
    told = replace(scene("as-found"), said=said)
    hub.publish(snapshot=told)
    expect(refused(page)).to_have_text(LONG.strip())
    size = refused(page).evaluate("node => parseFloat(getComputedStyle(node).fontSize)")
    assert size >= SHOWN_PX
    assert not [*reading.clipped(page), *reading.out_of_view(page)]
    page.clock.run_for(10_100)
    expect(refused(page)).to_have_count(0)
    after = replace(scene("park", 42), said=said)
    hub.publish(snapshot=after)
    expect(page.locator("[data-part=title]")).to_have_text(after.pages["wall"]["title"])
    expect(refused(page)).to_have_count(0)
    hub.publish(snapshot=replace(told, said={**said, "n": 2}))
    expect(refused(page)).to_have_count(1)
    hub.publish(snapshot=replace(told, said=None))
    expect(refused(page)).to_have_count(0)


def unanswered(page: Page, hub: FakeHub) -> Route:
    """A press on a slow line: the next step is on the screen before the answer."""
    held: list[Route] = []
    page.route("**/commands", lambda route: held.extend([route]))
    expect(page.locator("[data-part=title]")).to_have_text(view("as-found")["title"])
    with page.expect_request("**/commands"):
        page.evaluate(TAPPED)
    hub.publish(snapshot=scene("park", 42))
    expect(page.locator("[data-part=title]")).to_have_text(view("park")["title"])
    later(page, BOUNCE_MS)
    page.keyboard.press("Enter")
    return held[0]


def test_a_press_before_the_last_one_is_answered_is_told_and_not_carried_out(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    hub.current = scene("as-found")
    wall = screens.wall(f"{address}/wall")
    held = unanswered(wall, hub)
    told = wall.locator("[data-kind=settling]")
    expect(told).to_have_text("Working…")
    held.continue_()
    expect(told).to_have_count(0)
    assert len(inbox.got) == 1


def test_buttons_that_come_before_the_last_press_is_answered_are_shut(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    hub.current = scene("as-found")
    console = screens.phone(f"{address}/console")
    held = unanswered(console, hub)
    button = console.locator("[data-action=take].primary")
    expect(button).to_be_disabled()
    held.continue_()
    expect(button).to_be_enabled()
    assert len(inbox.got) == 1
