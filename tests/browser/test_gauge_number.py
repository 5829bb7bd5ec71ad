"""The number on the gauge is picked, or its last two characters are typed: keyboard and phone."""

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser import reading
from tests.browser.screens import DESKTOP, PHONE, Screens
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import scene

GLOVE_PX = 44


def asked(screens: Screens, hub: FakeHub, address: str, *, phone: bool) -> tuple[Page, Locator]:
    hub.publish(snapshot=scene("prepare"))
    opened = screens.phone if phone else screens.open
    options = {} if phone else {"viewport": DESKTOP}
    page = opened(f"{address}/console", **options)
    page.locator("[data-action=prepared].primary").click()
    box = page.locator("[data-part=ask]")
    expect(box).to_be_visible()
    return page, box


def sent(inbox: FakeInbox) -> dict[str, object]:
    (command,) = inbox.got
    return {k: v for k, v in command.payload.items() if k in ("serial_number", "last_two")}


@pytest.mark.parametrize("phone", [False, True], ids=["keyboard", "phone"])
def test_typed_it_is_sent_without_a_pick(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str, phone: bool
) -> None:
    page, box = asked(screens, hub, address, phone=phone)
    field = box.locator("[name=last_two]")
    if phone:
        field.tap()
    else:
        page.keyboard.press("Tab")  # past the picks, as one group
    expect(field).to_be_focused()
    size = field.bounding_box()
    assert size and size["height"] >= GLOVE_PX and size["width"] <= PHONE["width"] / 2
    assert reading.clipped(page) == []
    page.keyboard.type("17")
    with page.expect_response(lambda answer: answer.url.endswith("/commands")):
        page.keyboard.press("Enter")
    assert sent(inbox) == {"last_two": "17"}


def test_the_one_takes_the_other_back_and_neither_is_asked_for(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    page, box = asked(screens, hub, address, phone=False)
    field, picks = box.locator("[name=last_two]"), box.locator("[name=serial_number]")
    page.keyboard.press("Enter")
    expect(box.get_by_role("alert")).to_contain_text("please fill this in")
    picks.first.check()
    field.fill("17")
    expect(box.locator("[name=serial_number]:checked")).to_have_count(0)
    picks.first.check()
    expect(field).to_have_value("")
    with page.expect_response(lambda answer: answer.url.endswith("/commands")):
        page.keyboard.press("Enter")
    assert [*sent(inbox)] == ["serial_number"]
