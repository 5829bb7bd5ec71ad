"""A whole audit by clicking, from a head half a millimetre out to the signature."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.daemon import HEADSWEEP, Demo
from tests.browser.mill import Mill, Panel, see_number
from tests.browser.person import FIELDS, Finger
from tests.browser.screens import DESKTOP, Screens, part

LIMIT_MM = 0.025 * 200 / 300
"""The practice mill's tolerance on its sweep, as its file has it."""
START_MM = 0.5
MOST_MOVES = 6
ONE_AXIS = ["park", "loosen", "move", "check", "tighten", "check"]
ORDER = ["idle", "table", "power", "prepare", "touch-free", "touch-push", "as-found"]
ORDER += [*ONE_AXIS, *ONE_AXIS, "final", "clear", "sign"]
RING_AND_VISITS_MM = 0.003
"""What the practice mill's ring and contact may hide from a sweep."""


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Demo]:
    """As it is installed."""
    running = Demo(tmp_path, program=(HEADSWEEP,))
    try:
        yield running.start()
    finally:
        running.stop()


def axis_values(page: Page) -> dict[str, tuple[float, str]]:
    """Each axis's value, without the word of its age, and what it is called."""
    return {
        str(axis.get_attribute("data-axis")): (
            float(axis.locator(".reading").inner_text().split()[-1]),
            axis.locator(".word").inner_text().strip(),
        )
        for axis in page.locator("[data-part=axes] .axis").all()
    }


class Watcher:
    """Looks from console to wall at every step."""

    def __init__(self, console: Page, wall: Page, mill: Mill) -> None:
        self.console, self.wall, self.mill = console, wall, mill
        self.steps: list[str] = []
        self.found: dict[str, tuple[float, str]] = {}

    def look(self, step: str) -> None:
        if not self.steps or self.steps[-1] != step:
            self.steps.append(step)
        if step == "park" and not self.found:
            self.found = axis_values(self.console)
        for name in ("title", "detail"):
            said = self.console.locator(f"[data-part={name}]").text_content() or ""
            assert said or name == "detail"
            expect(self.wall.locator(f"[data-part={name}]")).to_have_text(said)
        for screen in (self.console, self.wall):
            see_number(screen, self.mill.face)
        # Where nothing is turned yet there is nothing to stop at.
        expect(self.wall.locator("[data-part=stop]")).to_be_visible(visible=step == "move")
        if step in ("loosen", "move"):
            self.look_at_stop()

    def look_at_stop(self) -> None:
        """The stop-at, and what is left to it, in words and with the right sign."""
        stop_mm, said, shown = self.wall.evaluate(
            "() => ['stop-value', 'togo-say', 'digits'].map(name =>"
            " document.querySelector(`[data-part=${name}]`).textContent)"
        )
        assert stop_mm == part(self.console, "stop-value")
        if said == "There":
            within = re.match(r"stop within ± (\d+\.\d+)", part(self.console, "stop-within"))
            assert within
            assert abs(float(shown) - float(stop_mm)) <= float(within[1]) + 1e-9
            return
        match = re.fullmatch(r"(?:Too far: )?(up|down) (\d+\.\d+)(?: to go)?", said)
        assert match, said
        left_mm = float(match[2]) * (1 if match[1] == "up" else -1)
        assert float(shown) + left_mm == pytest.approx(float(stop_mm), abs=1e-9)


@pytest.mark.parametrize("clicked", ["tighten", pytest.param("signed", marks=pytest.mark.long)])
def test_an_audit_by_clicking(demo: Demo, screens: Screens, clicked: str) -> None:
    """`clicked`: until then the mill is worked on its page, too; from then on without one."""
    console = screens.open(demo.address("console"), viewport=DESKTOP)
    bench = screens.open(demo.address("bench"), viewport=DESKTOP)
    wall = screens.wall(demo.address("wall"), reduced_motion="no-preference")  # as most have it
    mill = Panel(bench, demo)
    watcher = Watcher(console, wall, mill)

    person = Finger(console, mill, demo)
    person.audit(watcher.look, clicked)
    person.mill = demo
    person.audit(watcher.look)

    assert {axis: word for axis, (_, word) in watcher.found.items()} == {
        "side": "OUT",
        "nod": "OUT",
    }
    for value, _ in watcher.found.values():
        assert abs(value) == pytest.approx(START_MM, abs=0.01)
    steps = iter(watcher.steps)
    assert all(step in steps for step in ORDER), watcher.steps  # in this order, some repeated
    moves = watcher.steps.count("move")
    print(f"moves: {moves}")
    assert moves <= MOST_MOVES
    expect(wall.locator("[data-part=title]")).to_have_text(re.compile(r"is signed: in\.$"))
    expect(wall.locator("[data-part=detail]")).to_contain_text(f"{moves} moves")
    expect(wall.locator("[data-part=detail]")).to_contain_text(FIELDS["done_by"])
    left = axis_values(wall)
    assert [word for _, word in left.values()] == ["IN", "IN"]
    expect(bench.locator("[data-part=title]")).to_have_text(re.compile(r"is signed: in\.$"))

    screens.close()
    demo.stop()
    for axis, truth_mm in demo.out_of_square_mm().items():
        assert abs(truth_mm) <= LIMIT_MM + RING_AND_VISITS_MM, axis
        assert truth_mm == pytest.approx(left[axis][0], abs=RING_AND_VISITS_MM)
    verified = demo.verify()
    assert verified.returncode == 0, verified.stdout + verified.stderr
