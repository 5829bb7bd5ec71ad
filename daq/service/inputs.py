"""Switches on input pins: where the pins are, what closes and opens, and why none can be reached.

Here alone the kernel's chips of pins are opened (gpiod). What a switch is for, others know.
"""

import errno
import os
import select
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import Final, Protocol

import gpiod
from gpiod.line import Bias, Clock, Direction, Edge, Value

from daq.service.turns import WAIT_S, Turns
from daq.service.wiring import Turned, Wiring
from daq.words import Said, SaidTrouble, said

DEV: Final = Path("/dev")
HEADER: Final = ("pinctrl-rp1", "pinctrl-bcm2711", "pinctrl-bcm2835")
"""What the kernel calls the chip of a Pi's header; its number differs from kernel to kernel."""
FIRST: Final = "gpiochip0"
"""The chip taken where none bears such a name."""

AGAIN_S: Final = 1.0
"""Pins that cannot be reached are tried again so often."""

_GONE: Final = (errno.ENODEV, errno.ENXIO, errno.ENOENT)


class PinsError(SaidTrouble):
    """The pins cannot be reached; `said` tells why, as the end of a sentence."""


class HeldPins:
    """The pins of one wiring, held as long as this is open."""

    def __init__(self, wiring: Wiring, consumer: str) -> None:
        """Take them in the name of `consumer`.

        Raises:
            PinsError: there is no such chip or pin, or this program may not have it.
        """
        path = _chip(wiring.chip)
        config: dict[Iterable[int | str] | int | str, gpiod.LineSettings | None] = {
            pin: gpiod.LineSettings(
                direction=Direction.INPUT,
                edge_detection=Edge.BOTH,
                bias=Bias.PULL_UP if closes_to == "ground" else Bias.PULL_DOWN,
                active_low=closes_to == "ground",
                debounce_period=timedelta(seconds=wiring.bounce_s),
                event_clock=Clock.MONOTONIC,
            )
            for pin, closes_to in wiring.pins.items()
        }
        self._path = path
        with _said_of(path), gpiod.Chip(path) as chip:
            if (most := max(wiring.pins)) >= chip.get_info().num_lines:
                raise PinsError(said("pins-no-such", chip=path, pin=most))
            try:
                self._request = chip.request_lines(config, consumer)
            except OSError as error:
                infos = (chip.get_line_info(pin) for pin in wiring.pins)
                used = next((info for info in infos if info.used), None)
                if error.errno != errno.EBUSY or used is None:
                    raise
                by = used.consumer or "none"
                raise PinsError(said("pins-held", pin=used.offset, by=by)) from None

    def __enter__(self) -> "HeldPins":
        """Hold them."""
        return self

    def __exit__(self, *_: object) -> None:
        """Give them back."""
        self._request.release()

    @property
    def fd(self) -> int:
        """Readable once something turned, or once the chip has gone."""
        return self._request.fd

    def closed(self) -> dict[int, bool]:
        """Which switches are closed now.

        Raises:
            PinsError: the chip has gone.
        """
        with _said_of(self._path):
            values = self._request.get_values()
        pairs = zip(self._request.offsets, values, strict=True)
        return {pin: value is Value.ACTIVE for pin, value in pairs}

    def turned(self) -> list[Turned]:
        """What turned, in order; to be asked once `fd` is readable.

        Raises:
            PinsError: the chip has gone.
        """
        rising = gpiod.EdgeEvent.Type.RISING_EDGE
        with _said_of(self._path):
            events = self._request.read_edge_events()
        return [Turned(e.line_offset, e.event_type is rising, e.timestamp_ns) for e in events]


