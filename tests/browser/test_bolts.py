"""A whole audit whose bolts are pulled up one by one, each watched."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.daemon import MACHINE, Demo
from tests.browser.mill import audit
from tests.browser.person import Finger
from tests.browser.screens import Screens, part
from tests.words import en

BOLTS = {
    axis: tuple(f"{axis} bolt {number}" for number in (1, 2, 3, 4)) for axis in ("side", "nod")
}
PASSES = 2
LIMIT = "0.001 mm"
"""Small enough that the practice mill's first bolts go over it."""


@pytest.fixture
def bolted(tmp_path: Path) -> Iterator[Demo]:
    """A demo whose machine's file names its bolts."""
    running = Demo(tmp_path)
    config = running.config()
    machine = config / "machines" / f"{MACHINE}.toml"
    with machine.open("a", encoding="utf-8") as out:
        for axis, bolts in BOLTS.items():
            out.write(f"[{axis}.tighten]\nbolts = {list(bolts)}\n")
            out.write(f'passes = {PASSES}\nlimit = "{LIMIT}"\n')
    try:
        yield running.start()
    finally:
        running.stop()


class Watcher:
    """Looks at both screens before every press."""

    def __init__(self, demo: Demo, wall: Page, phone: Page) -> None:
        self.demo, self.wall, self.phone = demo, wall, phone
        self.titles: list[str] = []
        self.moved: list[str] = []

    def look(self, step: str) -> None:
        told = self.demo.console()
        for page in (self.wall, self.phone):
            expect(page.locator("[data-part=title]")).to_have_text(str(told["title"]))
        for page in (self.wall, self.phone):
            shift = page.locator("[data-part=shift]")
            expect(shift).to_be_visible(visible=told["bolts"] is not None)
            if told["bolts"] is not None:
                expect(page.locator("[data-part=shift-now]")).to_have_text(
                    re.compile(r"^Moved [+-]?0\.\d{3}, allowed 0\.001$")
                )
        if step == "tighten":
            self.titles.append(str(told["title"]))
            if told["bolts"] is not None:
                self.moved.append(part(self.wall, "shift-now"))


@pytest.mark.parametrize("until", ["check", pytest.param("signed", marks=pytest.mark.long)])
def test_an_audit_with_bolts(bolted: Demo, screens: Screens, until: str) -> None:
    audit(bolted, "tighten")
    wall, phone = screens.wall(bolted.address("wall")), screens.phone(bolted.address("console"))
    watcher = Watcher(bolted, wall, phone)

    audit(bolted, until, before=watcher.look)

    pulled = bolted.events("BoltPulled")
    rounds = len(pulled) // (PASSES * len(BOLTS["nod"]))
    assert rounds >= (2 if until == "signed" else 1)
    assert len(watcher.titles) == len(pulled) == rounds * PASSES * len(BOLTS["nod"])
    # While nobody saw the gauge, a bolt may have moved it: then the first step is what counts.
    assert len(watcher.moved) == len(watcher.titles) or bolted.events("GaugeBack")
    for title, event in zip(watcher.titles, pulled, strict=True):
        assert title.startswith(f"Pull up {event.data['bolt']}, ")
    for first in range(0, len(pulled), PASSES * 4):
        group = pulled[first : first + PASSES * 4]
        assert [event.data["bolt"] for event in group] == list(
            BOLTS[group[0].data["axis"]]
        ) * PASSES
    if until == "signed":
        said = [en(event.data["said"]) for event in pulled if event.data["over"]]
        assert said, "no bolt moved the head too far: the limit is too wide for this test"
        expect(wall.locator("[data-part=title]")).to_have_text(re.compile(r"is signed"))
    screens.close()
    bolted.stop()
    verified = bolted.verify()
    assert verified.returncode == 0, verified.stdout + verified.stderr


def test_a_bolt_that_moves_the_head_is_told_on_every_screen(bolted: Demo, screens: Screens) -> None:
    audit(bolted, "tighten")
    wall, phone = screens.wall(bolted.address("wall")), screens.phone(bolted.address("console"))
    person = Finger(phone, bolted, bolted)
    while not any(event.data["over"] for event in bolted.events("BoltPulled")):
        assert person.step != "signed", "no bolt moved the head too far in a whole audit"
        person.obey()
        person.press()
    event = bolted.events("BoltPulled")[-1]
    for page in (wall, phone):
        box = page.locator("[data-kind=message]")
        expect(box.locator(".head")).to_have_text("That bolt moved the head.")
        expect(box).to_contain_text(en(event.data["said"]))
    assert str(event.data["bolt"]) in en(event.data["said"]).lower()
