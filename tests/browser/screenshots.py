"""Pictures of every step of an audit, as the wall and a phone show it.

    python tests/browser/screenshots.py [FOLDER]

Works a whole audit on the practice mill, with one wrong spot on the way, and saves
wall-STEP.png, console-STEP.png, console-numbers.png and bench.png, and after that what comes
seldom, made at the pure bench, under the scene's name, a run of many audits, and the first page of
a report (needs poppler-utils); without FOLDER, in .screenshots of this project. Run it with the
Python of an environment that has headsweep and its tests.
"""

import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from daq.audit.aim import aim

# Last of all: headsweep itself is the installed one.
sys.path.append(str(Path(__file__).resolve().parents[2]))

from tests.browser.daemon import Demo
from tests.browser.mill import see_number
from tests.browser.person import Finger
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, launch, picture
from tests.report.benches import at_bench, bytes_of, signed
from tests.web.conftest import LIVE, FakeHub, FakeInbox
from tests.web.scenes import Screen, made
from tests.web.test_pictures import Worn

SHOWN = Path(__file__).resolve().parents[2] / ".screenshots"
WRONG = {"front": "back", "right": "left", "back": "front", "left": "right"}
BENCH = {"width": 1440, "height": 900}
HALF_WAY_MM = 0.1
SELDOM = ("loosen-warned", "move-past", "bolt-first", "bolt-over", "closer", "unsafe", "restarted")
SELDOM += ("bumped", "wrong-adjuster", "reversed", "apart", "moved", "final-close", "sign-close")
SELDOM += ("park-doubtful", "park-hopeless", "clear-doubtful")
AUDITS = 60
PAST_MM = 0.014
"""How far past its stop-at the number stands there."""


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
            page.locator("[data-kind=taken]").wait_for(state="detached")
            see_number(page, self._demo.face)
            picture(page, self._folder / f"{name}-{step}.png")

    def numbers(self) -> None:
        """The section of that name, from its head on."""
        head = self._phone.locator("[data-part=numbers-head]")
        head.tap()
        head.evaluate("node => scrollBy(0, node.getBoundingClientRect().top - 130)")
        picture(self._phone, self._folder / "console-numbers.png")
        head.tap()
        self._phone.evaluate("() => scrollTo(0, 0)")


def work(person: Finger, camera: Photographer) -> None:
    """One audit. A step that comes again is photographed again: later readings say more."""
    asked = False
    while (step := person.step) != "signed":
        if step == "park" and not asked:
            asked = True
            person.swing(WRONG[person.place()])
        elif step == "move":
            person.turn(person.axis(), person.stop_at, HALF_WAY_MM)
            camera.take(step)
            person.obey()
        else:
            person.obey()
        if step != "move":
            camera.take(step)
        if step == "clear":
            camera.numbers()
        if step == "question":
            person.answer("read again")
        else:
            person.press()
    camera.take("signed")


def seldom(screens: Screens, folder: Path) -> None:
    """What no simple audit comes to."""
    hub = FakeHub()
    hub.number = LIVE
    with served(hub, FakeInbox()) as address:
        wall = screens.open(f"{address}/wall", viewport=WALL)
        phone = screens.open(f"{address}/console", viewport=PHONE, has_touch=True, is_mobile=True)
        for seq, name in enumerate(SELDOM, 100):
            shown = Screen(made(name))
            stop = aim(shown.state)
            face_mm = stop.stop_face_mm + PAST_MM if stop is not None else LIVE.value_mm
            snapshot = shown.publish(seq)
            hub.publish(shown.reads(face_mm), snapshot)
            for kind, page in (("wall", wall), ("console", phone)):
                page.wait_for_function(
                    "view => document.querySelector('[data-part=title]').textContent === view.title"
                    " && (document.querySelector('.head')?.textContent ?? '') === view.headline",
                    arg=snapshot.pages["console"],
                )
                picture(page, folder / f"{kind}-{name}.png")
        screens.close()


def years(screens: Screens, folder: Path) -> None:
    """What a machine's many audits look like together: one that slowly goes."""
    with served(FakeHub(), FakeInbox(), trends=Worn(AUDITS)) as address:
        for kind, size in (("wall", WALL), ("console", PHONE)):
            page = screens.open(f"{address}/trend", viewport=size)
            picture(page, folder / f"{kind}-trend.png")
        screens.close()


def report(folder: Path) -> None:
    """The first page of a report, as paper has it."""
    bench = signed(at_bench(0.02, -0.03), reviewed_by="R")
    pdf = bytes_of(bench, "pdf", {"T": "A. Technician", "R": "The foreman"})
    command = ["pdftoppm", "-png", "-r", "80", "-singlefile", "-", str(folder / "report")]
    subprocess.run(command, input=pdf, check=True)


def main(folder: Path) -> None:
    """Save all pictures in `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    report(folder)
    with tempfile.TemporaryDirectory() as kept, sync_playwright() as playwright:
        demo = Demo(Path(kept)).start()
        screens = Screens(launch(playwright))
        try:
            wall = screens.wall(demo.address("wall"))
            phone = screens.phone(demo.address("console"))
            work(Finger(phone, demo, demo), Photographer(folder, demo, wall, phone))
            bench = screens.open(demo.address("bench"), viewport=BENCH)
            picture(bench, folder / "bench.png")
            screens.close()
            seldom(screens, folder)
            years(screens, folder)
        finally:
            screens.close()
            demo.stop()
    assert screens.wrong == [], screens.wrong


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SHOWN)
