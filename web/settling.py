"""Which machines wait for a gauge to settle, so that their screens can say so."""

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager


class Settling:
    """Which machines have a command waiting for the gauge to settle.

    A command that only writes is over in a few milliseconds; one that lasts
    longer than `LONG_S` waits for the gauge.
    """

    LONG_S = 0.15

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Start with none."""
        self._clock = clock
        self._lock = threading.Lock()
        self._begun: dict[str, list[float]] = {}

    @contextmanager
    def during(self, machine: str) -> Iterator[None]:
        """Note a command on this machine for as long as the block runs."""
        begun = self._clock()
        with self._lock:
            self._begun.setdefault(machine, []).append(begun)
        try:
            yield
        finally:
            with self._lock:
                self._begun[machine].remove(begun)

    def now(self, machine: str) -> bool:
        """Return whether a command has been waiting on this machine for long."""
        with self._lock:
            return any(
                self._clock() - begun >= self.LONG_S for begun in self._begun.get(machine, ())
            )
