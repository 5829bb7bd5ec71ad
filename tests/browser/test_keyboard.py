"""The console without a mouse: keys, pedal, focus, taking back."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.daemon import Demo
from tests.browser.person import FIELDS, Typist
from tests.browser.screens import DESKTOP, Screens, part

TABS = 40
FOCUS = """() => {
  const node = document.activeElement;
  if (node === document.body) return null;
  const style = getComputedStyle(node);
  const box = node.getBoundingClientRect();
  return {
    name: (node.textContent || node.name || node.tagName).trim(),
    ring: style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth),
    inside: box.top >= 0 && box.bottom <= innerHeight && box.left >= 0 && box.right <= innerWidth,
    covered: !node.contains(document.elementFromPoint(
      box.left + box.width / 2, box.top + box.height / 2)),
  };
}"""
NO_MOUSE = """() => {
  window.pointed = 0;
  for (const name of ["pointerdown", "mousedown", "touchstart"]) {
    addEventListener(name, () => { window.pointed += 1; }, true);
  }
}"""

STAND = "() => { const now = performance.now(); performance.now = () => now; }"
"""The page's clock stands still: however long a press takes, it follows at once upon the last."""


def typist(demo: Demo, screens: Screens) -> Typist:
    console = screens.open(demo.address("console"), viewport=DESKTOP)
    console.evaluate(NO_MOUSE)
    return Typist(console, demo, demo)


def readings(page: Page) -> list[str]:
    """The places of the circle that have a reading."""
    done = page.locator("[data-part=circle] [data-state=done]")
    return [str(station.get_attribute("data-place")) for station in done.all()]


@pytest.mark.parametrize("until", ["move", pytest.param("signed", marks=pytest.mark.long)])
def test_an_audit_by_keyboard(demo: Demo, screens: Screens, until: str) -> None:
    person = typist(demo, screens)
    page = person.page
    taken_back: list[str] = []

    def take_back_once(step: str) -> None:
        if step == "as-found" and not taken_back and readings(page) == ["front", "right"]:
            taken_back.append(part(page, "title"))
            person.key("u")
            assert person.place() == "right"
            assert readings(page) == ["front"]
            person.obey()

    person.audit(take_back_once, until)

    assert taken_back
    assert page.evaluate("window.pointed") == 0
    if until == "signed":
        assert_signed_as_typed(demo, screens, page)


def assert_signed_as_typed(demo: Demo, screens: Screens, page: Page) -> None:
    expect(page.locator("[data-part=title]")).to_have_text(re.compile(r"is signed: in\.$"))
    expect(page.locator("[data-part=detail]")).to_contain_text(FIELDS["done_by"])
    screens.close()
    demo.stop()
    verified = demo.verify()
    assert verified.returncode == 0, verified.stdout + verified.stderr
    signed, names = demo.events("Signed")[-1].data, demo.people()
    typed = {name: names.get(signed[name], signed[name]) for name in FIELDS}
    assert typed == dict(FIELDS)


def test_every_control_can_be_reached_and_shows_its_focus(demo: Demo, screens: Screens) -> None:
    person = typist(demo, screens)
    page = person.page
    person.come_to("touch-push")
    wanted = {
        re.sub(r"\s+", " ", control.inner_text()).strip()
        for control in page.locator("button:visible, a:visible").all()
    }
    seen: dict[str, dict[str, object]] = {}
    for _ in range(TABS):
        page.keyboard.press("Tab")
        if (focus := page.evaluate(FOCUS)) is not None:
            seen[focus["name"]] = focus
    missing = [name for name in wanted if not any(_same(name, found) for found in seen)]
    assert missing == []
    for name, focus in seen.items():
        assert focus["ring"] >= 2, name
        assert focus["inside"], name
        assert not focus["covered"], name


def _same(name: str, found: str) -> bool:
    """Line breaks on the screen are no part of a name."""
    return re.sub(r"\s", "", name).casefold() == re.sub(r"\s", "", found).casefold()


def test_a_pedal_that_bounces_presses_once(demo: Demo, screens: Screens) -> None:
    person = typist(demo, screens)
    person.lift_foot()
    person.page.evaluate(STAND)
    with person.page.expect_response(lambda answer: answer.url.endswith("/commands")):
        person.page.keyboard.press("Enter")
    person.see_step()
    opened = person.step
    assert opened != "idle"
    person.page.keyboard.press("Enter")
    console = person.page.locator("[data-part=console]")
    assert console.get_attribute("data-working") == "false"
    expect(person.page.locator("[data-part=ask]")).to_be_hidden()
    assert person.step == opened
    assert [e.type for e in demo.events()] == ["AuditOpened"]


def test_holding_enter_takes_back(demo: Demo, screens: Screens) -> None:
    person = typist(demo, screens)
    page = person.page
    person.come_to("touch-push")
    person.lift_foot()
    with page.expect_response(lambda answer: answer.url.endswith("/commands")) as got:
        page.keyboard.down("Enter")
    page.keyboard.up("Enter")
    assert got.value.request.post_data_json["kind"] == "undo"
    person.see_step()
    assert person.step == "touch-free"


def test_digits_choose_and_going_back_changes_nothing(demo: Demo, screens: Screens) -> None:
    person = typist(demo, screens)
    page = person.page
    expect(page.locator("[aria-keyshortcuts='1']")).to_contain_text("After angled work")
    person.key("1")
    expect(page.locator("[data-part=reason]")).to_have_text("After angled work")
    abandon = str(page.locator("[data-action=abandon]").get_attribute("aria-keyshortcuts"))
    assert abandon in "23456789"
    page.keyboard.press(abandon)
    box = page.locator("[data-part=ask]")
    expect(box).to_be_visible()
    expect(box.get_by_role("textbox", name="Why")).to_be_focused()
    page.keyboard.press("Escape")
    page.wait_for_function("() => document.activeElement === document.body")
    page.keyboard.press(abandon)
    expect(box.get_by_role("textbox", name="Why")).to_be_focused()
    page.keyboard.press("Enter")
    expect(box.get_by_role("alert")).to_have_text("Why: please fill this in.")
    page.keyboard.type("1 u")  # letters in a field are letters, no keys
    page.keyboard.press("Escape")
    expect(box).to_be_hidden()
    assert person.step == "angled"
    assert len(demo.events("AuditOpened")) == 1
    assert not demo.events("Abandoned")
