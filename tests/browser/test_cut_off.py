"""After a run that was cut off: readable across the shop, beside what the step shows."""

from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from tests.browser import reading
from tests.browser.screens import WALL, Screens
from tests.web.conftest import FakeHub
from tests.web.scenes import scene

LEAST_CAP = 0.058
"""Of the screen's height: what must be known, at 5 m on a 32-inch screen."""

LONG = (
    "The Pi or headsweep was cut off soon after 2026‑11‑29 14:02. On again. Look at: Shop's files,"
    " Temperature and 12 more."
)
AMISS = {
    "about": "Clock",
    "found": "Clock: No time server has set it.",
    "todo": "Have it set: sudo timedatectl set-ntp true.",
}
CUT = {"n": 1, "say": LONG, "amiss": [AMISS], "left_ms": 60_000}
CAP = """node => {
  const style = getComputedStyle(node);
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  return pen.measureText("H").actualBoundingBoxAscent;
}"""


def placed(page: Page, *names: str) -> list[object]:
    return [page.locator(f"[data-part={name}]").bounding_box() for name in names]


@pytest.mark.parametrize(
    "name",
    [
        "as-found",
        pytest.param("park", marks=pytest.mark.long),
        pytest.param("loosen", marks=pytest.mark.long),
    ],
)
def test_on_the_wall_it_takes_the_drawings_place_for_its_time_and_nothing_elses(
    screens: Screens, hub: FakeHub, address: str, name: str
) -> None:
    page = screens.open(f"{address}/wall", viewport=WALL)
    shown = scene(name)
    hub.publish(snapshot=shown)
    expect(page.locator("[data-part=title]")).to_have_text(shown.pages["wall"]["title"])
    expect(page.locator("body")).to_have_attribute("data-cut-off", "none")
    before = placed(page, "say", "cautions")
    words = page.locator("[data-part=say]").inner_text()
    hub.publish(snapshot=replace(shown, cut_off=CUT))
    say = page.locator("[data-part=cut-off-say]")
    expect(say).to_have_text(LONG)
    assert say.evaluate(CAP) >= LEAST_CAP * WALL["height"]
    assert placed(page, "say", "cautions") == before
    assert page.locator("[data-part=say]").inner_text() == words
    expect(page.locator("[data-part=number]")).to_be_visible()
    expect(page.locator("[data-part=circle]")).not_to_be_visible()
    assert not [*reading.clipped(page), *reading.out_of_view(page), *reading.in_any_font(page)]
    hub.publish(snapshot=replace(scene(name), cut_off={**CUT, "n": 2, "left_ms": 50}))
    expect(say).not_to_be_visible()
    expect(page.locator("[data-part=circle]")).to_be_visible()


def test_on_a_phone_it_comes_below_the_step_with_what_to_do_and_a_button_that_takes_it_away(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.phone(f"{address}/console")
    hub.publish(snapshot=replace(scene("prepare"), cut_off=CUT))
    box = page.locator("[data-part=cut-off]")
    expect(box).to_contain_text(AMISS["todo"])
    title, band = placed(page, "title", "cut-off")
    assert title["y"] < band["y"]
    assert reading.measure(page, "beyondRight") <= 0
    assert not [*reading.clipped(page), *reading.in_any_font(page), *reading.low_controls(page, 48)]
    with page.expect_response("**/api/cut-off/read") as answer:
        page.locator("[data-part=cut-off-read]").click()
    assert answer.value.status == 200
    hub.publish(snapshot=scene("prepare"))
    expect(box).to_be_hidden()
