"""A person and a bench for learning a virtual gauge: hands that do what they are told."""

import datetime
import math
import threading
import time
from dataclasses import replace

from daq.gauges.learn.live.ear import opened
from daq.gauges.learn.live.search import Patience
from daq.virtual.gauge import VirtualGauge
from daq.virtual.talk import OnKey
from daq.virtual.tty import PtyLine
from daq.virtual.uart import LineEnd
from tests.rigs.shelf import SHELF

QUICK = Patience(
    silent_s=0.5, listen_s=2.0, answer_s=0.2, key_s=1.5, work_s=2.6, still_s=0.35, push_s=20.0
)
PERIOD_S = 2.13
TODAY = datetime.date(2027, 5, 3)


class Bench:
    """One virtual gauge at a port, and the hands on it; `says` collects what they are told.

    A pseudo-terminal keeps neither parity nor data bits: what the port was opened with is
    handed to the gauge's line, which then spoils what is sent as a real one would.
    """

    def __init__(self, key, link, push_mm):
        self.model = SHELF[key]
        self.push_mm = push_mm
        self.says = []
        self.done = []
        self._reader = self.model.line
        self.gauge = VirtualGauge(self.model, PtyLine(link), reader=lambda: self._reader)
        self._key = threading.Event()
        self._pressing = False
        self._thread = threading.Thread(target=self._press, daemon=True)

    def __enter__(self):
        self.gauge.start()
        self._thread.start()
        return self

    def __exit__(self, *_):
        self._key.set()
        self._thread.join()
        self.gauge.stop()

    def open(self, line, url):
        self._reader = LineEnd(line.baud, line.bits, line.parity, line.stop)
        return opened(line, url)

    def hurried(self, patience):
        """As little patience as an answer that never comes needs."""
        return replace(patience, answer_s=0.02, silent_s=0.05)

    def tell(self, text):
        self.says.append(text)

    def asked(self, text, proposed):
        self.says.append(text)
        return proposed

    def do(self, step, text):
        self.done.append(step)
        if step == "work":
            begun = time.monotonic()
            top = min(2.0, self.model.travel_mm * 0.95)
            self.gauge.follow(
                lambda: (
                    top
                    * (0.5 - 0.5 * math.cos(2 * math.pi * (time.monotonic() - begun) / PERIOD_S))
                )
            )
        elif step == "key":
            self._pressing = True
        elif step == "rest":
            self.gauge.set(0.0)
        elif step == "push":
            self.gauge.set(self.push_mm)

    def _press(self):
        while isinstance(self.model.talk, OnKey) and not self._key.wait(0.1):
            if self._pressing:
                self.gauge.press_key()
