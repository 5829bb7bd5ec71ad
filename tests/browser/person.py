"""A machinist who reads a console page, does what it says, and presses.

Knows nothing but what stands on the screen and on the gauge's own face.
"""

import math
import re
import time
from collections.abc import Callable, Mapping
from typing import Protocol

from playwright.sync_api import Locator, Page, Response

from tests.browser.daemon import Demo
from tests.browser.screens import part

COARSE_MM, FINE_MM = 0.05, 0.004
THERE_MM = 0.003
MOST_TURNS = 120
FLICKER = {"mm": 0.0035, "in": 0.00014}
MOST_STEPS = 90
BOUNCE_S = 0.35
DATE = "03312026"
FOCUSED = "document.activeElement.name"
FIELDS: Mapping[str, str] = {
    "done_by": "R. Operator",
    "last_good": "2026-03-31",
    "disposition": "Parts since then are measured again.",
    "reviewed_by": "The foreman",
    "note": "Swept on the ring.",
}


def see_number(page: Page, face: str) -> float:
    """Wait until a screen shows what stands on the gauge, and return what it shows."""
    number, unit = face.split()
    shown = page.wait_for_function(
        "([face, flicker]) => { const text = document.querySelector('[data-part=digits]')"
        ".textContent; return Math.abs(parseFloat(text) - face) <= flicker && text }",
        arg=[float(number), FLICKER[unit]],
    )
    return float(shown.json_value())


class Mill(Protocol):
    """The hands on a practice mill."""

    def do(self, verb: str, **args: str | float) -> None:
        """Carry out one operation; returns when it is done."""

    def face(self) -> str:
        """What stands on the gauge's own face, with its unit."""


class Panel:
    """The practice mill worked by clicking on a page that shows its buttons."""

    def __init__(self, page: Page, demo: Demo) -> None:
        self._page = page
        self._demo = demo

    def do(self, verb: str, **args: str | float) -> None:
        button = self._button(verb, args)
        if button is not None:
            with self._page.expect_response(_worked) as got:
                button.click()
            assert got.value.ok, got.value.text()

    def face(self) -> str:
        return self._demo.face()

    def _button(self, verb: str, args: Mapping[str, str | float]) -> Locator | None:
        """The button, or None where the mill stands so already."""
        page = self._page
        if verb == "swing":
            place = page.locator(f"[data-part=plan] [data-place={args['position']}]")
            return None if place.get_attribute("aria-pressed") == "true" else place
        found = page.locator(f"[data-part=groups] [data-verb={verb}]")
        if verb in ("set", "free") and not found.count():
            return None
        if verb != "turn":
            return found.filter(has_text=str(args.get("axis", "")))
        low, high = {"side": ("left", "right"), "nod": ("back", "front")}[str(args["axis"])]
        amount_mm = float(args["amount_mm"])
        much = "a touch" if abs(amount_mm) <= FINE_MM else "a lot"
        return found.filter(has_text=f"{high if amount_mm > 0 else low} lower, {much}")


def _worked(response: Response) -> bool:
    return response.request.method == "POST" and response.url.endswith("/practice")


class Person:
    """Reads `page`, a console; works `mill`; how to press is left to the kinds of person."""

    def __init__(self, page: Page, mill: Mill, demo: Demo) -> None:
        self.page = page
        self.mill = mill
        self._demo = demo

    @property
    def step(self) -> str:
        return str(self.page.locator("[data-part=console]").get_attribute("data-step"))

    @property
    def stop_at(self) -> float:
        return float(part(self.page, "stop-value"))

    def audit(self, before: Callable[[str], None], until: str = "signed") -> None:
        """Do and press one thing after another; `before` sees each step before it is pressed."""
        for _ in range(MOST_STEPS):
            if (step := self.step) == until:
                return
            self.obey()
            before(step)
            self.press()
        raise AssertionError(f"no end in sight; now at {self.step}: {part(self.page, 'title')}")

    def obey(self) -> None:
        """Do with the hands what the screen says; nothing while it says to stop."""
        self.page.wait_for_selector("[data-part=say][data-halted=false]")
        match self.step:
            case "touch-free":
                self.mill.do("free")
            case "touch-push":
                self.mill.do("set")
                self.mill.do("push")
            case "as-found" | "final" | "park" | "check":
                self.swing_to(self.place())
            case "tighten" if bolt := self.bolt():
                self.mill.do("bolt", axis=self.axis(), bolt=bolt)
            case "loosen" | "tighten" as verb:
                self.mill.do(verb, axis=self.axis())
            case "move":
                self.turn_to_stop()

    def place(self) -> str:
        """The spot marked as next on the circle."""
        station = self.page.locator("[data-part=circle] [data-state=next]")
        return str(station.get_attribute("data-place"))

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

    def swing_to(self, place: str) -> None:
        self.mill.do("swing", position=place)
        self.mill.do("set")
        self.see_number()

    def see_number(self) -> float:
        """Wait until the screen shows what stands on the gauge, and return it."""
        return see_number(self.page, self.mill.face())

    def turn_to_stop(self, within_mm: float = THERE_MM) -> None:
        """Turn the adjuster until the number stands at the stop-at, first a lot, then a touch."""
        axis = self.axis()
        left_mm = self.stop_at - self.see_number()
        reach_mm = abs(left_mm) / 2
        for _ in range(MOST_TURNS):
            if abs(left_mm) <= within_mm:
                return
            far = abs(left_mm) > reach_mm
            turn_mm = math.copysign(COARSE_MM if far else FINE_MM, left_mm)
            self.mill.do("turn", axis=axis, amount_mm=turn_mm)
            before_mm, left_mm = left_mm, self.stop_at - self.see_number()
            if far:
                reach_mm = abs(before_mm - left_mm)
        raise AssertionError(f"never came to {self.stop_at}")

    def press(self) -> None:
        """Press what the step asks for, and wait until the screen shows what came of it."""
        self._carried_out(self.press_primary)

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
        if step == "sign":
            box = self.page.locator("[data-part=ask]")
            for name, text in FIELDS.items():
                box.locator(f"[name={name}]").fill(text)
            box.locator("[data-part=ask-yes]").click()


class Typist(Person):
    """Touches nothing but the keyboard."""

    _pressed_at = -math.inf

    def press_primary(self) -> None:
        step = self.step
        self.lift_foot()
        self.page.keyboard.press("Enter")
        self._pressed_at = time.monotonic()
        if step == "sign":
            self._fill_in()

    def lift_foot(self) -> None:
        """A pedal bounces: the page takes no second Enter for a while, and shows nothing of it."""
        left_s = self._pressed_at + BOUNCE_S - time.monotonic()
        self.page.wait_for_timeout(1000 * max(0.0, left_s))

    def key(self, key: str) -> None:
        """Press any other key that stands on a button."""
        self._carried_out(lambda: self.page.keyboard.press(key))

    def _fill_in(self) -> None:
        """Field by field with Tab; the date as an American keyboard writes it."""
        keys = self.page.keyboard
        for name, text in FIELDS.items():
            self.page.wait_for_function(f"() => {FOCUSED} === '{name}'")
            keys.type(DATE if name == "last_good" else text)
            # The parts of a date are stops of their own, and so is its calendar.
            while name != "note" and self.page.evaluate(FOCUSED) == name:
                keys.press("Tab")
        keys.press("Enter")
