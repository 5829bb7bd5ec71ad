"""What stands on the wall can be read from five metres: measured at each step, in any font.

A letter can be read without effort once its height is 20 minutes of arc (four times what sharp eyes
just tell apart, 5 minutes: the definition of normal sight on letter charts, from memory): from 5 m
that is 7.3 % of the height of a 32-inch screen. What need only be known may be 16 minutes high.
"""

import re
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import DRESSED, Screens, resize
from tests.browser.test_scenes import put
from tests.thinned import case
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import SITUATIONS, Screen, made, view
from web.phones import ForPhones

ACT, KNOW, VERDICT = 0.073, 0.058, 0.14
"""Height of capitals, of the screen's."""
NOT_ON_WALL = re.compile(r"%|\b[0-9a-f]{8,}\b|residual", re.IGNORECASE)
MOST_WORDS = 9
TAGS = ("unsafe", "aside")
"""Steps whose title is a tag that stays on a machine, no instruction: it names all that is left."""
SIZES = tuple(
    ViewportSize(width=width, height=height)
    for width, height in ((1920, 1080), (1366, 768), (3840, 2160))
)
PICTURE_WIDTH = 0.45
LEAST = [*SITUATIONS][::6]
"""Scenes of the ordinary run; all of them are walked in the long one."""


def far_texts(page: Page) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = reading.measure(page, "far")
    return found


def too_small(page: Page, scale: float = 1.0) -> list[str]:
    least = {"act": ACT, "know": KNOW}
    return [
        f"{100 * each['cap']:.2f} % of the height: {each['say']}"
        for each in far_texts(page)
        if each["cap"] < scale * least[each["kind"]] - 1e-4
    ]


def missing(page: Page, name: str) -> list[str]:
    """What the step has to show, and the wall does not."""
    shown, flaws = view(name), []
    title = page.locator("[data-part=title]")
    words = len((title.text_content() or "").split())
    if not title.is_visible():
        flaws.append("no instruction")
    if words > MOST_WORDS and shown["step"] not in TAGS:
        flaws.append(f"{words} words of instruction")
    if shown["cautions"] and not page.locator("[data-part=cautions] li").first.is_visible():
        flaws.append("no caution")
    if shown["picture"] == "verdict":
        high = [each["cap"] for each in far_texts(page) if each["cap"] >= VERDICT]
        if shown["verdict"] and not high:
            flaws.append("no verdict")
        axes = [each for each in shown["axes"] if each["axis"]]
        if page.locator(".figures li[data-axis]:visible").count() != len(axes):
            flaws.append("an axis is missing")
    elif shown["picture"] != "lines" and not page.locator("[data-part=digits]").is_visible():
        flaws.append("no number")
    return flaws


@pytest.mark.parametrize(
    ("size", "names"),
    [case([size, LEAST], size == SIZES[0]) for size in SIZES]
    + [case([size, [*SITUATIONS]], False) for size in SIZES],
)
@pytest.mark.parametrize("style", DRESSED)
def test_every_step_can_be_read_from_afar(
    browser: Browser, hub: FakeHub, address: str, size: ViewportSize, names: list[str], style: str
) -> None:
    screens = Screens(browser, style)
    page = screens.open(f"{address}/wall", viewport=size)
    resize(page, size)
    flaws = []
    for seq, name in enumerate(names, 100):
        shown = Screen(made(name))
        told = view(name)
        at = shown.aim.stop_face_mm - 0.05 if told["stop_at"] or told["bolts"] else 1.0 + seq / 1e3
        put(hub, page, shown, at, seq=seq)
        found = [*too_small(page), *missing(page, name)]
        found += [*reading.clipped(page), *reading.out_of_view(page)]
        if style:  # for one of the two is enough
            found += [*reading.faint(page), *NOT_ON_WALL.findall(page.inner_text("body"))]
        flaws += [f"{name}: {flaw}" for flaw in found]
    screens.close()
    assert not flaws, "\n".join(flaws)
    assert screens.wrong == []


@pytest.mark.parametrize("name", ["idle", "signed"])
def test_a_wall_at_rest_says_where_a_phone_finds_the_console(
    screens: Screens, hub: FakeHub, address: str, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    there = ForPhones(reached=True, address="http://192.168.100.120:8642/")
    monkeypatch.setattr("web.pages.wall.for_phones", lambda: there)
    hub.current = Screen(made(name)).publish()
    page = screens.wall(f"{address}/wall")
    expect(page.locator("body")).to_have_attribute("data-step", name)
    code = page.get_by_role("img", name="The console, by phone:")
    box = code.bounding_box()
    assert box is not None
    assert box["height"] == pytest.approx(box["width"], abs=2.0)
    assert box["height"] >= 0.2 * page.evaluate("innerHeight")
    assert not [*too_small(page), *missing(page, name), *reading.clipped(page)]
    hub.publish(snapshot=Screen(made("as-found")).publish(42))
    expect(code).to_be_hidden()


@pytest.mark.parametrize("far", [0.6, 1.1])
def test_the_letters_are_made_for_where_the_wall_stands(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, far: float
) -> None:
    with served(hub, inbox, wall_far=far) as address:
        shown = Screen(made("move"))
        hub.publish(shown.reads(shown.aim.stop_face_mm - 0.05), shown.publish())
        page = screens.wall(f"{address}/wall")
        expect(page.locator("body")).to_have_attribute("data-step", "move")
        assert min(each["cap"] for each in far_texts(page)) == pytest.approx(KNOW * far, rel=0.02)
        assert not [*too_small(page, far), *missing(page, "move"), *reading.clipped(page)]
