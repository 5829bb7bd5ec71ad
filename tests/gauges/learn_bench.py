"""A virtual gauge on a real terminal, and a person whose hand moves as one does."""

import math
import threading
import time
from decimal import Decimal

from daq.gauges.learn.live.ear import opened
from daq.gauges.learn.live.search import Patience
from daq.virtual.gauge import VirtualGauge
from daq.virtual.talk import OnKey
from daq.virtual.tty import PtyLine
from daq.virtual.uart import LineEnd

QUICK = Patience(silent_s=0.6, listen_s=0.9, answer_s=0.2, key_s=6.0, work_s=2.0, still_s=0.5)
STROKE_S = 4.0


class Bench:
    """A gauge at a port and hands on it.

    A pseudo-terminal keeps neither parity nor data bits: what the port was opened with is
    handed to the gauge's line, which then spoils what is sent as a real one would. `moves_s`: so
    long a hand takes from one place to another, and `looks_s` a person from there to the answer.
    """

    def __init__(self, model, link, moves_s=0.3, looks_s=0.5, presses_s=0.4):
        self.model = model
        self.says, self.asks = [], []
        self._moves_s, self._looks_s, self._presses_s = moves_s, looks_s, presses_s
        self._reader = model.line
        self.gauge = VirtualGauge(model, PtyLine(link), reader=lambda: self._reader)
        self._at = 0.0
        self._done = threading.Event()
        self._pressing = threading.Event()
        self._thread = threading.Thread(target=self._press, daemon=True)

    def __enter__(self):
        self.gauge.start()
        self._thread.start()
        return self

    def __exit__(self, *_):
        self._done.set()
        self._thread.join()
        self.gauge.stop()

    def open(self, line, url):
        self._reader = LineEnd(line.baud, line.bits, line.parity, line.stop)
        return opened(line, url)

    def tell(self, say):
        self.says.append(say.code)
        if say.code == "learn-work":
            begun, top = time.monotonic(), min(2.0, self.model.travel_mm * 0.95)
            first = math.acos(1.0 - 2.0 * min(1.0, self._at / top))
            turn = 2.0 * math.pi / STROKE_S
            self.gauge.follow(
                lambda: top * (0.5 - 0.5 * math.cos(first + turn * (time.monotonic() - begun)))
            )

    def show(self, number):
        pass

    def skipped(self):
        return False

    def asked(self, step, say, meanwhile):
        self.asks.append(say.code)
        if say.code == "learn-resolution":  # the manual of a gauge says that
            scale, unit = self.model.wire.scales[self.model.unit], self.model.unit
            return f"{Decimal(scale.step).scaleb(-scale.places):f} {unit}"
        if step == "told":
            return ""
        if step == "key":
            self._pressing.set()
            return ""
        self._pressing.clear()
        self._go(self._place(step, say.code))
        until = time.monotonic() + self._moves_s + self._looks_s
        while time.monotonic() < until:
            meanwhile()
            time.sleep(0.001)
        if isinstance(self.model.talk, OnKey):
            self.gauge.press_key()
            until = time.monotonic() + 0.5
            while time.monotonic() < until:
                meanwhile()
        return self.gauge.face()

    def _place(self, step, code):
        push = min(1.0, self.model.travel_mm * 0.6)
        if code == "learn-face-minus":
            way = -0.11 if self.model.counts_up else 0.23
            return max(0.0, self.model.zero_mm + way)
        return {"free": 0.0, "pushed": push, "elsewhere": 0.37 * push}.get(step, self._at)

    def _go(self, to):
        begun, first = time.monotonic(), self._at
        self.gauge.follow(
            lambda: (
                first
                + (to - first) * min(1.0, (time.monotonic() - begun) / max(0.001, self._moves_s))
            )
        )
        self._at = to

    def _press(self):
        while not self._done.wait(self._presses_s):
            if self._pressing.is_set():
                self.gauge.press_key()