def _chip(named: str) -> str:
    """The path of the chip, by its path or its name; the Pi's header's where none is named."""
    if named.startswith("/"):
        return named
    found: dict[str, str] = {}
    forbidden: PinsError | None = None
    for path in sorted(str(each) for each in DEV.glob("gpiochip*")):
        try:
            with _said_of(path), gpiod.Chip(path) as chip:
                found.setdefault(chip.get_info().label, path)
        except PinsError as error:
            forbidden = error
    for name in (named,) if named else HEADER:
        if name in found:
            return found[name]
    if forbidden is not None:
        raise forbidden
    if named or not found:
        raise PinsError(said("pins-no-chip", chip=named or "none"))
    return str(DEV / FIRST)


@contextmanager
def _said_of(path: str) -> Iterator[None]:
    """What the kernel says of a chip, as a sentence."""
    try:
        yield
    except PermissionError:
        raise PinsError(said("pins-not-allowed", chip=path)) from None
    except OSError as error:
        if error.errno in _GONE:
            raise PinsError(said("pins-no-chip", chip=path)) from None
        why = os.strerror(error.errno) if error.errno else type(error).__name__
        raise PinsError(said("pins-failed", chip=path, why=why)) from None


class Listener(Protocol):
    """Who is told what the switches do, on the thread that runs the `Inputs`."""

    @property
    def due_ns(self) -> int | None:
        """When it is to be asked to look at the latest, though nothing turns."""

    def reached(self, closed: Mapping[int, bool], now_ns: int) -> None:
        """The pins are held, from now on; which switches are closed already."""

    def unreached(self, why: Said) -> None:
        """The pins cannot be reached, or not any more; said at each try."""

    def turned(self, turned: Turned) -> None:
        """A switch closed or opened."""

    def look(self, now_ns: int) -> None:
        """Time has passed."""


class Inputs:
    """Follows the switches of a wiring; pins that went away are taken anew once they are back."""

    def __init__(
        self,
        wiring: Wiring,
        listener: Listener,
        consumer: str,
        mono_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """Nothing is opened before `run`."""
        self._wiring = wiring
        self._listener = listener
        self._consumer = consumer
        self._mono_ns = mono_ns
        self._ending = False
        self._wake = os.eventfd(0, os.EFD_NONBLOCK | os.EFD_CLOEXEC)
        self.turns = Turns(mono_ns)

    def run(self) -> None:
        """Follow them until it is told to end."""
        while not self._ending:
            try:
                with HeldPins(self._wiring, self._consumer) as lines:
                    self._listener.reached(lines.closed(), self._mono_ns())
                    while not self._ending:
                        self._turn(lines)
            except PinsError as error:
                self._listener.unreached(error.said)
                self._pause()
        self.turns.rest()

    def end(self) -> None:
        """Have `run` return; any thread may, and a signal handler."""
        self._ending = True
        os.eventfd_write(self._wake, 1)

    def close(self) -> None:
        """Let go of what it is told to end by; to be called once `run` has returned."""
        os.close(self._wake)

    def _turn(self, lines: HeldPins) -> None:
        due_ns = self._listener.due_ns
        left_s = WAIT_S if due_ns is None else (due_ns - self._mono_ns()) / 1e9
        if lines.fd in self._ready(min(max(left_s, 0.0), WAIT_S), lines.fd):
            for turned in lines.turned():
                self._listener.turned(turned)
        else:
            lines.closed()  # older kernels wake nobody when a chip goes
        self._listener.look(self._mono_ns())

    def _pause(self) -> None:
        until_ns = self._mono_ns() + round(AGAIN_S * 1e9)
        while not self._ending and (left_ns := until_ns - self._mono_ns()) > 0:
            self._ready(min(left_ns / 1e9, WAIT_S))

    def _ready(self, timeout_s: float, *fds: int) -> list[int]:
        """Which of these are readable, or gone, within the time; it is over when told to end."""
        self.turns.turn()
        poll = select.poll()
        for fd in (self._wake, *fds):
            poll.register(fd, select.POLLIN)
        return [fd for fd, _ in poll.poll(timeout_s * 1000)]
