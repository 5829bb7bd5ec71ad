"""A new person's way on a phone, from an empty folder to the first reading, each press counted."""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from daq.service.files import load
from tests import warm
from tests.browser.screens import WALL, Screens
from tests.entry import ticket
from tests.patience import PATIENCE_S
from tests.system.ttygauge import TtyGauge

ELSEWHERE = Path(__file__).with_name("elsewhere.py")
PRESSES = 40
ADAPTER = "usb-Adapter_0417-if00-port0"


class Finger:
    """What a person does on a phone, counted: presses on the screen, and keys of its keyboard."""

    def __init__(self, page: Page) -> None:
        self.page, self.taps, self.keys = page, 0, 0

    def press(self, what: Locator) -> None:
        what.scroll_into_view_if_needed()
        what.tap()
        self.taps += 1

    def type(self, into: Locator, text: str) -> None:
        """Press the field, unless it has the focus already, and type."""
        if not into.evaluate("node => node === document.activeElement"):
            self.press(into)
        into.press_sequentially(text)
        self.keys += len(text)


class EmptyShop:
    """A service that was started where no file is, and a gauge on one of its ports."""

    def __init__(self, folder: Path) -> None:
        self.config, self.data = folder / "config", folder / "data"
        self.said = folder / "stderr.txt"
        ports = folder / "serial"
        self.gauge = TtyGauge(ports / "by-id" / ADAPTER)
        program = [sys.executable, "-P", str(ELSEWHERE), str(ports)]
        options = ["run", "--config", str(self.config), "--data", str(self.data)]
        options += ["--listen", "127.0.0.1:0", "--data-in-memory"]
        with self.said.open("w", encoding="utf-8") as said:
            self.process = warm.started(program, options, said)
        address = self.process.stdout.readline()
        assert address.startswith("headsweep "), self.said.read_text(encoding="utf-8")
        self.site = address.split()[-1].rstrip("/").replace("localhost", "127.0.0.1")

    def shows(self, number: float) -> None:
        """The gauge's face: its number goes out ten times and more a second."""
        self.gauge.garble(f"{number:+.3f} mm\r".encode())

    def stop(self) -> None:
        self.process.send_signal(15)
        assert self.process.wait(PATIENCE_S) == 0
        self.process.stdout.close()
        assert "Traceback" not in self.said.read_text(encoding="utf-8")


@pytest.fixture
def shop(tmp_path) -> Iterator[EmptyShop]:
    made = EmptyShop(tmp_path)
    with made.gauge:
        yield made
        made.stop()


def paired(finger: Finger, wall: Page) -> None:
    page = finger.page
    expect(page).to_have_url(re.compile("/pair$"))
    finger.press(page.locator("[data-part=ask]"))
    shown = wall.locator("[data-part=pairing-code]")
    expect(shown).to_have_text(re.compile(r"^\d{4} \d{4}$"))
    code = page.locator("[name=code]")
    expect(code).to_be_focused()
    finger.type(code, shown.inner_text().replace(" ", ""))
    finger.press(page.get_by_role("button", name="Pair", exact=True))


def set_up(finger: Finger, shop: EmptyShop) -> None:
    page = finger.page
    finger.press(page.get_by_role("link", name="Set up the shop"))
    who, gauge, machine = (
        page.locator(f"form[data-part={each}]") for each in ("who", "gauge", "machine")
    )
    name = who.locator("[name=person]")
    expect(name).to_be_focused()  # by the page, as soon as it is drawn: that is no press
    finger.type(name, "Ann")
    finger.type(who.locator("[name=pin]"), "2718")
    finger.press(who.locator("[type=submit]"))
    expect(gauge.locator("[data-part=number]")).to_have_text("+0.000 mm")
    shop.shows(1.25)
    expect(gauge.locator("[data-part=number]")).to_have_text("+1.250 mm")
    finger.type(gauge.locator("[name=number]"), "0417")
    finger.type(gauge.locator("[name=travel]"), "12.7 mm")
    finger.type(gauge.locator("[name=max_error]"), "0.004 mm")
    nothing_is_saved_unheard(gauge, shop)
    finger.press(gauge.locator("[type=submit]"))
    put_in_what_was_left_out(finger, shop)
    finger.type(machine.locator("[name=radius]"), "100")
    finger.press(machine.locator("[type=submit]"))
    expect(page).to_have_url(re.compile("/machines/mill/console$"))


