"""Whether a thread goes round: it leaves the time of each turn, and anybody may look."""

import time
from collections.abc import Callable
from queue import Empty, SimpleQueue
from typing import Final, TypeVar

Item = TypeVar("Item")

STILL_NS: Final = 4_000_000_000
"""So long without a turn, and it stands still; every screen is to say so within 5 s."""

WAIT_S: Final = 0.5
"""Whoever waits for work goes round so often meanwhile."""


class Turns:
    """One thread's turns. None are expected of it before the first, and while it rests."""

    def __init__(self, mono_ns: Callable[[], int] = time.monotonic_ns) -> None:
        """Nothing is expected yet."""
        self._mono_ns = mono_ns
        self._at_ns: int | None = None

    def turn(self) -> None:
        """The thread goes on."""
        self._at_ns = self._mono_ns()

    def rest(self) -> None:
        """It waits for an answer that another thread owes it, or has done all it had to."""
        self._at_ns = None

    @property
    def still(self) -> bool:
        """Whether it should have turned by now and has not."""
        at_ns = self._at_ns
        return at_ns is not None and self._mono_ns() - at_ns >= STILL_NS

    def next(self, queue: "SimpleQueue[Item]") -> Item:
        """Return what comes next in the queue; to wait for it is no standstill."""
        while True:
            self.turn()
            try:
                return queue.get(timeout=WAIT_S)
            except Empty:
                continue
