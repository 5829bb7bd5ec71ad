"""Hands on the practice mill that a page shows or a daemon has, and the number they turn by."""

import datetime
import math
from collections.abc import Callable, Mapping
from typing import Any, Protocol

from playwright.sync_api import Locator, Page, Response

from daq.metrology.flicks import FLICKS
from daq.virtual import Machinist, Workplace
from daq.words import Ack, Axis, Position
from tests.browser.daemon import Demo
from tests.patience import until

COARSE_MM, FINE_MM = 0.05, 0.004
THERE_MM = 0.003
NUMBER = "P-0417"
MOST_TURNS = 120
FLICKER = {"mm": 0.0035, "in": 0.00014}


def see_number(page: Page, face: Callable[[], str]) -> float:
    """Wait until a screen shows what stands on the gauge, and return what it shows.

    The gauge is looked at anew each time: a head goes back once the hand has left it.
    """

    digits = page.locator("[data-part=digits]")

    def look() -> tuple[float, ...]:
        number, unit = face().split()
        shown = float(digits.evaluate("node => parseFloat(node.textContent)"))
        return (shown,) if abs(shown - float(number)) <= FLICKER[unit] else ()

    return until(look, lambda: f"{page.url} shows something else than {face()}")[0]


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
        boxes = ":is([data-part=groups], [data-part=practice-now])"
        found = page.locator(f"{boxes} [data-verb={verb}]")
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


class AtMill(Workplace):
    """Hands on a practice mill; they turn by what `read` sees, first a lot, then a touch."""

    def __init__(self, mill: Mill) -> None:
        self.mill = mill

    def today(self) -> datetime.date:
        return datetime.datetime.now(tz=datetime.UTC).date()

    def number(self) -> str:
        return NUMBER

    def lift(self) -> None:
        self.mill.do("free")

    def push(self) -> None:
        self.mill.do("free")
        self.mill.do("push")

    def swing(self, position: Position) -> None:
        self.mill.do("swing", position=position)
        self.mill.do("set")

    def flick(self) -> None:
        for _ in range(FLICKS):
            self.mill.do("flick")

    def come(self, station: Mapping[str, Any]) -> None:
        to = station["to"]
        if station["what"] == "turn-spindle":
            self.mill.do("spindle", to=to["to"], at=to["at"], seat=to["seat"])
        elif station["what"] == "move-table":
            self.mill.do("table", axis=to["axis"], to=to["to"])
        else:
            self.mill.do("jaw", to=to["to"])
            if station["what"] == "tap-end":
                self.tap(to["reads"])

    def tap(self, reads: float) -> None:
        for _ in range(MOST_TURNS):
            over_mm = self.read() - reads
            if abs(over_mm) <= THERE_MM:
                return
            self.mill.do("tap", away_mm=over_mm)
        raise AssertionError(f"never came to {reads}")

    def turn_round(self, what: str) -> None:
        self.mill.do("free")
        self.mill.do(what)
        self.mill.do("set")

    def crack(self, axis: Axis) -> None:
        self.mill.do("loosen", axis=axis)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        self.mill.do("turn", axis=axis, amount_mm=-COARSE_MM if back else COARSE_MM)

    def pull(self, axis: Axis, bolt: str = "") -> None:
        if bolt:
            # A shop may call it "nod bolt 1"; on the mill it has its number.
            self.mill.do("bolt", axis=axis, bolt=bolt.rpartition(" ")[2])
        else:
            self.mill.do("tighten", axis=axis)

    def turn(self, axis: Axis, reads: float, within_mm: float = THERE_MM) -> None:
        left_mm = reads - self.read()
        reach_mm = abs(left_mm) / 2
        for _ in range(MOST_TURNS):
            if abs(left_mm) <= within_mm:
                return
            far = abs(left_mm) > reach_mm
            turn_mm = math.copysign(COARSE_MM if far else FINE_MM, left_mm)
            self.mill.do("turn", axis=axis, amount_mm=turn_mm)
            before_mm, left_mm = left_mm, reads - self.read()
            if far:
                reach_mm = abs(before_mm - left_mm)
        raise AssertionError(f"never came to {reads}")


class Caller(AtMill):
    """At a demo without a screen; `before` sees each step before it is pressed."""

    def __init__(self, demo: Demo, before: Callable[[str], None] = lambda step: None) -> None:
        super().__init__(demo)
        self.demo = demo
        self._before = before

    def look(self) -> Mapping[str, Any]:
        return self.demo.console()

    def press(self, kind: str, payload: Mapping[str, Any]) -> Ack:
        self.demo.press(kind, payload)
        return Ack("", True, (), "ok")

    def wait(self, seconds: float) -> None:
        """From the hands' work to the press: whoever watches looks at the screens."""
        self._before(str(self.look()["step"]))

    def read(self) -> float:
        return float(self.demo.face().split()[0])

    def flick(self) -> None:
        """Not flicked: a step is come to sooner, by the file's figure."""


def audit(
    demo: Demo, until: str = "signed", before: Callable[[str], None] = lambda step: None
) -> None:
    """Audit as far as that step, as a screen would have it, but without one."""
    Machinist(Caller(demo, before)).work(until)