def put_in_what_was_left_out(finger: Finger, shop: EmptyShop) -> None:
    """Nobody guesses until when a calibration is good: no machine has the gauge before."""
    change = finger.page.locator("[data-part=change]")
    expect(change).to_contain_text("gauge: its file still lacks what stands below")
    expect(finger.page.locator("form[data-part=machine]")).to_be_hidden()
    finger.type(change.locator("[type=date]"), "03312028")
    finger.press(change.get_by_role("button", name="Put it in"))


def nothing_is_saved_unheard(gauge: Locator, shop: EmptyShop) -> None:
    shop.gauge.garble(b"no number\r")
    expect(gauge.locator("[data-part=number]")).to_have_text("")
    gauge.locator("[type=submit]").click()
    expect(gauge.locator("[data-part=told]")).to_contain_text("no number by this")
    assert list(shop.config.glob("gauges/*")) == []
    shop.shows(0.0)
    expect(gauge.locator("[data-part=number]")).to_have_text("+0.000 mm")


class AtConsole:
    """A person who obeys the console, with the gauge in their hand."""

    def __init__(self, finger: Finger, shop: EmptyShop) -> None:
        self.finger, self.page, self.shop = finger, finger.page, shop

    def at(self, step: str) -> None:
        expect(self.page.locator("[data-part=console]")).to_have_attribute("data-step", step)

    def press(self, kind: str) -> None:
        self.finger.press(self.page.locator(f"[data-action={kind}].primary"))

    def shows(self, number: float) -> None:
        self.shop.shows(number)
        expect(self.page.locator("[data-part=digits]")).to_have_text(f"{number:.3f}")

    def answer(self, what: str) -> None:
        """Fill the box in as it asks: each tick, one of each choice."""
        box = self.page.locator("dialog[open]")
        expect(box).to_be_visible()
        for each in box.locator(what).all():
            self.finger.press(each)
        self.finger.press(box.locator("[data-part=ask-yes]"))

    def first_reading(self) -> None:
        self.press("open")
        self.at("table")
        self.press("readied")
        self.answer("[type=checkbox]")
        self.at("power")
        self.press("warmed")
        self.at("prepare")
        self.press("prepared")
        self.answer("label:has-text('0417')")
        self.at("touch-free")
        self.press("take")
        self.at("touch-push")
        for number in (0.9, 0.0):
            self.shows(number)
        self.press("pushed")
        self.at("as-found")
        self.shows(1.2)
        self.press("take")
        expect(self.page.locator("[data-part=circle]")).to_contain_text("1.200")


def test_from_an_empty_folder_to_the_first_reading(shop, screens: Screens):
    shop.shows(0.0)
    wall = screens.open(f"{shop.site}/own?ticket={ticket(shop.data)}", viewport=WALL)
    expect(wall.locator("[data-part=empty]")).to_contain_text("a machine")
    finger = Finger(screens.phone(f"{shop.site}/"))
    with screens.allowing(r"Failed to load resource.*"):  # while the service begins anew
        paired(finger, wall)
        set_up(finger, shop)
        expect(wall).to_have_url(re.compile("/machines/mill/wall$"))
    wall.goto("about:blank")  # what it draws costs the rest of the way
    AtConsole(finger, shop).first_reading()
    assert finger.taps <= PRESSES, "presses on the screen"
    assert (finger.taps, finger.keys) == (27, 45), "README tells them"
    assert list(load(shop.config).machines) == ["mill"]
