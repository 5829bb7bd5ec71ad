"""Pictures of every step of an audit, as the wall and a phone show it.

    python tests/browser/screenshots.py [FOLDER]

Works a whole audit on the practice mill, with one wrong spot on the way, and saves
wall-STEP.png, console-STEP.png and bench.png; without FOLDER, in .screenshots of this
project. Run it with the Python of an environment that has headsweep and its tests.
"""

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

# Last of all: headsweep itself is the installed one.
sys.path.append(str(Path(__file__).resolve().parents[2]))

from tests.browser.daemon import Demo
from tests.browser.person import Finger, see_number
from tests.browser.screens import Screens, launch, picture

SHOWN = Path(__file__).resolve().parents[2] / ".screenshots"
WRONG = {"front": "back", "right": "left", "back": "front", "left": "right"}
BENCH = {"width": 1440, "height": 900}
HALF_WAY_MM = 0.1


class Photographer:
    """Takes every step's picture once the wall shows the same step as the phone."""

    def __init__(self, folder: Path, demo: Demo, wall: Page, phone: Page) -> None:
        self._folder = folder
        self._demo = demo
        self._wall = wall
        self._phone = phone

    def take(self, step: str) -> None:
        self._wall.wait_for_function(
            "title => document.querySelector('[data-part=title]').textContent === title",
            arg=self._phone.locator("[data-part=title]").text_content(),
        )
        for name, page in (("wall", self._wall), ("console", self._phone)):
            see_number(page, self._demo.face())
            picture(page, self._folder / f"{name}-{step}.png")


def work(person: Finger, camera: Photographer) -> None:
    """One audit. A step that comes again is photographed again: later readings say more."""
    asked = False
    while (step := person.step) != "signed":
        if step == "park" and not asked:
            asked = True
            person.swing_to(WRONG[person.place()])
        elif step == "move":
            person.turn_to_stop(HALF_WAY_MM)
            camera.take(step)
            person.obey()
        else:
            person.obey()
        if step != "move":
            camera.take(step)
        if step == "question":
            person.answer("read again")
        else:
            person.press()
    camera.take("signed")


def main(folder: Path) -> None:
    """Save all pictures in `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as kept, sync_playwright() as playwright:
        demo = Demo(Path(kept)).start()
        screens = Screens(launch(playwright))
        try:
            wall = screens.wall(demo.address("wall"))
            phone = screens.phone(demo.address("console"))
            work(Finger(phone, demo, demo), Photographer(folder, demo, wall, phone))
            bench = screens.open(demo.address("bench"), viewport=BENCH)
            picture(bench, folder / "bench.png")
        finally:
            screens.close()
            demo.stop()
    assert screens.wrong == [], screens.wrong


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SHOWN)
