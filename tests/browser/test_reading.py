"""What a tired person can read on the wall and hit on a phone, at every step of an audit."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser import reading
from tests.browser.daemon import Demo
from tests.browser.mill import audit
from tests.browser.person import Finger
from tests.browser.screens import DRESSED, WALL, Screens, part
from tests.web.conftest import FakeHub
from tests.web.scenes import scene

GLOVE_PX = 48
SMALLEST_ON_WALL = 1 / 50
"""Of the screen's height: what only orients, such as where the column stands."""
NOT_ON_WALL = re.compile(r"%|\b[0-9a-f]{8,}\b|residual", re.IGNORECASE)
STEPS = {"idle", "table", "power", "prepare", "touch-free", "touch-push", "as-found"}
STEPS |= {"park", "loosen", "move", "check", "tighten", "final", "clear", "sign", "signed"}
WHY = "Choose why the head is being checked."
FLAWED = """<body style="margin: 0; background: #777">
  <p style="color: #888">faint</p>
  <p style="position: absolute; left: -20px; top: 80px">beyond</p>
  <p style="position: absolute; left: 200px; top: 80px; font: 20px Arial">under</p>
  <p style="position: absolute; left: 205px; top: 90px; font: 20px Arial">over</p>
  <p style="position: absolute; top: 200px; height: 9px; overflow: hidden">cut</p>
  <p style="position: absolute; top: 2000px">below</p>
  <svg style="position: absolute; left: 400px; top: 80px" width="400" height="60">
    <rect x="190" width="20" height="50" fill="#fff"/>
    <text x="200" y="30" text-anchor="middle">too long</text></svg>
  <button style="height: 20px"></button>
  <p style="font-size: 10px">tiny</p>
  <p style="position: absolute; top: 900px; width: 3000px">wide</p>"""
UNCALLED = re.compile("not measured yet|as found|before the move|before tightening")
WORDS = re.compile(r"^\W*(IN|OUT|TOO CLOSE)$")


class Reader:
    """Looks at wall and phone whenever the audit stands at another step."""

    def __init__(self, demo: Demo, wall: Page, phone: Page) -> None:
        self.demo, self.wall, self.phone = demo, wall, phone
        self.seen: set[str] = set()
        self.flaws: list[str] = []
        self._looked_at: set[tuple[str, str | None]] = set()

    def look(self, step: str) -> None:
        self.seen.add(step)
        title = self.phone.locator("[data-part=title]").text_content() or ""
        expect(self.wall.locator("[data-part=title]")).to_have_text(title)
        # For the second they last, "Hold still" and what was taken cover the instruction by design.
        expect(self.wall.locator("[data-kind=settling], [data-kind=taken]")).to_have_count(0)
        for name, page in (("wall", self.wall), ("phone", self.phone)):
            found = [*reading.clipped(page), *reading.in_any_font(page)]
            if reading.measure(page, "beyondRight") > 0:
                found.append("wider than the screen")
            self.flaws += [f"{name} at {step}: {flaw}" for flaw in found]
        self._look_at_wall(step)
        self._look_at_phone(step)

    def follow(self, step: str) -> None:
        """Look once the step is there, whoever pressed, and once at each step of each axis."""
        console = self.demo.console()
        if (about := (step, console["do"].get("axis"))) not in self._looked_at:
            self._looked_at.add(about)
            expect(self.phone.locator("[data-part=title]")).to_have_text(str(console["title"]))
            self.look(step)

    @property
    def pages(self) -> tuple[Page, Page]:
        return self.wall, self.phone

    def _look_at_wall(self, step: str) -> None:
        page = self.wall
        height = WALL["height"]
        found = reading.out_of_view(page)
        if (digit_px := reading.measure(page, "digitHeight")) < 0.073 * height:
            found.append(f"digits only {digit_px} px")
        if (type_px := reading.measure(page, "smallestType")) < height * SMALLEST_ON_WALL:
            found.append(f"type only {type_px} px")
        found += NOT_ON_WALL.findall(page.inner_text("body"))
        for axis in page.locator("[data-part=axes] .axis").all():
            word = axis.locator(".word")
            if not word.count():
                expect(axis).to_contain_text(UNCALLED)
            elif not WORDS.match(word.inner_text().strip()):
                found.append(f"no word: {axis.inner_text()}")
        self.flaws += [f"wall at {step}: {flaw}" for flaw in found]

    def _look_at_phone(self, step: str) -> None:
        low = reading.low_controls(self.phone, GLOVE_PX)
        self.flaws += [f"phone at {step}: {control}" for control in low]


