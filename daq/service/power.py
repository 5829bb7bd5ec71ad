"""When the Pi is to power off: by a button that is held, or once the mains has been gone for long.

The supply's store empties while the mains is gone and fills as fast while it is back. So one
number stands for it: a short gap is nothing, a supply that flaps half of the time never ends the
Pi, and one that is hardly ever back does.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from daq.service.wiring import ClosesTo, Pin, Turned, Wiring
from daq.settings import Range, Seconds
from daq.words import Said, said

HELD_NS: Final = 1_000_000_000
"""A button held for less was leant on."""


@dataclass(frozen=True)
class PowerOptions:
    """`[power]` in shop.toml: the pins, as the processor numbers them (GPIO 3 is 3).

    `button`: closes to ground, and is held for a second. `mains_gone`: the supply's signal;
    `mains_gone_is`: what it joins the pin to once the mains is gone, "open" for nothing, as its
    contact to ground opens then. Gone for `after` all told, the Pi powers off. `chip`: the path or
    the name of the chip that the pins are on, where it is not the Pi's own.

    Raises:
        ValueError: one pin stands for both.
    """

    button: Pin | None = None
    mains_gone: Pin | None = None
    mains_gone_is: Literal["open", "ground", "3.3 V"] = "open"
    after: Annotated[Seconds, Range(1.0, 600.0)] = 5.0
    chip: str = ""

    def __post_init__(self) -> None:
        """Refuse one pin for both."""
        if self.button is not None and self.button == self.mains_gone:
            raise ValueError(f"found pin {self.button} twice; allowed: a pin for each")

    @property
    def wiring(self) -> Wiring | None:
        """The pins that there are; None: there is nothing to watch."""
        pins: dict[int, ClosesTo] = {}
        if self.button is not None:
            pins[self.button] = "ground"
        if self.mains_gone is not None:
            pins[self.mains_gone] = "3.3 V" if self.mains_gone_is == "3.3 V" else "ground"
        return Wiring(pins, self.chip) if pins else None

    def gone(self, closed: bool) -> bool:
        """Whether the mains is gone, by whether the signal is closed."""
        return closed != (self.mains_gone_is == "open")


class Power:
    """Decides; it knows no clock. Once it has powered off it does nothing more.

    A signal that says from the first that the mains is gone is told and not acted on before it
    was seen to change: else one that is stuck, or not plugged in, ends the Pi at each start.
    """

    def __init__(
        self,
        options: PowerOptions,
        off: Callable[[], bool],
        tell: Callable[[Said | None, int | None], None],
    ) -> None:
        """Do nothing before the pins are reached.

        `off` powers off, and says whether that is begun. `tell` is told what there is to say, if
        anything, and when the Pi powers off unless the mains comes back, if it is to.
        """
        self._options = options
        self._off = off
        self._tell = tell
        self._after_ns = round(options.after * 1e9)
        self._told: tuple[Said | None, int | None] = (None, None)
        self._pressed_ns: int | None = None
        self._seen_on = False
        self._gone = False
        self._empty_ns = 0
        """For how long the mains was gone, less for how long it was back."""
        self._at_ns = 0
        self._done = False

    @property
    def _off_ns(self) -> int | None:
        """When the mains will have been gone for long enough."""
        return self._at_ns + self._after_ns - self._empty_ns if self._gone else None

    @property
    def due_ns(self) -> int | None:
        """When it powers off unless something changes; None: it does not."""
        held = None if self._pressed_ns is None else self._pressed_ns + HELD_NS
        due = [each for each in (held, self._off_ns) if each is not None]
        return None if self._done else min(due, default=None)

    def reached(self, closed: Mapping[int, bool], now_ns: int) -> None:
        """The pins are held. A button that is closed already is not being pressed."""
        self._pressed_ns, self._empty_ns, self._at_ns = None, 0, now_ns
        self._say(None)
        if self._options.mains_gone is not None:
            self._hear(self._options.gone(closed[self._options.mains_gone]))
            if not self._seen_on:
                self._say(said("mains-gone-from-first"))

    def unreached(self, why: Said) -> None:
        """Nobody knows what button and supply say: that is told, and nothing else done."""
        self._pressed_ns, self._gone, self._empty_ns = None, False, 0
        self._say(said("power-not-watched", why=why))

    def turned(self, turned: Turned) -> None:
        """The button or the supply's signal changed."""
        self.look(turned.at_ns)
        if turned.pin == self._options.button:
            self._pressed_ns = turned.at_ns if turned.closed else None
        else:
            self._hear(self._options.gone(turned.closed))

    def look(self, now_ns: int) -> None:
        """Count up to now, and power off where it is time."""
        passed_ns = max(now_ns - self._at_ns, 0)
        self._at_ns += passed_ns
        self._empty_ns = max(self._empty_ns + (passed_ns if self._gone else -passed_ns), 0)
        if self._done:
            return
        if self._pressed_ns is not None and now_ns - self._pressed_ns >= HELD_NS:
            self._power_off(said("off-by-button"))
        elif self._gone and self._empty_ns >= self._after_ns:
            self._power_off(said("off-by-mains", seconds=round(self._after_ns / 1e9)))

    def _hear(self, gone: bool) -> None:
        self._seen_on |= not gone
        self._gone = gone and self._seen_on
        if self._seen_on:
            self._say(said("mains-gone") if gone else None)

    def _power_off(self, why: Said) -> None:
        self._pressed_ns, self._empty_ns = None, 0
        self._told = why, self._at_ns
        self._tell(*self._told)
        self._done = self._off()
        self._say(said("mains-gone") if self._gone else None)

    def _say(self, what: Said | None) -> None:
        """Told where it is another, or where it counts to another end; not once it is over."""
        told = what, self._off_ns
        if told != self._told and not self._done:
            self._told = told
            self._tell(*told)
