"""The circle of a sweep over any places: each where it lies, none upon another, all readable."""

import itertools
import math
from dataclasses import replace

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from daq.words import FOUR_POSITIONS, POSITIONS, Position
from tests.browser import reading
from tests.browser.screens import DRESSED, PHONE, WALL, Screens
from tests.web.conftest import FakeHub
from tests.web.scenes import scene

THREE: tuple[Position, ...] = ("front", "right", "left")
FIVE: tuple[Position, ...] = ("front", "right", "back-right", "back-left", "left")
SHOWN = (THREE, FOUR_POSITIONS, FIVE, tuple(POSITIONS))
NARROWEST_PART = 0.6
"""How narrow a wide font may be set, of its own width: it is then as narrow as a condensed one."""
NARROWEST = """() => Math.min(...[...document.querySelectorAll(".station text, .spot span")]
    .filter(text => text.checkVisibility())
    .map(text => new DOMMatrix(getComputedStyle(text).transform).a))"""
STATES = ("done", "next", "parked", "empty")
READS = {"done": "+0.1205", "next": "-0.0605", "parked": "+1.2045", "empty": ""}
AGES = {"done": "old zero", "next": "as found", "parked": "was", "empty": ""}
SMALLEST_PX = {WALL["width"]: 0.08 * WALL["height"], PHONE["width"]: 12.0}
"""On the wall it is measured by its capitals, in `test_far`."""
BOXES = """() => Object.fromEntries(
  [...document.querySelectorAll(".station, .spot")].map((station) => {
    const box = (station.querySelector("rect") ?? station).getBoundingClientRect();
    const all = station.getBoundingClientRect();
    return [station.dataset.place, {
        x: box.x + box.width / 2, y: box.y + box.height / 2,
        left: all.left, right: all.right, top: all.top, bottom: all.bottom}];
}))"""


def put(hub: FakeHub, places: tuple[Position, ...], old: bool) -> None:
    """Let the screens show these places, one after the other in every state there is."""
    ages = AGES if old else {}
    states = [STATES[n % len(STATES)] for n in range(len(places))]
    circle = [
        {
            "position": place,
            "say": place.capitalize(),
            "value": READS[state],
            "age": ages.get(state, ""),
            "state": state,
        }
        for place, state in zip(places, states, strict=True)
    ]
    shown = scene("as-found")
    pages = {name: {**page, "circle": circle} for name, page in shown.pages.items()}
    hub.current = replace(shown, pages=pages)


def boxes(page: Page) -> dict[Position, dict[str, float]]:
    found: dict[Position, dict[str, float]] = page.evaluate(BOXES)
    return found


def overlapping(found: dict[Position, dict[str, float]]) -> list[tuple[str, str]]:
    return [
        (one, other)
        for one, a in found.items()
        for other, b in found.items()
        if one < other
        and a["left"] < b["right"]
        and b["left"] < a["right"]
        and a["top"] < b["bottom"]
        and b["top"] < a["bottom"]
    ]


@pytest.mark.parametrize(("name", "viewport"), [("wall", WALL), ("console", PHONE)])
@pytest.mark.parametrize("style", DRESSED)
def test_each_place_stands_where_it_lies_and_can_be_read(
    browser: Browser, hub: FakeHub, address: str, name: str, viewport: ViewportSize, style: str
) -> None:
    screens = Screens(browser, style)
    page = screens.open(f"{address}/{name}", viewport=viewport)
    for places, old in itertools.product(SHOWN, (False, True)):
        put(hub, places, old)
        page.reload()
        expect(page.locator(".station, .spot")).to_have_count(len(places))
        assert_readable(page, places, old, on_wall=name == "wall")
    screens.close()
    assert screens.wrong == []


def assert_readable(page: Page, places: tuple[Position, ...], old: bool, *, on_wall: bool) -> None:
    found = boxes(page)
    assert tuple(found) == places
    ages = [AGES[STATES[n % len(STATES)]] for n in range(len(places))] if old else []
    if on_wall:  # what is no longer so is not there at all, nor is its age
        told = page.locator(".spot:not([data-state=next])").all_text_contents()
        states = [STATES[n % len(STATES)] for n in range(len(places))]
        values = [READS[state] for state in states if state != "next"]
        assert told == ([""] * len(values) if old else values)
    else:
        assert page.locator(".station .age").all_text_contents() == list(filter(None, ages))
    middle_y = found["right"]["y"]
    middle_x = (found["right"]["x"] + found["left"]["x"]) / 2.0
    for place, box in found.items():
        azimuth = math.radians(POSITIONS[place])
        assert _way(box["x"] - middle_x) == round(math.cos(azimuth)), (places, old, place)
        assert _way(middle_y - box["y"]) == round(math.sin(azimuth)), (places, old, place)
    assert overlapping(found) == [], (places, old)
    assert [*reading.clipped(page), *reading.faint(page)] == [], (places, old)
    assert reading.measure(page, "beyondRight") <= 0.0
    width = page.viewport_size["width"] if page.viewport_size else 0
    assert reading.measure(page, "smallestType") >= SMALLEST_PX[width]
    assert page.evaluate(NARROWEST) >= NARROWEST_PART


def _way(pixels: float) -> int:
    return 0 if abs(pixels) < 1.0 else int(math.copysign(1.0, pixels))
