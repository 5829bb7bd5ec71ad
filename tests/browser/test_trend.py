"""What verdicts were worth, as the wall's screen and a phone show it."""

import pytest

from daq.audit.state import MachineState, Shop
from daq.audit.stated import NONE, WHY, Count, Reliability
from daq.service.trends import Trends
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.service.conftest import HandClock
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import MACHINE

FULL = Reliability((*NONE[:3], Count(21, 20, 19), Count(4400, 4400, 4398)), dict.fromkeys(WHY, 88))


@pytest.mark.parametrize("size", [WALL, PHONE], ids=["wall", "phone"])
def test_every_count_and_its_words_fit_beside_each_other(screens: Screens, size, tmp_path) -> None:
    shop = Shop({MACHINE: MachineState(MACHINE, reliability=FULL)})
    trends = Trends({}, shop, HandClock(), tmp_path)
    with served(FakeHub(), FakeInbox(), trends=trends) as at:
        page = screens.open(f"{at}/trend", viewport=size)
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
        over = "nodes => nodes.filter(n => n.scrollWidth > n.clientWidth).map(n => n.textContent)"
        assert page.locator("th, td, p, li, dd").evaluate_all(over) == []
        assert page.locator("tbody tr").count() == 2 * len(NONE)
        screens.close()
