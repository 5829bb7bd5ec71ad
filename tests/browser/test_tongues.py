"""Every page and step in other languages than English: read, measured, and held against the rules.

A real audit speaks one at a time; here each situation there is (`tests/web/acts.py`) is put before
wall and console, told in the language, at every width that a screen of a shop has.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, ViewportSize, expect

from daq.says import Language, language
from daq.words import said
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import FONTS, PHONE, WALL, Screens, resize
from tests.thinned import case
from tests.tongues import LONGER, TONGUES, tongue
from tests.web.conftest import LIVE, FakeHub, FakeInbox
from tests.web.scenes import SITUATIONS, Screen, made

WALLS = (
    ViewportSize(width=1280, height=720),
    ViewportSize(width=1366, height=768),
    ViewportSize(width=1920, height=1080),
    ViewportSize(width=3840, height=2160),
)
SIZES = {"wall": WALLS, "console": (PHONE, *WALLS)}
CASES = [
    case([name, kind, font], (name, kind, font) == (LONGER, "wall", "own-font"))
    for name in TONGUES
    for kind in SIZES
    for font in FONTS
]
FEW = 12
"""Of so many situations one is looked at in the ordinary run."""


@pytest.fixture
def speech(
    request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Language:
    """The language that everything is told in."""
    found = tongue(request.param, tmp_path)
    monkeypatch.setattr("tests.web.scenes.language", lambda: found)
    return found


@pytest.fixture
def spoken_at(speech: Language, hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where pages are served whose shop speaks it."""
    with served(hub, inbox, says=speech) as found:
        yield found


def show(hub: FakeHub, page: Page, name: str, seq: int) -> None:
    """Put a situation and a number before the screen, and wait until it shows both."""
    shown = Screen(made(name))
    snapshot, live = shown.publish(seq), shown.reads(1.0 + seq / 1000.0)
    hub.publish(live, snapshot)
    expect(page.locator("[data-part=title]")).to_have_text(snapshot.pages["console"]["title"])
    expect(page.locator("[data-part=digits]")).to_have_text(live.text)


@pytest.mark.parametrize(("speech", "kind", "font"), CASES, indirect=["speech"])
def test_every_situation_fits_at_every_width(
    browser: Browser,
    hub: FakeHub,
    spoken_at: str,
    request: pytest.FixtureRequest,
    kind: str,
    font: str,
) -> None:
    thin = request.node.get_closest_marker("long") is None
    screens, flaws = Screens(browser, FONTS[font]), []
    sizes = SIZES[kind][1:3] if thin else SIZES[kind]
    page = screens.open(f"{spoken_at}/{kind}", viewport=sizes[0], has_touch=kind == "console")
    for seq, name in enumerate([*SITUATIONS][:: FEW if thin else 1], 100):
        show(hub, page, name, seq)
        for size in sizes:
            resize(page, size)
            found = reading.clipped(page)
            if reading.measure(page, "beyondRight") > 0:
                found.append("wider than the screen")
            if kind == "wall":
                found += reading.out_of_view(page)
                if (type_px := reading.measure(page, "smallestType")) < size["height"] / 50.0:
                    found.append(f"type only {type_px} px")
            flaws += [f"{name}, {size['width']}: {flaw}" for flaw in found]
    screens.close()
    assert not flaws, "\n".join(flaws)
    assert screens.wrong == []


@pytest.mark.parametrize(
    ("speech", "kind"),
    [case([tag, kind], (tag, kind) == ("es", "console")) for tag in ("en", "es") for kind in SIZES],
    indirect=["speech"],
)
def test_no_situation_breaks_a_rule(
    screens: Screens, hub: FakeHub, spoken_at: str, request: pytest.FixtureRequest, kind: str
) -> None:
    thin = request.node.get_closest_marker("long") is None
    axe, broken = Axe(), {}
    size = WALL if kind == "wall" else PHONE
    page = screens.open(f"{spoken_at}/{kind}", viewport=size, bypass_csp=True)
    for seq, name in enumerate([*SITUATIONS][:: 3 * FEW if thin else 1], 100):
        show(hub, page, name, seq)
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        found = axe.run(page).response["violations"]
        broken |= {(name, each["id"]): [n["html"] for n in each["nodes"]][:3] for each in found}
    assert sorted(broken) == [], broken


def test_one_press_changes_the_language_of_this_screen_alone_and_it_keeps_it(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    phone, wall = screens.phone(f"{address}/console"), screens.wall(f"{address}/wall")
    other = phone.get_by_role("button", name="Español")
    expect(other).to_have_attribute("aria-pressed", "false")
    other.tap()
    live = {tag: language(tag).words(said("live")) for tag in ("en", "es")}
    expect(phone.locator("[data-part=alive-say]")).to_have_text(live["es"])
    phone.goto(f"{address}/wall")
    expect(phone.locator("html")).to_have_attribute("lang", "es")
    hub.publish(LIVE)
    expect(wall.locator("[data-part=alive-say]")).to_have_text(live["en"])
    assert inbox.got == []
