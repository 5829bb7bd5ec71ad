"""A lesson in a browser, from its choice to the class; and its pages on a phone and on a desk."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from daq.virtual import Machinist
from daq.virtual.hands import FINISH
from daq.virtual.turning import bring_to_stop
from daq.words import Axis
from tests.browser.daemon import Demo
from tests.browser.mill import Caller
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.web.conftest import FakeHub, FakeInbox

PAGES = ("lessons", "class", "practice", "bench")
MOST_BYTES = 90_000
TARGET_PX = 48


class Learner(Caller):
    """Comes to a stop as a hand does, and looks at the panel before each press."""

    def __init__(self, demo: Demo, panel: Page) -> None:
        super().__init__(demo, self.see)
        self.panel = panel

    def turn(self, axis: Axis, reads: float, within_mm: float = 0.0) -> None:
        def by_hand(mm: float) -> None:
            self.mill.do("turn", axis=axis, amount_mm=mm)

        assert bring_to_stop(lambda: reads - self.read(), by_hand, FINISH[axis])

    def see(self, step: str) -> None:
        """What the next act needs stands on the phone without a scroll."""
        turns = self.look()["do"]["kind"] == "turn"
        button = (
            "[data-part=practice-now] button" if turns else "[data-part=plan] [data-place=front]"
        )
        if turns or self.look()["do"]["kind"] == "swing":
            expect(self.panel.locator(button).last).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("until", ["as-found", pytest.param("signed", marks=pytest.mark.long)])
def test_a_lesson_from_its_choice_to_the_class(demo: Demo, screens: Screens, until: str) -> None:
    page = screens.open(demo.address("lessons"), viewport=PHONE)
    panel = screens.open(demo.address("practice"), viewport=PHONE)
    page.get_by_label("Whose run").fill("A. Learner")
    page.get_by_role("button", name="Two-spot check").click()
    expect(page.locator("[data-part=run]")).to_have_attribute("data-state", "open")
    expect(panel.locator("[data-part=practice-aim]")).to_contain_text("read both ends")
    machinist = Machinist(Learner(demo, panel))
    machinist.work("as-found")
    with pytest.raises(AssertionError, match="in the air"):
        demo.press("take", {"position": "front"})
    if until == "signed":
        machinist.work(until)
        signed(page)
    page.goto(demo.address("class"))
    came = "98" if until == "signed" else "under way"
    in_class(page, ["A. Learner", "Two-spot check", came])
    page.get_by_role("button", name="for the next learner").click()
    in_class(page, ["Run 2", "Two-spot check", "under way"])
    assert demo.console()["step"] == "table"
    assert [each.data["reason"] for each in demo.events("AuditOpened")] == ["practice"] * 2


def signed(page: Page) -> None:
    """The page has turned to the score by itself, and tells what went; then the truth."""
    expect(page.locator("[data-part=score]")).to_have_text("Workmanship 98 of 100")
    expect(page.locator("[data-part=lost] li")).to_have_count(1)
    expect(page.locator("[data-part=lost]")).to_contain_text("2 points A take that was refused row")
    page.get_by_role("button", name="Show the truth").click()
    expect(page.locator("[data-part=truth] li")).to_have_count(2)


def in_class(page: Page, latest: list[str]) -> None:
    first = page.locator("[data-part=class] tbody tr").first.locator("th, td")
    expect(first).to_have_text(latest)


@pytest.mark.parametrize(
    "size",
    [
        pytest.param(PHONE, id="phone", marks=pytest.mark.long),
        pytest.param(WALL, id="desk", marks=pytest.mark.long),
    ],
)
def test_the_pages_of_practice_fit_weigh_little_and_break_no_rule(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, size: dict[str, int]
) -> None:
    axe, page = Axe(), screens.open("about:blank", viewport=size, bypass_csp=True)
    found: dict[str, object] = {}
    with served(hub, inbox) as at:
        for name in PAGES:
            page.goto(f"{at}/{name}")
            if name in ("practice", "bench"):
                expect(page.locator("[data-part=plan] button").first).to_be_visible()
            wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            small = page.evaluate(
                "px => [...document.querySelectorAll('main button, main input')]"
                ".filter(each => each.offsetParent && each.offsetHeight < px)"
                ".map(each => each.outerHTML)",
                TARGET_PX,
            )
            broken = [each["id"] for each in axe.run(page).response["violations"]]
            weight = page.evaluate(
                "['resource', 'navigation'].flatMap(kind => performance.getEntriesByType(kind))"
                ".filter(each => !each.name.includes('/api/'))"
                ".reduce((sum, each) => sum + each.decodedBodySize, 0)"
            )
            if wide > 0 or small or broken or weight > MOST_BYTES:
                found[name] = (wide, small, broken, weight)
        screens.close()
    assert found == {}
