"""Signing, handing over, adding: each form can be filled in and sent on any screen, by a PIN."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.entry import PIN, enrolled, ticket
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import MACHINE, scene
from tests.web.signing import EARLY, LATE

GLOVE_PX = 48
FINGER_PX = 64
FORMS = {
    "sign-against": "sign",
    "handed-over": "hand-over",
    "aside-handed": "hand-over",
    "signed-added": "add-to-signed",
}


@pytest.fixture(params=[PHONE, WALL], ids=["phone", "wall"])
def console(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, tmp_path: Path, request: pytest.FixtureRequest
) -> Iterator[Page]:
    """A console of a shop in which three people have a PIN."""
    for name in (EARLY, LATE, "Cy"):
        enrolled(tmp_path, name)
    size = request.param
    options: dict[str, Any] = {"has_touch": True, "is_mobile": True} if size is PHONE else {}
    with served(hub, inbox, access=Access(tmp_path, SystemClock())) as found:
        site = found.partition("/machines")[0]
        page = screens.open(
            f"{site}/own?ticket={ticket(tmp_path)}&machine={MACHINE}", viewport=size, **options
        )
        page.goto(f"{found}/console")
        page.wait_for_selector("[data-part=alive][data-state=live]")
        yield page
        page.context.clear_cookies()
        page.goto("about:blank")


def within(page: Page, name: str) -> bool:
    box = page.locator(f"dialog[open] [data-part={name}]").bounding_box()
    size = page.viewport_size
    assert box and size
    return box["y"] >= 0 and box["y"] + box["height"] <= size["height"]


def show(hub: FakeHub, page: Page, name: str, seq: int) -> None:
    shown = scene(name, seq)
    hub.publish(snapshot=shown)
    expect(page.locator("[data-part=title]")).to_have_text(shown.pages["console"]["title"])


def test_what_ends_a_form_is_in_reach_however_long_it_is(hub: FakeHub, console: Page) -> None:
    flaws = []
    for seq, (name, kind) in enumerate(FORMS.items(), 50):
        show(hub, console, name, seq)
        console.locator(f"[data-action={kind}]").click()
        for at in ("its head", "its end"):
            lost = [each for each in ("ask-yes", "ask-no") if not within(console, each)]
            found = [*lost, *reading.clipped(console), *reading.low_controls(console, GLOVE_PX)]
            flaws += [f"{kind} at {name}, at {at}: {flaw}" for flaw in found]
            console.evaluate("document.querySelector('dialog[open]').scrollTop = 1e6")
        # What is missing is said where the press was.
        console.locator("[data-part=ask-yes]").click()
        expect(console.locator("[data-part=ask-problem]")).not_to_be_empty()
        if not within(console, "ask-problem"):
            flaws.append(f"{kind} at {name}: what is missing cannot be seen")
        console.locator("[data-part=ask-no]").click()
    assert not flaws, "\n".join(flaws)


touch = pytest.mark.parametrize("console", [PHONE], ids=["phone"], indirect=True)
KEYS = """() => {
  window.typed = 0;
  addEventListener("keydown", () => { window.typed += 1; }, true);
}"""


def tap_digits(page: Page, name: str, digits: str) -> None:
    """Into a line, by the digits that come up under it."""
    line = page.locator(f"dialog[open] [name='{name}']")
    line.tap()
    # No keyboard comes up on the glass: the page brings digits of its own.
    expect(line).to_have_attribute("inputmode", "none")
    pad = page.locator("dialog[open] .pad")
    for digit in digits:
        pad.get_by_role("button", name=digit, exact=True).tap()


@touch
def test_an_audit_is_signed_with_no_keyboard_at_all(
    hub: FakeHub, inbox: FakeInbox, console: Page
) -> None:
    console.evaluate(KEYS)
    show(hub, console, "sign-known", 70)
    console.locator("[data-action=sign]").tap()
    box = console.locator("dialog[open]")
    expect(box).to_be_visible()
    names = [each.get_attribute("value") for each in box.locator("[name=done_by]").all()]
    assert names == [EARLY, LATE, "Cy"]  # those who signed here before come first
    box.locator(f"label:has([name=done_by][value='{LATE}'])").tap()
    tap_digits(console, "pin:done_by", f"9{PIN}")
    console.get_by_role("button", name="Take back the last digit").tap()
    tap_digits(console, "pin:done_by", "")
    for _ in PIN:
        console.get_by_role("button", name="Take back the last digit").tap()
    tap_digits(console, "pin:done_by", PIN)
    day = box.locator("[name=last_good]")
    expect(day).to_have_value("2026-06-01")
    assert "From the record: audit A-" in box.inner_text()
    box.get_by_role("button", name="Checked again: good").tap()
    assert reading.low_controls(console, GLOVE_PX) == []
    pad = [each.bounding_box() for each in box.locator(".digit, .pick").all()]
    assert {each and each["height"] >= FINGER_PX <= each["width"] for each in pad} == {True}
    with console.expect_response("**/commands"):
        box.locator("[data-part=ask-yes]").tap()
    expect(box).to_be_hidden()
    expect(console.locator("[data-part=sent]")).to_have_text("")
    (got,) = inbox.got
    assert got.payload == {
        "done_by": LATE, "last_good": "2026-06-01", "disposition": "Checked again: good",
    }  # fmt: skip
    assert got.proved["done_by"].name == LATE
    assert console.evaluate("window.typed") == 0


@touch
def test_a_day_is_tapped_in_digit_by_digit_and_said_when_it_is_none(
    hub: FakeHub, console: Page
) -> None:
    show(hub, console, "sign-known", 71)
    console.locator("[data-action=sign]").tap()
    box = console.locator("dialog[open]")
    day = box.locator("[name=last_good]")
    day.fill("")
    tap_digits(console, "last_good", "20260331")
    expect(day).to_have_value("2026-03-31")
    day.fill("03/31/2026")
    box.locator(f"label:has([name=done_by][value='{LATE}'])").tap()
    box.locator("[name='pin:done_by']").fill(PIN)
    box.locator("[data-part=ask-yes]").tap()
    problem = "Last known good on: Year first, such as 2026-03-31"
    expect(box.locator("[data-part=ask-problem]")).to_have_text(problem)
    expect(day).to_be_focused()


def test_two_presses_hand_an_audit_over_and_both_prove_it(
    hub: FakeHub, inbox: FakeInbox, console: Page
) -> None:
    show(hub, console, "handed-over", 60)
    assert (
        f"Handed over by {EARLY} to {LATE}, " in console.locator("[data-part=stands]").inner_text()
    )
    console.locator("[data-action=hand-over]").click()
    box = console.locator("dialog[open]")
    box.locator(f"[name=left_by][value='{LATE}']").check()
    box.locator("[name=taken_by][value=Cy]").check()
    for line in box.locator("input[type=password]").all():
        line.fill(PIN)
    with console.expect_response("**/commands"):
        box.locator("[data-part=ask-yes]").click()
    expect(box).to_be_hidden()
    expect(console.locator("[data-part=sent]")).to_have_text("")
    (got,) = inbox.got
    assert (got.kind, got.payload) == ("hand-over", {"left_by": LATE, "taken_by": "Cy"})
    assert {key: who.name for key, who in got.proved.items()} == got.payload
