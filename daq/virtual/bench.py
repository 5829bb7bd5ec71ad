"""The one pair of hands, the clock they work by, and the lock around the mill's parts."""

import logging
import random
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from daq.virtual import store
from daq.virtual.gauge import VirtualGauge
from daq.virtual.head import Head
from daq.virtual.spec import MillSpec
from daq.virtual.standing import HeadState
from daq.words import Position

log = logging.getLogger(__name__)

TICK_S: Final = 0.02
SHORTEST_S: Final = 0.06
"""However fast the clock: a movement shows in a few frames, unlike a press of the zero button."""
UNREAD_S: Final = 2.0
"""Beyond this nobody reads the gauge."""


class Bench:
    """The mill's parts, and how work on them is spread over time.

    `_hands` is held for a whole operation, `_lock` for one look or one step.
    """

    def __init__(
        self,
        spec: MillSpec,
        gauge: VirtualGauge,
        far: VirtualGauge | None = None,
        *,
        state_file: Path | None,
        speed: float,
        seed: int,
    ) -> None:
        """Put the parts together; with a `state_file` that exists, as they were left."""
        if not speed > 0.0:
            raise ValueError(f"speed: found {speed}; allowed: more than 0")
        self._speed = speed
        self._state_file = state_file
        self._lock = threading.RLock()
        self._hands = threading.Lock()
        self._stopping = threading.Event()
        self._gauge, self._far = gauge, far
        self._head = Head(spec, random.Random(f"head {seed}"), self._restore())
        self._push_mm = 0.0
        self._reads = 0
        self._busy = False
        self._swinging = False
        self.collar: Callable[[Position, bool], None] = lambda place, closed: None
        """Told of each switch of the collar as the arm passes it."""
        gauge.follow(self._compression)
        if far is not None:
            far.follow(self._far_compression)

    @contextmanager
    def _doing(self) -> Iterator[None]:
        with self._hands:
            self._busy = True
            try:
                yield
            finally:
                self._busy = False
                self._save()

    def _over(self, seconds: float, step: Callable[[float, float], None]) -> None:
        """Call `step(done, share)` over a while: how much is done, and how much since last time."""
        began, whole, before = time.monotonic(), max(seconds / self._speed, SHORTEST_S), 0.0
        while before < 1.0:
            left = self._stopping.wait(TICK_S)
            done = 1.0 if left else min(1.0, (time.monotonic() - began) / whole)
            with self._lock:
                step(done, done - before)
            before = done

    def _until_read(self, times: int) -> None:
        """Wait until the gauge was read so many times more; one that nobody asks: a while."""
        goal, end = self._reads + times, time.monotonic() + UNREAD_S
        while self._reads < goal and time.monotonic() < end:
            if self._stopping.wait(TICK_S):
                return

    def _compression(self) -> float:
        with self._lock:
            self._reads += 1
            return self._head.compression() + self._push_mm

    def _far_compression(self) -> float:
        with self._lock:
            return self._head.far_compression()

    def _restore(self) -> HeadState | None:
        found = None if self._state_file is None else store.load(self._state_file)
        if found is None:
            return None
        try:
            self._gauge.zero_mm = float(found["zero_mm"])
            if self._far is not None and "far_zero_mm" in found:
                self._far.zero_mm = float(found["far_zero_mm"])
            return HeadState.restored(found["head"])
        except (KeyError, TypeError, ValueError, store.StateFileError) as error:
            raise store.StateFileError(
                f"{self._state_file}: not a practice mill's state ({error}); move it away"
            ) from error

    def _save(self) -> None:
        if self._state_file is None:
            return
        with self._lock:
            found = {"head": self._head.state.plain(), "zero_mm": self._gauge.zero_mm}
            if self._far is not None:
                found["far_zero_mm"] = self._far.zero_mm
        try:
            store.save(self._state_file, found)
        except OSError as error:
            # The mill goes on; only a restart would find an older head.
            log.warning("%s: the practice mill could not be saved (%s)", self._state_file, error)
