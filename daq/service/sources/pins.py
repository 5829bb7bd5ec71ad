"""Switches on the Pi's input pins: one that presses, or one for each position of the sweep."""

import logging
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Annotated, Final

from daq.checks.sweep.slow_turn.way import Marks
from daq.gauges.config import GaugeConfig
from daq.service.inputs import Inputs
from daq.service.switchboard import Switchboard
from daq.service.wiring import ClosesTo, Pin, Turned, Wiring
from daq.settings import Range, Seconds
from daq.words import FOUR_POSITIONS, Passed, Position, Said, Snapshot, said

BETWEEN_NS: Final = 300_000_000
"""A second press this soon after letting go is the same finger's."""

PLACES: Final = FOUR_POSITIONS

JOIN_S: Final = 1.0

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class PinOptions:
    """Which pins the switches are on, as the processor numbers them (GPIO 17 is 17).

    `press`: the switch that presses the console's first button. `front`, `right`, `back`,
    `left`: the four that say where the gauge stands and take. With `passed` these close by
    themselves as the arm goes by, and `mark` does so at the front alone: they take nothing and tell
    a slow turn where the arm is. A switch closes its pin to `closes_to`. Held for `undo_after`,
    each other takes back the last step instead. What changes within `bounce` is a contact that
    bounces. `chip`: the path or the name of the chip that the pins are on, where it is not the
    Pi's own.
    """

    press: Pin | None = None
    front: Pin | None = None
    right: Pin | None = None
    back: Pin | None = None
    left: Pin | None = None
    passed: bool = False
    mark: Pin | None = None
    closes_to: ClosesTo = "ground"
    undo_after: Annotated[Seconds, Range(1.0, 10.0)] = 2.0
    bounce: Annotated[Seconds, Range(0.001, 0.2)] = 0.02
    chip: str = ""

    def __post_init__(self) -> None:
        """Refuse no switch, some of the four, and one pin for two.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        four = [name for name in PLACES if getattr(self, name) is not None]
        if four and len(four) < len(PLACES):
            raise ValueError(f"found only {', '.join(four)}; allowed: all of {', '.join(PLACES)}")
        if self.passed and not four:
            raise ValueError(f"found passed without {', '.join(PLACES)}; allowed: with these alone")
        if self.mark is not None and four:
            raise ValueError(f"found mark beside {', '.join(four)}; allowed: mark, or the four")
        pins = list(self.pins.values())
        if not pins:
            raise ValueError(
                f"found no switch; allowed: press, mark, or all of {', '.join(PLACES)}"
            )
        twice = {pin for pin in pins if pins.count(pin) > 1}
        if twice:
            raise ValueError(f"found pin {min(twice)} twice; allowed: one switch on a pin")

    @property
    def pins(self) -> dict[str, int]:
        """The pin of each switch there is."""
        every = {name: getattr(self, name) for name in ("press", "mark", *PLACES)}
        return {name: pin for name, pin in every.items() if pin is not None}

    @property
    def marks(self) -> Marks:
        """What the switches that the arm passes tell."""
        return "four" if self.mark is None else "mark"

    @property
    def by_the_arm(self) -> dict[int, Position]:
        """The place of each pin whose switch the arm itself closes."""
        if self.mark is not None:
            return {self.mark: PLACES[0]}
        pins = self.pins
        return {pins[place]: place for place in PLACES} if self.passed else {}


class Switch:
    """One switch: pressed and let go it acts, held it takes back. It knows no clock."""

    def __init__(
        self, switchboard: Switchboard, act: Callable[[Snapshot, int], None], undo_after_s: float
    ) -> None:
        """Act as `act` does with the state seen when it closed, and when it opened."""
        self._switchboard = switchboard
        self._act = act
        self._hold_ns = round(undo_after_s * 1e9)
        self._let_go_ns = -BETWEEN_NS
        self._pressed: tuple[Snapshot, int] | None = None

    @property
    def due_ns(self) -> int | None:
        """When it will have been held for the time that takes back."""
        return None if self._pressed is None else self._pressed[1] + self._hold_ns

    def turned(self, closed: bool, at_ns: int) -> None:
        """It closed or opened, `at_ns`."""
        if closed:
            if at_ns - self._let_go_ns >= BETWEEN_NS:
                self._pressed = (self._switchboard.look(), at_ns)
            return
        self.look(at_ns)
        pressed, self._pressed = self._pressed, None
        self._let_go_ns = at_ns
        if pressed is not None:
            self._act(pressed[0], at_ns)

    def look(self, now_ns: int) -> None:
        """Take back, if it has been held for so long."""
        if self._pressed is not None and now_ns >= self._pressed[1] + self._hold_ns:
            (seen, _), self._pressed = self._pressed, None
            self._switchboard.undo(seen)

    def forget(self) -> None:
        """Nobody knows what it does meanwhile: a press begun is none."""
        self._pressed = None


class Pins:
    """The switches of one machine, on their pins."""

    def __init__(self, options: PinOptions, switchboard: Switchboard) -> None:
        """Begin to listen, as soon as the pins can be reached."""
        self._switchboard = switchboard
        self._why: Said | None = None
        self._marks, self._by_the_arm = options.marks, options.by_the_arm
        self._switches = {
            pin: Switch(switchboard, _act(switchboard, name), options.undo_after)
            for name, pin in options.pins.items()
            if pin not in self._by_the_arm
        }
        pins = dict.fromkeys(options.pins.values(), options.closes_to)
        self._inputs = Inputs(Wiring(pins, options.chip, options.bounce), self, "headsweep")
        self.turns = self._inputs.turns
        name = f"pins-{switchboard.machine}"
        self._thread = threading.Thread(target=self._inputs.run, name=name, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Give the pins back."""
        self._inputs.end()
        self._thread.join(JOIN_S)
        if not self._thread.is_alive():
            self._inputs.close()

    @property
    def due_ns(self) -> int | None:
        """When the first of them will have been held long enough to take back."""
        due = [each.due_ns for each in self._switches.values()]
        return min((each for each in due if each is not None), default=None)

    def reached(self, closed: Mapping[int, bool], now_ns: int) -> None:
        """They are heard; one that is closed already is no press."""
        self._tell(None)

    def unreached(self, why: Said) -> None:
        """None of them is heard."""
        for switch in self._switches.values():
            switch.forget()
        self._tell(why)

    def turned(self, turned: Turned) -> None:
        """One of them closed or opened."""
        place = self._by_the_arm.get(turned.pin)
        if place is None:
            self._switches[turned.pin].turned(turned.closed, turned.at_ns)
        else:
            passed = Passed(place, turned.closed, turned.at_ns)
            self._switchboard.passed(passed, self._marks)

    def look(self, now_ns: int) -> None:
        """Time has passed."""
        for switch in self._switches.values():
            switch.look(now_ns)

    def _tell(self, why: Said | None) -> None:
        if why == self._why:
            return
        self._why = why
        self._switchboard.amiss(None if why is None else said("switches-not-heard", why=why))
        if why is not None:
            _log.warning("the switches of %s are not heard: %s", self._switchboard.machine, why)


def _act(switchboard: Switchboard, name: str) -> Callable[[Snapshot, int], None]:
    for place in PLACES:
        if name == place:
            return partial(switchboard.take, position=place)
    return switchboard.primary


class PinsSource:
    """Found by its module's constant."""

    options = PinOptions
    actor = "pin"

    def check(self, options: PinOptions, gauge: GaugeConfig) -> None:
        """Any gauge will do that sends by itself, or none that the arm is to pass a switch with.

        Raises:
            ValueError: as it is found.
        """
        if options.by_the_arm and gauge.talk.mode != "streams":
            raise ValueError(
                f"found switches that the arm passes with a gauge of mode "
                f"{gauge.talk.mode!r}; allowed: one that streams"
            )

    def start(self, options: PinOptions, switchboard: Switchboard) -> Pins:
        """Begin to listen."""
        return Pins(options, switchboard)


SOURCE = PinsSource()
