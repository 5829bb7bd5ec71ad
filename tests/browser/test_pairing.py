"""A phone is paired by the code on the wall, and a person signs on it by a PIN."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.entry import PIN, enrolled, ticket
from tests.web.scenes import MACHINE, scene

ANN, BO = "Anna Kelln", "Bo Harm"


@pytest.fixture
def access(tmp_path):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, BO, "set-up")
    return Access(tmp_path, SystemClock())


@pytest.fixture
def site(hub, inbox, access) -> Iterator[str]:
    """Where a service answers that asks who comes."""
    with served(hub, inbox, access=access) as found:
        yield found.partition("/machines")[0]


@pytest.fixture
def wall(screens: Screens, site, tmp_path):
    page = screens.wall(f"{site}/own?ticket={ticket(tmp_path)}&machine={MACHINE}")
    yield page
    page.context.clear_cookies()
    page.goto("about:blank")  # it would ask again and again for a service that has ended


@pytest.fixture
def phone(screens: Screens, site):
    page = screens.phone(f"{site}/")
    yield page
    page.context.clear_cookies()
    page.goto("about:blank")  # it would ask again and again for a service that has ended


def within(page, name, size):
    """A part is on the screen as a whole."""
    box = page.locator(f"[data-part={name}]").bounding_box()
    assert box["x"] >= 0 and box["x"] + box["width"] <= size["width"], box
    assert box["y"] >= 0 and box["y"] + box["height"] <= size["height"], box
    return box


def pair(phone, wall):
    expect(phone).to_have_url(re.compile("/pair$"))
    assert wall.locator("[data-part=pairing]").is_hidden()
    phone.locator("[data-part=ask]").tap()
    shown = wall.locator("[data-part=pairing-code]")
    expect(shown).to_have_text(re.compile(r"^\d{4} \d{4}$"))
    within(wall, "pairing", WALL)
    assert shown.inner_text() not in phone.content()
    phone.locator("[name=code]").fill(shown.inner_text())
    phone.locator("[name=name]").fill("Phone")
    phone.get_by_role("button", name="Pair", exact=True).tap()
    expect(phone.locator("[data-part=this-screen]")).to_contain_text("This screen: Phone")
    expect(wall.locator("[data-part=pairing]")).to_be_hidden()


def test_a_phone_is_paired_works_and_signs_out(phone, wall, site, hub, inbox, access):
    pair(phone, wall)
    hub.publish(snapshot=scene("idle"))
    phone.goto(f"{site}/machines/{MACHINE}/console")
    phone.wait_for_selector("[data-part=alive][data-state=live]")
    with phone.expect_response("**/commands"):
        phone.locator("[data-action]").first.tap()
    expect(phone.locator("[data-part=sent]")).to_have_attribute("data-kind", "ok")
    assert [each.asker.role for each in inbox.got] == ["work"]
    phone.goto(f"{site}/")
    phone.locator("[data-part=leave]").tap()
    expect(phone).to_have_url(re.compile("/pair$"))
    assert access.store.kept().screens == ()


def test_a_signature_is_proved_by_the_pins_of_who_did_and_who_reviewed_it(
    phone, wall, site, hub, inbox
):
    pair(phone, wall)
    hub.publish(snapshot=scene("sign"))
    phone.goto(f"{site}/machines/{MACHINE}/console")
    phone.wait_for_selector("[data-part=alive][data-state=live]")
    phone.locator("[data-action=sign]").tap()
    box = phone.locator("dialog[open]")
    box.locator("[name=done_by]").first.check()
    box.locator("[name=reviewed_by]").last.check()
    for line in box.locator("[name=last_good]").all():
        line.fill("2026-01-05")
    for line in box.locator("[name=disposition]").all():
        line.fill("none made since")
    for line in box.locator("[name='pin:done_by'], [name='pin:reviewed_by']").all():
        assert line.get_attribute("type") == "password"
        line.fill(PIN)
    with phone.expect_response("**/commands"):
        box.locator("[data-part=ask-yes]").tap()
    expect(box).to_be_hidden()
    expect(phone.locator("[data-part=sent]")).to_have_text("")
    (got,) = inbox.got
    assert {key: who.name for key, who in got.proved.items()} == {
        "done_by": ANN,
        "reviewed_by": BO,
    }
    assert PIN not in str(got.payload)


@pytest.mark.parametrize("size", [PHONE, WALL], ids=["phone", "wall"])
def test_the_pairing_page_fits(screens: Screens, site, size):
    page = screens.open(f"{site}/pair", viewport=size)
    within(page, "form", {"width": size["width"], "height": 10_000})
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
