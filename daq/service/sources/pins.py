"""Switches on the Pi's input pins: one that presses, or one for each position of the sweep."""

import importlib
import importlib.util
import os
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Annotated, Any, Final, Literal

from daq.gauges.config import GaugeConfig
from daq.service.sources import SourceError
from daq.service.switchboard import Switchboard
from daq.settings import Range, Seconds
from daq.words import FOUR_POSITIONS, Snapshot

Pin = Annotated[int, Range(0, 27)]

BETWEEN_S: Final = 0.3
"""A second press this soon after letting go is the same finger's."""

PLACES: Final = FOUR_POSITIONS


@dataclass(frozen=True)
class PinOptions:
    """Which pins the switches are on, as the processor numbers them (GPIO 17 is 17).

    `press`: the switch that presses the console's first button. `front`, `right`, `back`,
    `left`: the four that say where the gauge stands and take. A switch closes its pin
    to `closes_to`. Held for `undo_after`, each takes back the last step instead. What
    changes within `bounce` is a contact that bounces.
    """

    press: Pin | None = None
    front: Pin | None = None
    right: Pin | None = None
    back: Pin | None = None
    left: Pin | None = None
    closes_to: Literal["ground", "3.3 V"] = "ground"
    undo_after: Annotated[Seconds, Range(1.0, 10.0)] = 2.0
    bounce: Annotated[Seconds, Range(0.001, 0.2)] = 0.02

    def __post_init__(self) -> None:
        """Refuse no switch, some of the four, and one pin for two.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        four = [name for name in PLACES if getattr(self, name) is not None]
        if four and len(four) < len(PLACES):
            raise ValueError(f"found only {', '.join(four)}; allowed: all of {', '.join(PLACES)}")
        pins = list(self.pins.values())
        if not pins:
            raise ValueError(f"found no switch; allowed: press, or all of {', '.join(PLACES)}")
        twice = {pin for pin in pins if pins.count(pin) > 1}
        if twice:
            raise ValueError(f"found pin {min(twice)} twice; allowed: one switch on a pin")

    @property
    def pins(self) -> dict[str, int]:
        """The pin of each switch there is."""
        every = {name: getattr(self, name) for name in ("press", *PLACES)}
        return {name: pin for name, pin in every.items() if pin is not None}


class Switch:
    """One switch: pressed and let go it acts, held it takes back."""

    def __init__(
        self,
        switchboard: Switchboard,
        act: Callable[[Snapshot], None],
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """Act as `act` does with the state seen when the switch was pressed."""
        self._switchboard = switchboard
        self._act = act
        self._clock = clock
        self._seen: Snapshot | None = None
        self._let_go_s = -BETWEEN_S

    def down(self) -> None:
        """It closed."""
        if self._clock() - self._let_go_s >= BETWEEN_S:
            self._seen = self._switchboard.look()

    def held(self) -> None:
        """It has been closed for the time that takes back."""
        seen, self._seen = self._seen, None
        if seen is not None:
            self._switchboard.undo(seen)

    def up(self) -> None:
        """It opened."""
        seen, self._seen = self._seen, None
        self._let_go_s = self._clock()
        if seen is not None:
            self._act(seen)


class Pins:
    """The switches of one machine, on their pins."""

    def __init__(self, options: PinOptions, switchboard: Switchboard) -> None:
        """Take the pins.

        Raises:
            SourceError: this machine has none, or another program holds them.
        """
        self._buttons: list[Any] = []
        # Where lgpio, if it is what reaches the pins, puts its pipe; else the folder one is in.
        os.environ.setdefault("LG_WD", tempfile.gettempdir())
        try:
            for name, pin in options.pins.items():
                self._buttons.append(_button(options, pin))
                _wire(self._buttons[-1], Switch(switchboard, _act(switchboard, name)))
        except Exception as error:  # each way to reach the pins fails with errors of its own
            self.stop()
            raise SourceError(
                f"the pins cannot be reached: {error or type(error).__name__}; allowed: on a "
                "Raspberry Pi whose user is in the group gpio, with no other program on them"
            ) from error

    def stop(self) -> None:
        """Give the pins back."""
        for button in self._buttons:
            button.close()
        self._buttons.clear()


def _act(switchboard: Switchboard, name: str) -> Callable[[Snapshot], None]:
    for place in PLACES:
        if name == place:
            return partial(switchboard.take, position=place)
    return switchboard.primary


def _button(options: PinOptions, pin: int) -> Any:  # noqa: ANN401 - an optional package without types
    return importlib.import_module("gpiozero").Button(
        pin,
        pull_up=options.closes_to == "ground",
        bounce_time=options.bounce,
        hold_time=options.undo_after,
    )


def _wire(button: Any, switch: Switch) -> None:  # noqa: ANN401 - as above
    button.when_pressed = switch.down
    button.when_held = switch.held
    button.when_released = switch.up


class PinsSource:
    """Found by its module's constant."""

    options = PinOptions
    actor = "pin"

    def check(self, options: PinOptions, gauge: GaugeConfig) -> None:
        """Refuse when the package that reaches the pins is not installed."""
        if importlib.util.find_spec("gpiozero") is None:
            raise ValueError(
                'found "pins", but the package gpiozero is not installed; allowed once it is: '
                f'{sys.executable} -m pip install "gpiozero>=2,<3" lgpio'
            )

    def start(self, options: PinOptions, switchboard: Switchboard) -> Pins:
        """Take the pins and begin to listen."""
        return Pins(options, switchboard)


SOURCE = PinsSource()
