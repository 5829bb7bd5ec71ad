"""A gauge on a real pseudo-terminal whose number is whatever the test sets."""

import random
import threading
from pathlib import Path

from daq.units import MM_PER_INCH
from daq.virtual.tty import PtyLine
from daq.words import Unit

PERIOD_S = 0.01
FRAMES_A_MOVE = 8
SHAKE_MM = 0.05


class TtyGauge:
    """Sends `+001.234 mm` a hundred times a second, as the practice gauge's file describes it."""

    def __init__(self, link: Path) -> None:
        self._line = PtyLine(link)
        self._turn = threading.Condition()
        self._value_mm = 0.0
        self._coming: list[float] = []
        self._noise = b""
        self._mute = False
        self._unit: Unit = "mm"
        self._shaking = False
        self._stopping = False
        self._thread = threading.Thread(target=self._talk, name="tty-gauge", daemon=True)

    def __enter__(self) -> "TtyGauge":
        self._line.plug()
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        with self._turn:
            self._stopping = True
            self._turn.notify_all()
        self._thread.join()
        self._line.unplug()

    def move_to(self, value_mm: float) -> None:
        """Change the number as a moving contact does, over some frames; returns when sent."""
        with self._turn:
            way = (value_mm - self._value_mm) / FRAMES_A_MOVE
            self._coming = [value_mm - way * left for left in range(FRAMES_A_MOVE - 1, -1, -1)]
            self._shaking = False
            self._turn.wait_for(lambda: not self._coming or self._stopping)

    def jump_to(self, value_mm: float) -> None:
        """Change the number from one frame to the next, as its zero button does."""
        with self._turn:
            self._value_mm, self._shaking = value_mm, False

    def rest(self, frames: int) -> None:
        """Return once so many more frames of the same number are sent."""
        with self._turn:
            self._coming = [self._value_mm] * frames
            self._turn.wait_for(lambda: not self._coming or self._stopping)

    def shake(self) -> None:
        """Never come to rest, until the next move or jump."""
        with self._turn:
            self._coming = []
            self._shaking = True

    def unplug(self) -> None:
        self._line.unplug()

    def plug(self) -> None:
        self._line.plug()

    def replug(self) -> None:
        """Out and in again: a new port under the old name.

        A pseudo-terminal keeps its exclusive mark after a reader that was killed for as long
        as this end is open; a serial port loses it with its last reader.
        """
        self.unplug()
        self.plug()

    def garble(self, noise: bytes) -> None:
        """Send this instead of frames; b"" ends it."""
        with self._turn:
            self._noise = noise

    def mute(self, muted: bool) -> None:
        """Stay on the cable without a word, or speak again."""
        with self._turn:
            self._mute = muted

    def unit_key(self, unit: Unit) -> None:
        """Show this unit from now on."""
        with self._turn:
            self._unit = unit

    def _frame(self) -> bytes:
        if self._unit == "in":
            return f"{self._value_mm / MM_PER_INCH:+010.5f} in\r\n".encode()
        return f"{self._value_mm:+08.3f} mm\r\n".encode()

    def _talk(self) -> None:
        with self._turn:
            while not self._stopping:
                if self._coming:
                    self._value_mm = self._coming.pop(0)
                if self._shaking:
                    self._value_mm += SHAKE_MM * random.choice((-1, 1))
                if not self._mute:
                    self._line.send(self._noise or self._frame())
                if not self._coming:
                    self._turn.notify_all()
                self._turn.wait(PERIOD_S)