@pytest.fixture(params=DRESSED)
def reader(demo: Demo, browser: Browser, request: pytest.FixtureRequest) -> Iterator[Reader]:
    """Both screens, in each font."""
    screens = Screens(browser, request.param)
    yield Reader(demo, screens.wall(demo.address("wall")), screens.phone(demo.address("console")))
    screens.close()
    assert screens.wrong == []


def test_every_step_can_be_read(demo: Demo, reader: Reader) -> None:
    audit(demo, before=reader.follow)
    reader.follow("signed")
    assert not reader.flaws, "\n".join(reader.flaws)
    assert reader.seen == STEPS
    for page in reader.pages:
        assert re.search(r"\bIN\b", part(page, "verdict"))


def test_trouble_in_long_numbers_can_be_read(demo: Demo, reader: Reader) -> None:
    demo.do("unit")
    expect(reader.wall.locator("[data-part=unit]")).to_have_text("in")
    expect(reader.wall.locator("[data-part=digits]")).to_have_text(re.compile(r"^-0\.01\d{3}$"))
    reader.look("idle")
    person = Finger(reader.phone, demo, demo)
    person.come_to("park")
    person.swing("back")
    person.press()
    assert person.step == "question"
    reader.look("question")
    person.answer("read again")
    person.come_to("move")
    reader.look("move")
    demo.do("turn", axis=person.axis(), amount_mm=2.0)
    for page in reader.pages:
        expect(page.locator("[data-part=togo]")).to_contain_text("Too far")
    reader.look("too far")
    for trouble, sign in (("zero", "message"), ("unplug", "fault")):
        demo.do(trouble)
        for page in reader.pages:
            told = page.locator(f"[data-kind={sign}]")
            # Where the gauge's numbers came late a turn is possible, too: it is asked instead.
            expect(told.or_(page.get_by_text("was the gauge zeroed?")).first).to_be_visible()
        reader.look(trouble)
    assert not reader.flaws, "\n".join(reader.flaws)


def test_the_questions_of_the_console_can_be_read(demo: Demo, reader: Reader) -> None:
    phone = reader.phone
    phone.get_by_role("button", name="Keys and pedal").tap()
    with box_open(phone, "key-box"):
        reader.look("keys")
    Finger(phone, demo, demo).press()
    phone.get_by_role("button", name="Abandon this audit").tap()
    with box_open(phone, "ask"):
        reader.look("abandon")
    assert not reader.flaws, "\n".join(reader.flaws)


@contextmanager
def box_open(page: Page, name: str) -> Iterator[None]:
    box = page.locator(f"[data-part={name}]")
    expect(box).to_be_visible()
    yield
    page.keyboard.press("Escape")
    expect(box).to_be_hidden()


def test_the_card_of_a_machine_at_rest_reads_in_the_order_of_its_choices(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    hub.publish(snapshot=scene("offers"))
    wall, phone = screens.wall(f"{address}/wall"), screens.phone(f"{address}/console")
    for page in (wall, phone):
        assert part(page, "detail") == "Choose what to check."
    lines = phone.locator("[data-part=others] > *")
    read = [re.sub(r"\s+[\d↵]$|\s*Enter$", "", line) for line in lines.all_inner_texts()]
    why, other = read.index(WHY), read.index("Or choose another check.")
    assert why == 0 and read[1] == "Scheduled"
    assert [line.startswith("Check: ") for line in read] == [at > other for at in range(len(read))]
    assert phone.get_by_role("heading", name=WHY).count() == 1
    for page in (wall, phone):
        assert reading.clipped(page) == [] and reading.measure(page, "beyondRight") <= 0


def test_nothing_needs_motion(demo: Demo, screens: Screens) -> None:
    wall = screens.wall(demo.address("wall"), reduced_motion="reduce")
    phone = screens.phone(demo.address("console"), reduced_motion="reduce")
    Finger(phone, demo, demo).come_to("touch-push")
    for page in (wall, phone):
        assert page.evaluate("document.getAnimations().length") == 0
        expect(page.locator("[data-part=alive]")).to_have_text("Live")


def test_the_measures_find_flaws_put_there(browser: Browser) -> None:
    page = browser.new_page(viewport=WALL)
    page.set_content(FLAWED)
    assert sorted(reading.clipped(page)) == [
        "beyond the edge: beyond",
        "cut off: cut",
        "one over the other: under / over",
        "out of its box: too long",
    ]
    assert reading.out_of_view(page) == ["out of view: below"]
    assert "faint" in " ".join(reading.faint(page))
    assert reading.nameless(page) == ["no name: button"]
    assert len(reading.low_controls(page, GLOVE_PX)) == 1
    assert reading.measure(page, "beyondRight") > 0
    assert reading.measure(page, "smallestType") == 10
    page.close()
