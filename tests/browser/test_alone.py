"""Every page alone in its window, while an audit goes on: none may lean on what another has."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from daq.virtual import Machinist
from tests.browser.daemon import MACHINE, Demo
from tests.browser.mill import Caller, see_number
from tests.browser.screens import Screens
from tests.web.conftest import FakeHub, FakeInbox, FakePractice
from web.app import create_app
from web.scan import families

OTHER = "second-mill"
"""A machine of the same shop that no practice mill stands behind."""

BOLTS = '[{axis}.tighten]\nbolts = ["1", "2", "3", "4"]\npasses = 1\n'
BEGUN = {"Prepared"}
WALKED = {*BEGUN, "SweepDone", "Moved", "BoltPulled", "Tightened", "CheckDone"}
MOST_PRESSES = 60


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Demo]:
    """A demo of two machines, the practice mill's bolts known by name."""
    running = Demo(tmp_path)
    machines = running.config() / "machines"
    practice = machines / f"{MACHINE}.toml"
    text = practice.read_text(encoding="utf-8")
    other = text.replace('name = "Practice mill"', 'name = "Second mill"')
    (machines / f"{OTHER}.toml").write_text(other, encoding="utf-8")
    bolts = "".join(BOLTS.format(axis=axis) for axis in ("side", "nod"))
    practice.write_text(f"{text}\n{bolts}", encoding="utf-8")
    try:
        yield running.start()
    finally:
        running.stop()


def addresses(demo: Demo, machines: Sequence[str]) -> list[str]:
    """Every page there is in practice, for each of the machines that has one of the kind."""
    app = create_app(FakeHub(), FakeInbox(), FakePractice())
    there = [family for family in families("web.pages") if not family.pairing_only]
    kinds = {family.blueprint.name: family for family in there}
    found = set()
    served = set()
    of_audits = set()
    for rule in app.url_map.iter_rules():
        kind = rule.endpoint.partition(".")[0]
        if kind in kinds:
            if "audit" in rule.arguments:  # on record: nothing goes on there
                of_audits.add(kind)
                continue
            if "picture" in rule.arguments:
                continue
            assert rule.arguments <= {"machine"}, rule
            served.add(kind)
            those = [MACHINE] if kinds[kind].practice_only else machines
            found |= {rule.rule.replace("<machine>", machine) for machine in those}
    assert served | of_audits == set(kinds)
    return [f"http://127.0.0.1:{demo.port}{path}" for path in sorted(found)]


class Watched(Caller):
    """Every page must show what is there before each press."""

    def __init__(self, demo: Demo, pages: Mapping[str, Page]) -> None:
        super().__init__(demo, lambda step: follow(pages, demo))
        self.pages = pages

    def look(self) -> Mapping[str, Any]:
        follow(self.pages, self.demo)
        return super().look()


def follow(pages: Mapping[str, Page], demo: Demo) -> None:
    """Wait until every page shows the number and the step that are now."""
    view = demo.console()
    for address, page in pages.items():
        if page.locator("[data-part=digits]").count():
            see_number(page, demo.face)
        if MACHINE in address and page.locator("[data-part=title]").count():
            expect(page.locator("[data-part=title]")).to_have_text(view["title"])


@pytest.mark.parametrize(
    "walked", [BEGUN, pytest.param(WALKED, marks=pytest.mark.long)], ids=["begun", "walked"]
)
def test_no_page_stumbles_over_an_audit(shop: Demo, browser: Browser, walked: set[str]) -> None:
    # Each page that shows a number draws all the while: those of both machines, in the long run.
    machines = shop.machines() if walked is WALKED else [MACHINE]
    screens = {address: Screens(browser) for address in addresses(shop, machines)}
    pages = {address: screens[address].open(address) for address in screens}
    machinist = Machinist(Watched(shop, pages))
    for _ in range(MOST_PRESSES):
        if {event.type for event in shop.events()} >= walked:
            break
        machinist.step()
    follow(pages, shop)
    assert {event.type for event in shop.events()} >= walked
    shop.do("unplug")
    for page in pages.values():
        for digits in page.locator("[data-part=digits]").all():
            expect(digits).to_have_text("")
    for each in screens.values():
        each.close()
    wrong = [f"{page}: {say}" for page, each in screens.items() for say in sorted(set(each.wrong))]
    assert wrong == []
