"""A gauge learned by the set-up page on a phone: asked, answered, loaded anew, given up."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from daq.gauges.config import read
from daq.service.clock import SystemClock
from daq.service.files import shipped
from daq.service.rights.access import Access
from daq.service.set_up.folder import ConfigFolder
from daq.service.set_up.gauge_text import examples
from daq.service.set_up.heard import Ears
from daq.service.set_up.learning import Learning
from tests.browser.plain import served
from tests.browser.screens import PHONE, Screens
from tests.browser.test_set_up_page import SMALL, looked_at_as_it_is
from tests.entry import PIN, enrolled, ticket
from tests.gauges.learn_bench import QUICK
from tests.system.ttygauge import TtyGauge
from tests.web.conftest import shop_set_up

NOISE = b"\x13\x92\x07\xe1\xb5"
LONG = replace(QUICK, listen_s=20.0)
"""So long at each speed that there is time to leave one out."""

LEAST = 64
"""CSS pixels of what a thumb presses at arm's length."""


@pytest.fixture
def gauge(tmp_path) -> Iterator[TtyGauge]:
    with TtyGauge(tmp_path / "serial" / "by-id" / "adapter-1") as talking:
        talking.jump_to(-0.4)
        yield talking


@pytest.fixture
def site(hub, inbox, tmp_path, gauge) -> Iterator[str]:
    there = shop_set_up(tmp_path / "config")
    like = {key: read(shipped() / "gauges" / f"{key}.toml") for key in examples(shipped())}
    there.ears = Ears({}, like, tmp_path / "serial")
    there.learning = Learning(ConfigFolder(tmp_path / "config"), there.ears, patience=LONG)
    enrolled(tmp_path, "Kit Marsh", "set-up")
    with served(hub, inbox, access=Access(tmp_path, SystemClock()), set_up=there) as found:
        yield found.partition("/machines")[0]
    there.learning.stop()


class Walk:
    """Somebody who reads the page, holds the contact, and types or taps."""

    def __init__(self, page: Page, gauge: TtyGauge) -> None:
        self.page, self.gauge = page, gauge
        self.ask = page.locator("[data-part=learn-ask]")
        self.told = page.locator("[data-part=learn-told]")

    def who(self) -> None:
        who = self.page.locator("form[data-part=who]")
        who.locator("[name=person]").fill("Kit Marsh")
        who.locator("[name=pin]").fill(PIN)
        who.locator("[name=pin]").press("Enter")

    def begin(self) -> None:
        expect(self.page.locator("[data-state]")).to_contain_text("talks now")
        self.button("Learn this gauge").tap()

    def asked(self, begins: str) -> None:
        expect(self.ask).to_have_text(re.compile(f"^{re.escape(begins)}"))

    def types(self, begins: str, text: str) -> None:
        """By the keyboard alone: the field has the focus."""
        self.asked(begins)
        field = self.page.locator("[data-part=learn-answer] [name=value]")
        expect(field).to_be_focused()
        field.press_sequentially(text)
        field.press("Enter")

    def button(self, name: str) -> Locator:
        return self.page.get_by_role("button", name=name, exact=True)

    def believes(self, number: str) -> None:
        expect(self.page.locator("[data-part=believed]")).to_have_text(number)


def opened(screens: Screens, site: str, folder: Path, gauge: TtyGauge) -> Walk:
    page = screens.open("about:blank", viewport=PHONE, has_touch=True, bypass_csp=True)
    assert page.goto(f"{site}/own?ticket={ticket(folder)}").ok
    page.goto(f"{site}/set-up")
    walk = Walk(page, gauge)
    walk.who()
    walk.begin()
    return walk


def test_it_is_begun_loaded_anew_and_given_up(site, screens: Screens, tmp_path, gauge):
    walk = opened(screens, site, tmp_path, gauge)
    walk.types("How far can the contact move", "12.7")
    gauge.garble(NOISE)
    walk.types("Which speed does its manual name", "")
    expect(walk.button("Leave this step out")).to_be_focused()
    walk.page.keyboard.press("Enter")
    expect(walk.told).to_contain_text("Try 1 of")
    gauge.garble(b"")
    walk.asked("The contact is free. What does the gauge's face show")
    walk.believes("-000.400 mm")
    gauge.move_to(-0.25)
    walk.believes("-000.250 mm")
    walk.page.reload()
    walk.asked("The contact is free")
    walk.believes("-000.250 mm")
    expect(walk.page.locator("form[data-part=who]")).to_be_hidden()
    assert looked_at_as_it_is(walk.page) == {}
    assert walk.page.evaluate(SMALL, [LEAST, ".talk button, .talk input[name=value]"]) == []
    walk.button("Give it up").tap()
    expect(walk.told).to_contain_text("Given up. Nothing is written, and the port is free.")
    walk.button("Go on").tap()
    expect(walk.page.locator("form[data-part=who] [name=person]")).to_be_visible()
    assert not (tmp_path / "config" / "gauges").exists()


@pytest.mark.parametrize("how", [pytest.param("learned", marks=pytest.mark.long)])
def test_a_gauge_is_learned_by_keys_and_thumb(site, screens: Screens, tmp_path, gauge, how):
    walk = opened(screens, site, tmp_path, gauge)
    walk.types("How far can the contact move", "far")
    walk.asked('"far mm" is no answer to that')
    walk.button("Go on without").tap()
    walk.types("Which speed does its manual name", "9600")
    walk.asked("The contact is free")
    walk.page.reload()
    walk.page.locator("[name=value]").fill("0.4")
    walk.button("+ / −").tap()
    walk.button("That is it").tap()
    walk.asked("Push the contact")
    gauge.move_to(0.603)
    walk.believes("+000.603 mm")
    walk.types("Push the contact", "0.603")
    walk.types("What is it called?", "Arm gauge")
    walk.types("What is the number on its housing?", "7")
    walk.button("plunger: the contact slides along the gauge").tap()
    walk.types("How much may it be wrong", "0.004")
    walk.types("Until when is its calibration good", "")
    expect(walk.told).to_contain_text("It still lacks travel, calibration_due.")
    assert looked_at_as_it_is(walk.page) == {}
    walk.button("Go on").tap()
    walk.who()
    change = walk.page.locator("[data-part=change]")
    expect(change).to_contain_text("arm-gauge: its file still lacks")
    put_in(change, "input:not([type=date])", "12.7 mm")
    put_in(change, "[type=date]", "2028-03-31")
    machine = walk.page.locator("form[data-part=machine]")
    expect(machine.locator("[name=gauge]")).to_have_value("arm-gauge")
    made = read(tmp_path / "config" / "gauges" / "arm-gauge.toml")
    assert (made.max_error, made.travel, made.counts_up) == (0.004, 12.7, True)
    assert (tmp_path / "config" / "gauges" / "arm-gauge.cap").exists()


def put_in(change: Locator, field: str, value: str) -> None:
    form = change.locator("form", has=change.page.locator(field))
    form.locator(field).fill(value)
    form.get_by_role("button", name="Put it in").tap()
    expect(form).to_have_count(0)
