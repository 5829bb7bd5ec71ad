"""What a console lets be heard: by the oscillators it starts, each with its pitch."""

from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from tests.browser.screens import Screens
from tests.web.conftest import FakeHub
from tests.web.scenes import Screen, made, scene

RECORDING = """
window.heard = [];
window.AudioContext = class {
  state = "running";
  currentTime = 0;
  destination = {};
  resume() {}
  createGain() {
    return { gain: { setValueAtTime: (loud) => { this.loud = loud; },
      exponentialRampToValueAtTime() {} }, connect() { return this; } };
  }
  createOscillator() {
    const frequency = {};
    return { frequency, connect: (next) => next, stop() {},
      start: () => window.heard.push([Math.round(frequency.value), this.loud]) };
  }
};
"""
"""Stands in for the sound card: it keeps what it is to play."""
PITCHES = "() => window.heard.map(([pitch]) => pitch)"
STEADY_HZ, WARBLE_HZ = 1320, {440, 350}


@pytest.fixture
def page(screens: Screens, hub: FakeHub, address: str) -> Page:
    hub.current = scene("move")
    found = screens.phone("about:blank")
    found.add_init_script(RECORDING)
    screens.clock(found)
    found.goto(f"{address}/console")
    found.wait_for_selector("[data-part=alive][data-state=live]")
    return found


def hear(page: Page, hub: FakeHub, shown: Screen, off_mm: float) -> list[int]:
    """The pitches of a second with the number so far from the stop-at, told anew in between."""
    for part in range(3):
        live = shown.reads(shown.aim.stop_face_mm + off_mm + 1e-3 * (part % 2))
        hub.publish(live, shown.publish())
        expect(page.locator("[data-part=digits]")).to_have_text(live.text)
        if not part:
            page.evaluate("() => { window.heard.length = 0; }")
        page.clock.run_for(400)
    found: list[int] = page.evaluate(PITCHES)
    return found


def test_it_rises_before_the_stop_is_steady_on_it_and_warbles_past_it(
    page: Page, hub: FakeHub
) -> None:
    shown = Screen(made("move"))
    sound = page.locator("[data-part=sound]")
    assert hear(page, hub, shown, -0.3) == [], "off, as it came"
    sound.click()
    expect(sound).to_have_text("Sound is on")
    far, near = hear(page, hub, shown, -0.45), hear(page, hub, shown, -0.05)
    assert far and near and max(far) < min(near) < STEADY_HZ
    assert len(near) > len(far)
    assert set(hear(page, hub, shown, 0.001)) == {STEADY_HZ}
    assert set(hear(page, hub, shown, 0.05)) == WARBLE_HZ
    assert hear(page, hub, Screen(made("move-past")), 0.04), "going past it is asked for there"
    assert not WARBLE_HZ & set(page.evaluate(PITCHES))


def test_what_became_of_a_press_and_a_lost_gauge_have_signs_of_their_own(
    page: Page, hub: FakeHub
) -> None:
    shown = Screen(made("as-found"))
    page.locator("[data-part=sound]").click()
    hub.publish(shown.reads(1.2), shown.publish())
    expect(page.locator("[data-part=digits]")).to_have_text("1.200")
    heard = {}
    for outcome in ("taken", "refused"):
        page.evaluate("() => { window.heard.length = 0; }")
        told = {"outcome": outcome, "say": "1.200", "n": len(heard) + 1, "left_ms": 1500}
        hub.publish(snapshot=replace(shown.publish(), said=told))
        expect(page.locator(f"[data-kind={outcome}]")).to_be_visible()
        heard[outcome] = page.evaluate(PITCHES)
    assert len(heard["taken"]) == 1 and len(heard["refused"]) == 2
    assert min(heard["taken"]) > max(heard["refused"])
    page.evaluate("() => { window.heard.length = 0; }")
    fault = {"code": "unplugged", "say": "It has gone.", "run": "run-1", "n": 10_000}
    hub.publish(snapshot=shown.publish(faults=(fault,)))
    expect(page.locator("[data-part=say]")).to_have_attribute("data-halted", "true")
    lost = page.evaluate(PITCHES)
    assert lost == sorted(lost, reverse=True) and len(lost) == 3


def test_it_is_remembered_and_on_again_at_the_first_touch(page: Page, hub: FakeHub) -> None:
    sound = page.locator("[data-part=sound]")
    sound.click()
    loud = page.evaluate("() => window.heard.at(-1)[1]")
    sound.click()
    expect(sound).to_have_text("Sound is soft")
    assert page.evaluate("() => window.heard.at(-1)[1]") < loud
    page.reload()
    page.wait_for_selector("[data-part=alive][data-state=live]")
    expect(sound).to_have_text("Sound is soft")
    shown = Screen(made("move"))
    assert hear(page, hub, shown, -0.05) == [], "no page sounds before it is touched"
    page.locator("[data-part=title]").click()
    assert hear(page, hub, shown, -0.04)
    sound.click()
    expect(sound).to_have_text("Sound")
    assert hear(page, hub, shown, -0.05) == []
