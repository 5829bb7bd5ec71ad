"""The machinist at a console page: what can be seen there and reached from there.

Nothing is known but what stands on the screen and on the gauge's own face.
"""

import math
import re
import time
from collections.abc import Callable, Mapping
from typing import Any, Self

from playwright.sync_api import Page, Response, expect

from daq.virtual import Machinist
from daq.words import Ack, Position
from tests.browser.daemon import Demo
from tests.browser.mill import NUMBER, AtMill, Mill, audit, see_number
from tests.browser.screens import BOUNCE_MS, part

MOST_STEPS = 90
FOCUSED = "document.activeElement.name"
FIELDS: Mapping[str, str] = {
    "done_by": "R. Operator",
    "last_good": "2026-03-31",
    "disposition": "Parts since then are measured again.",
    "reviewed_by": "The foreman",
    "note": "Swept on the ring.",
}


class Person(AtMill):
    """At `page`, a console, and at `mill`; how to press is left to the kinds of person."""

    def __init__(self, page: Page, mill: Mill, demo: Demo) -> None:
        super().__init__(mill)
        self.page = page
        self._demo = demo
        self._machinist = Machinist(self)
        self._before: Callable[[str], None] = lambda step: None

    @property
    def step(self) -> str:
        return str(self.page.locator("[data-part=console]").get_attribute("data-step"))

    @property
    def stop_at(self) -> float:
        return float(part(self.page, "stop-value"))

    def audit(self, before: Callable[[str], None], until: str = "signed") -> None:
        """Do and press one thing after another; `before` sees each step before it is pressed."""
        self._before = before
        self._machinist.work(until, most=MOST_STEPS)
        self._before = lambda step: None

    def come_to(self, step: str) -> Self:
        """Audit as far as that step with no screen, and see it on this one."""
        audit(self._demo, step)
        self.see_step()
        return self

    def wait(self, seconds: float) -> None:
        """From the hands' work to the press: whoever watches looks at the screens."""
        self._before(self.step)

    def obey(self) -> None:
        """Do with the hands what the screen says; nothing while it says to stop."""
        self._machinist.obey(self.look())

    def look(self) -> Mapping[str, Any]:
        """What can be read off the page, in the words of a console."""
        self.page.wait_for_selector("[data-part=say][data-halted=false]")
        step = self.step
        primary = self.page.locator("[data-action].primary").all()
        kinds = [str(button.get_attribute("data-action")) for button in primary]
        return {
            "step": step,
            "title": part(self.page, "title"),
            "detail": part(self.page, "detail"),
            "do": self._do(step),
            "actions": [{"kind": kind, "payload": {}, "primary": True} for kind in kinds],
        }

    def _do(self, step: str) -> Mapping[str, Any]:
        match step:
            case "touch-free":
                return {"kind": "free"}
            case "touch-push":
                return {"kind": "push"}
            case "as-found" | "final" | "park" | "check":
                flick = "Flick the arm" in part(self.page, "notes")
                return {"kind": "swing", "position": self.place(), "flick": flick}
            case "tighten" if bolt := self.bolt():
                return {"kind": "bolt", "axis": self.axis(), "bolt": bolt}
            case "loosen" | "tighten":
                return {"kind": step, "axis": self.axis()}
            case "tap":
                return {"kind": "station", **self.tapped()}
            case "stations":
                return {"kind": "station", **self.station()}
            case "move":
                stop_at = part(self.page, "stop-value")
                return {"kind": "turn", "axis": self.axis(), "stop_at_text": stop_at}
        return {"kind": "nothing"}

    def place(self) -> str:
        """The spot marked as next on the circle."""
        station = self.page.locator("[data-part=circle] [data-state=next]")
        return str(station.get_attribute("data-place"))

    def station(self) -> Mapping[str, Any]:
        """What the instruction has the hands turn or move, and to where."""
        title = part(self.page, "title").replace("\n", " ")
        if turned := re.search(r"to (\d+)°, gauge ([\d.]+) mm below", title):
            to = {"to": float(turned[1]), "at": float(turned[2]), "seat": 1}
            return {"what": "turn-spindle", "to": to}
        along = re.match(r"Contact to ([\d.]+) mm from", title)
        if along:
            return {"what": "move-along-jaw", "to": {"to": float(along[1])}}
        moved = re.match(r"Move the table to ([\d.]+) mm along (X|Y)", title)
        assert moved, title
        return {"what": "move-table", "to": {"axis": moved[2].lower(), "to": float(moved[1])}}

    def tapped(self) -> Mapping[str, Any]:
        """Where the contact is to be, and what it is to read once the end is tapped."""
        at = re.search(r"Contact to ([\d.]+) mm from", part(self.page, "detail"))
        assert at, part(self.page, "detail")
        reads = float(part(self.page, "stop-value"))
        return {"what": "tap-end", "to": {"to": float(at[1]), "reads": reads}}

    def bolt(self) -> str | None:
        """The number of the one bolt named by the instruction, where it names one."""
        named = re.match(r"Pull up .* (\S+), ", part(self.page, "title"))
        return named and named[1]

    def axis(self) -> str:
        """The axis named by the instruction."""
        title = part(self.page, "title")
        named = re.search(r"\b(nod|side)\b", title)
        assert named, title
        return named[1]

    def swing(self, position: Position) -> None:
        super().swing(position)
        self.read()

    def flick(self) -> None:
        super().flick()
        self.read()

    def read(self) -> float:
        """Wait until the screen shows what stands on the gauge, and return it."""
        return see_number(self.page, self.mill.face)

    def press(self, kind: str = "", payload: Mapping[str, Any] | None = None) -> Ack:
        """Press what the step asks for, and wait until the screen shows what came of it."""
        self._carried_out(self.press_primary)
        return Ack("", True, (), "ok")

    def open(self, words: str) -> None:
        """Press the button with these words that opens an audit."""
        self._carried_out(self.page.locator("[data-action=open]", has_text=words).click)

    def answer(self, words: str) -> None:
        """Press the answer with these words."""
        self._carried_out(self.page.locator("[data-action=answer]", has_text=words).click)

    def _carried_out(self, press: Callable[[], object]) -> None:
        with self.page.expect_response(_commanded) as got:
            press()
        assert got.value.ok, got.value.text()
        self.see_step()

    def see_step(self) -> None:
        """Wait until the console shows the step the service stands at."""
        view = self._demo.console()
        self.page.wait_for_function(
            "([step, title]) => document.querySelector('[data-part=console]')"
            '?.matches(`[data-step="${step}"]:not([data-working=true])`)'
            " && document.querySelector('[data-part=title]').textContent === title",
            arg=[view["step"], view["title"]],
        )

    def press_primary(self) -> None:
        raise NotImplementedError


