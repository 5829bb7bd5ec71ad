"""A pedal on the wall screen's own machine: it types, and the page hears it."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.browser.daemon import Demo
from tests.browser.plain import served
from tests.browser.proxy import Proxy
from tests.browser.screens import BOUNCE_MS, CUT, WALL, Screens, later
from tests.cards import READY
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import scene, view

STAND = "() => { const now = performance.now(); performance.now = () => now; }"
REFUSED = ".alert[data-kind=refused]"
HINTED = "said => document.querySelector('[data-kind=settling]')?.textContent === said"


def wall_of(screens: Screens, hub: FakeHub, address: str, name: str) -> Page:
    hub.current = scene(name)
    return screens.open(f"{address}/wall", viewport=WALL)


def press(wall: Page) -> None:
    """Press, and wait until it is answered: until then a page takes no other."""
    with wall.expect_response("**/commands") as answer:
        wall.keyboard.press("Enter")
    answer.value.finished()


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_a_pedal_at_the_wall_presses_the_big_button(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str, key: str
) -> None:
    page = wall_of(screens, hub, address, "as-found")
    (big,) = [each for each in view("as-found")["actions"] if each["primary"]]
    with page.expect_response("**/commands"):
        page.keyboard.press(key)
    (got,) = inbox.got
    assert (got.kind, dict(got.payload), got.actor) == (big["kind"], big["payload"], "wall")
    assert got.expects_seq == hub.current.seq
    expect(page.locator(REFUSED)).to_have_count(0)


def test_a_pedal_at_the_wall_takes_and_takes_back(demo: Demo, screens: Screens) -> None:
    wall = screens.wall(demo.address("wall"))
    press(wall)
    expect(wall.locator("body")).to_have_attribute("data-step", "table")
    # What is ticked and written is asked where it can be answered.
    demo.press("readied", READY)
    expect(wall.locator("body")).to_have_attribute("data-step", "power")
    later(wall, BOUNCE_MS)
    press(wall)
    expect(wall.locator("body")).to_have_attribute("data-step", "prepare")
    later(wall, BOUNCE_MS)
    wall.keyboard.down("Enter")
    wall.wait_for_function(HINTED, arg="Keep holding to undo…")  # looked for in each frame
    expect(wall.locator("body")).to_have_attribute("data-step", "power")
    wall.keyboard.up("Enter")
    kinds = [e.type for e in demo.events()]
    assert kinds == ["AuditOpened", "TableReadied", "Warmed", "Voided"]
    assert [e.actor for e in demo.events()] == ["wall", "screen", "wall", "wall"]


def test_a_pedal_that_bounces_presses_once(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    page = wall_of(screens, hub, address, "as-found")
    page.evaluate(STAND)
    with page.expect_response("**/commands"):
        page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    hub.publish(snapshot=scene("park", 42))
    expect(page.locator("[data-part=title]")).to_have_text(view("park")["title"])
    assert len(inbox.got) == 1


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("sign", "Not done: that is done on the console."),
        ("question", "Not done: answer on the console."),
    ],
)
def test_what_asks_for_words_is_left_to_the_console(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str, name: str, said: str
) -> None:
    page = wall_of(screens, hub, address, name)
    page.keyboard.press("Enter")
    expect(page.locator(REFUSED)).to_have_text(said)
    assert inbox.got == []


def test_nothing_is_pressed_from_a_page_that_lost_its_line(
    hub: FakeHub, inbox: FakeInbox, proxy: Proxy, screens: Screens
) -> None:
    page = wall_of(screens, hub, proxy.address, "as-found")
    with screens.allowing(CUT):  # the stream is opened anew
        proxy.hold()
        expect(page.locator("[data-part=alive]")).to_have_text("No connection")
        page.keyboard.press("Enter")
        expect(page.locator(REFUSED)).to_have_text("Not done: no connection.")
        proxy.go_on()
        expect(page.locator("[data-part=alive]")).to_have_text("Live")
    assert inbox.got == []


@pytest.fixture
def deaf(hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where the pages of a shop are that keeps a keyboard before its wall screen."""
    with served(hub, inbox, wall_pedal=False) as found:
        yield found


def test_a_shop_can_turn_it_off(
    hub: FakeHub, inbox: FakeInbox, deaf: str, screens: Screens
) -> None:
    page = wall_of(screens, hub, deaf, "as-found")
    page.keyboard.press("Enter")
    hub.publish(snapshot=scene("park", 42))
    expect(page.locator("[data-part=title]")).to_have_text(view("park")["title"])
    assert inbox.got == []
