"""Rows 1 and 2: from a gauge's byte to the event on every screen, beside a bare loop.

One process holds both gauges and all screens and takes every time. Service and bare loop
run side by side and take turns of 10 ms, so that whatever else the machine does slows both.
"""

import math
import re
import select
import socket
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from daemon import Wire, running, screen, service

RATE_HZ = 50
WARM = 50
"""Frames sent before the first that counts."""

EVENT = re.compile(rb'"value_mm":(\d+\.\d+).*?\n\n')
DRAIN_S = 0.2

Row = tuple[str, float, float, float]


class Side:
    """One gauge, what reads it, and the screens that follow it."""

    def __init__(self, wire: Wire, screens: list[socket.socket]) -> None:
        """Nothing sent yet; whatever waits in the sockets is old."""
        self.wire = wire
        self.screens = screens
        self.sent_ns: dict[int, int] = {}
        self._heard: list[list[tuple[int, bytes]]] = [[] for _ in screens]

    def send(self, number: int) -> None:
        """Send the frame of that number and note when."""
        self.sent_ns[number] = time.monotonic_ns()
        self.wire.send(number)

    def hear(self, index: int) -> None:
        """Take what has come to a screen and note when; it is looked at later."""
        data = self.screens[index].recv(65536)
        self._heard[index].append((time.monotonic_ns(), data))
        if not data:
            raise ConnectionError(f"screen {index} was hung up on")

    def latencies(self) -> list[float]:
        """Return the seconds from each counted frame to its event, of every screen."""
        return sorted(
            (ns - self.sent_ns[number]) / 1e9
            for heard in self._heard
            for number, ns in self._first(heard)
            if number > WARM
        )

    def _first(self, heard: list[tuple[int, bytes]]) -> Iterator[tuple[int, int]]:
        """Yield each number seen and when its event was there whole for the first time."""
        rest, seen = b"", set()
        for ns, data in heard:
            rest += data
            for event in EVENT.finditer(rest):
                number = round(1000.0 * float(event[1]))
                if number in self.sent_ns and number not in seen:
                    seen.add(number)
                    yield number, ns
            rest = rest[rest.rfind(b"\n\n") + 2 :]


def measure(folder: Path, screens: int, samples: int, reach: float) -> list[Row]:
    """Return (label, own seconds, anchor seconds, reach) of the 99th percentile and the median.

    The median tells more where other programs are busy: they make both 99th percentiles.
    `samples` frames count; a screen is shown every second one. `folder` must be new.
    """
    with ExitStack() as opened:
        sides = []
        for own in (True, False):
            wire = Wire(folder / "ttys" / "practice" if own else None)
            opened.callback(wire.close)
            bare = [sys.executable, str(Path(__file__).with_name("bare.py"))]
            command = service(folder) if own else [*bare, wire.name, str(screens)]
            process = opened.enter_context(running(command))
            seats = [opened.enter_context(screen(process)) for _ in range(screens)]
            sides.append(Side(wire, seats))
        _follow(sides, WARM + samples)
    own_s, bare_s = (side.latencies() for side in sides)
    what = f"gauge byte to event, {screens} screens"
    return [
        (
            f"{what}, {say} of {len(own_s)} / bare, of {len(bare_s)}",
            _at(own_s, share),
            _at(bare_s, share),
            reach,
        )
        for say, share in (("p99", 0.99), ("median", 0.5))
    ]


def _at(ordered: list[float], share: float) -> float:
    return ordered[math.ceil(share * len(ordered)) - 1]


def _follow(sides: list[Side], frames: int) -> None:
    """Send the frames of both sides in turn, hearing every screen in between."""
    poll = select.epoll()
    ears = {}
    for side in sides:
        for index, connection in enumerate(side.screens):
            poll.register(connection, select.EPOLLIN)
            ears[connection.fileno()] = (side, index)
    gap_s = 1.0 / RATE_HZ / len(sides)
    due = time.monotonic()
    with poll:
        for turn in range(len(sides) * frames):
            _hear_until(due, poll, ears)
            sides[turn % len(sides)].send(1 + turn // len(sides))
            due += gap_s
        _hear_until(time.monotonic() + DRAIN_S, poll, ears)


def _hear_until(due: float, poll: select.epoll, ears: dict[int, tuple[Side, int]]) -> None:
    while (wait := due - time.monotonic()) > 0.0:
        for number, _ in poll.poll(wait):
            side, index = ears[number]
            side.hear(index)