def _commanded(response: Response) -> bool:
    return response.url.endswith("/commands")


class Finger(Person):
    """Presses buttons on the screen."""

    def press_primary(self) -> None:
        step = self.step
        self.page.locator("[data-action].primary").click()
        box = self.page.locator("[data-part=ask]")
        if step in ("table", "prepare", "sign"):
            expect(box).to_be_visible()
        if step == "table":
            for tick in box.get_by_role("checkbox").all():
                tick.check()
            box.locator("[data-part=ask-yes]").click()
        if step == "prepare":
            box.locator(f"label:has([value={NUMBER}])").click()
            box.locator("[data-part=ask-yes]").click()
        if step == "sign":
            asked = {str(field.get_attribute("name")) for field in box.locator("[name]").all()}
            for name in asked & FIELDS.keys():
                box.locator(f"[name={name}]").fill(FIELDS[name])
            box.locator("[data-part=ask-yes]").click()


class Typist(Person):
    """Touches nothing but the keyboard."""

    _pressed_at = -math.inf

    def press_primary(self) -> None:
        step = self.step
        self.lift_foot()
        self.page.keyboard.press("Enter")
        self._pressed_at = time.monotonic()
        if step == "table":
            self._tick()
        if step == "prepare":
            self._pick_number()
        if step == "sign":
            self._fill_in()

    def lift_foot(self) -> None:
        """Press again only when the pedal has come to rest."""
        left_s = self._pressed_at + BOUNCE_MS / 1000 - time.monotonic()
        self.page.wait_for_timeout(1000 * max(0.0, left_s))

    def key(self, key: str) -> None:
        """Press any other key that stands on a button."""
        self._carried_out(lambda: self.page.keyboard.press(key))

    def _tick(self) -> None:
        """The one key of a pedal ticks line after line, and then sends."""
        self.page.wait_for_function("() => document.activeElement.type === 'checkbox'")
        for _ in range(5):
            self.page.keyboard.press("Enter")

    def _pick_number(self) -> None:
        """Down the numbers to the one that stands on the gauge."""
        self.page.wait_for_function(f"() => {FOCUSED} === 'serial_number'")
        for _ in range(3):
            self.page.keyboard.press("ArrowDown")
            if self.page.evaluate("document.activeElement.value") == NUMBER:
                break
        self.page.keyboard.press("Enter")

    def _fill_in(self) -> None:
        """Field by field with Tab, past what could be pressed instead of typing."""
        keys = self.page.keyboard
        self.page.wait_for_selector("dialog[open] [name=done_by]")
        for name, text in FIELDS.items():
            while self.page.evaluate(FOCUSED) != name:
                keys.press("Tab")
            keys.type(text)
        keys.press("Enter")
