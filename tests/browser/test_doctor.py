"""The doctor's lines on the setup page: what is to be looked at is seen, the rest is folded up."""

from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from daq.doctor.patient import Patient
from daq.doctor.rounds import Examined, Rounds
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import Screens
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.test_doctor import FOUND
from tests.web.test_setup_page import FakeSetup


def test_they_are_read_on_a_phone_and_looked_at_again(
    screens: Screens, hub: FakeHub, tmp_path: Path
) -> None:
    doctor = Rounds(Patient(tmp_path, tmp_path), dict, hub.rise, None)
    doctor.latest = Examined(1, FOUND)
    with served(hub, FakeInbox(), setup=FakeSetup(), doctor=doctor) as at:
        page = screens.phone(f"{at.partition('/machines/')[0]}/setup")
        card = page.locator("[data-part=doctor]")
        expect(card.locator("[data-part=doctor-amiss]")).to_contain_text("Run headsweep doctor")
        line = card.get_by_text("Disk: fine")
        expect(line).to_be_hidden()
        card.locator("summary").click()
        expect(line).to_be_visible()
        assert reading.measure(page, "beyondRight") <= 0
        assert not [*reading.clipped(page), *reading.in_any_font(page)]
        assert Axe().run(page).response["violations"] == []
        card.get_by_role("button", name="Look again").click()
        expect(card.locator("[data-part=doctor-busy]")).to_be_visible()
        doctor.latest = Examined(2, FOUND[1:])
        doctor._asked.clear()
        expect(card.locator("[data-part=doctor-well]")).to_be_visible()
        expect(card.locator("[data-part=doctor-amiss] li")).to_have_count(0)
        page.goto("about:blank")  # it asks no more before the service ends
