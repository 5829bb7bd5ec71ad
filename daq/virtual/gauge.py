"""A gauge on a port: whatever sets its plunger, its number goes out in its own way."""

import random
import threading
from collections.abc import Callable

from daq.virtual.faults import Faults, Spoiler
from daq.virtual.model import GaugeModel, WireEnd
from daq.virtual.talker import Talker
from daq.virtual.uart import LineEnd, resample
from daq.virtual.works import Look, Works
from daq.words import Unit


class VirtualGauge:
    """One gauge of a given model at the end of a `port`. Safe to use from several threads.

    `faults` are switches that can be thrown at any time. What is sent passes through a
    model of the serial line: a reader whose speed or framing differs from the gauge's
    gets what a real one would. Where the port cannot tell the reader's settings, or
    not all of them, `reader` says what they are.
    """

    def __init__(
        self,
        model: GaugeModel,
        port: WireEnd,
        *,
        reader: Callable[[], LineEnd] | None = None,
        seed: int = 0,
    ) -> None:
        """Switch the gauge on, contact in the air; nothing is sent before `start`."""
        self.model = model
        self.port = port
        self.faults = Faults()
        self._reader = reader
        self._works = Works(model, random.Random(f"gauge {seed}"))
        self._spoiler = Spoiler(self.faults, random.Random(f"wire {seed}"))
        self._plunger: Callable[[], float] = float
        self._sent: Look | None = None
        self._lock = threading.Lock()
        self._talker = Talker(model.talk, port, say=self._say, heard=self._heard)

    def start(self) -> None:
        """Put the cable in and let the gauge talk; nothing happens when it does already."""
        self.port.plug()
        self._talker.start()

    def stop(self) -> None:
        """Fall silent and pull the cable."""
        self._talker.stop()
        self.port.unplug()

    def __enter__(self) -> "VirtualGauge":
        """Start, for as long as the block lasts."""
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Stop."""
        self.stop()

    def unplug(self) -> None:
        """Pull the cable; the gauge itself stays as it is."""
        self.port.unplug()

    def plug(self) -> None:
        """Put the cable back."""
        self.port.plug()

    def set(self, compression_mm: float) -> None:
        """Push the contact in by `compression_mm` from its free end, and hold it there."""
        self.follow(lambda: compression_mm)

    def follow(self, plunger: Callable[[], float]) -> None:
        """Ask `plunger` for the compression, mm, whenever it is needed."""
        self._plunger = plunger

    def free(self) -> None:
        """Take the contact off the surface: the gauge shows its free reading."""
        self.set(0.0)

    def press_zero(self) -> None:
        """Press the zero button."""
        self.press_preset(0.0)

    def press_preset(self, preset_mm: float) -> None:
        """Press the preset button, which makes it read `preset_mm` where it stands."""
        compression = self._plunger()
        with self._lock:
            self._works.press_preset(compression, preset_mm)

    def press_unit(self) -> None:
        """Press the unit button; a gauge with one unit only has none."""
        with self._lock:
            self._works.press_unit()

    def press_key(self) -> None:
        """Press the key that sends."""
        self._talker.press()

    @property
    def unit(self) -> Unit:
        """The unit shown."""
        return self._works.unit

    @property
    def zero_mm(self) -> float:
        """The compression at which it reads zero, mm."""
        return self._works.zero_mm

    @zero_mm.setter
    def zero_mm(self, compression_mm: float) -> None:
        self._works.zero_mm = compression_mm

    def face(self) -> str:
        """Return the number on the gauge's face, as text with its unit."""
        compression = self._plunger()
        with self._lock:
            return self._works.face(compression)

    def frame(self) -> bytes:
        """Return the next frame as it leaves the gauge, faults and all; b"" for none."""
        compression = self._plunger()
        with self._lock:
            look = self._works.look(compression)
            if self.faults.stuck and self._sent is not None:
                look = self._sent
            self._sent = look
            wire = self.model.wire
            flags = ("weak-battery",) if self.faults.weak_battery else ()
            over = wire.over if look.over else b""
            return self._spoiler.spoil(over or wire.encode(look.counts, look.unit, flags))

    def _say(self) -> None:
        frame = self.frame()
        if frame:
            heard = self._settings()
            # Whoever reads a gauge here checks its input: a wrong character is read as 0.
            made = resample(frame, self.model.line, heard, framing="zero", parity="zero")
            self.port.send(made, lambda: self._settings() == heard)

    def _heard(self, data: bytes) -> bytes:
        """Return what the gauge makes of bytes sent to it at the reader's settings."""
        return resample(data, self._settings(), self.model.line)

    def _settings(self) -> LineEnd:
        return self._reader() if self._reader else self.port.heard(self.model.line)
