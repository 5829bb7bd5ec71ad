"""A gauge at a port and hands on it, in a time of their own that nobody waits for."""

import datetime
import math
import random

from daq.cli import parser
from daq.gauges.learn.live import answers
from daq.gauges.learn.live.search import Patience
from daq.virtual.uart import LineEnd, resample

S = 1_000_000_000
PERIOD_S = 2.37
TODAY = datetime.date(2027, 5, 3)


class Desk:
    """Sends frames of a trial in one of these manners, and does what a person is told.

    "streams", "answers", "key" as gauges do; "started": streams once it got a request;
    "noise": bytes that are no frames, by itself. `after` tells frames from the moment the
    gauge's number was learned, when the file is tried: what then comes instead. `hole`: after
    which thing that was done, counted from 1, nothing comes from when until when, seconds.
    """

    def __init__(self, trial, manner="streams", own=None, after=None, hole=(0, 0.0, 0.0)):
        self.trial, self.manner, self.after = trial, manner, after
        self.own = own or LineEnd(9600)
        self.says, self.done, self.asks = [], [], []
        self.hole = hole
        self.silent_ns = (0, 0)
        self.now = 0
        self.sent = 0
        self.wanted = 0
        self.running = manner in ("streams", "noise")
        self.rng = random.Random(5)
        self.place = lambda _: -0.4
        self.pushed = False
        self.opened = 0

    def now_ns(self):
        self.now += 20_000
        return self.now

    def uneven(self):
        """A hand is never exactly where it was a turn before, seconds."""
        return self.rng.uniform(-0.01, 0.01)

    def frame(self):
        self.sent += 1
        if self.manner == "noise":
            return bytes(self.rng.choice(b"\x13\x92\x07\xe1\xb5") for _ in range(9))
        if self.after is not None and self.pushed and "tried" in self.done:
            return self.after(self.sent)
        counts = round(self.place(self.now / S) / self.trial.size_mm)
        return self.trial.frame(counts, self.sent)

    def open(self, line, _url):
        self.opened += self.pushed
        if self.opened == 2:  # once for the push itself
            self.done.append("tried")
        return Port(self, LineEnd(line.baud, line.bits, line.parity, line.stop))

    def tell(self, text):
        self.says.append(text)

    def asked(self, text, proposed):
        self.asks.append(text)
        return proposed

    def do(self, step, text):
        self.says.append(text)
        self.done.append(step)
        nth, begins_s, ends_s = self.hole
        if len(self.done) == nth:
            self.silent_ns = self.now + round(begins_s * S), self.now + round(ends_s * S)
        if step == "work":
            self.place = lambda at: 0.6 - math.cos(2 * math.pi * (at + self.uneven()) / PERIOD_S)
        elif step == "rest":
            self.place = lambda _: -0.4
        elif step == "push":
            self.place = lambda _: 0.6
            self.pushed = True
        elif step == "key":
            self.running = True


class Port:
    """One opening."""

    def __init__(self, desk, line):
        self.desk, self.line = desk, line
        self.due = desk.now + round(desk.rng.uniform(0.2, 1.0) * desk.trial.every_s * S)

    def read(self, wait_s):
        desk, end = self.desk, self.desk.now + round(wait_s * S)
        sends = desk.running or desk.wanted
        begins, ends = desk.silent_ns
        if begins <= self.due < ends:
            self.due = ends
        if not sends or self.due > end:
            desk.now = end
            return b""
        desk.now = max(desk.now, self.due)
        self.due += round(desk.trial.every_s * S)
        desk.wanted = max(0, desk.wanted - 1)
        return resample(desk.frame(), desk.own, self.line)

    def write(self, _data):
        if self.desk.manner == "answers":
            self.desk.wanted += 1
            self.due = self.desk.now + S // 50
        elif self.desk.manner == "started":
            self.desk.running = True

    def close(self):
        self.desk.wanted = 0


def learned(desk, *more, patience=None):
    """Have the gauge at a desk learned; return its file's text."""
    given = ["gauge", "learn", "--port", "/dev/desk", "--push", "1.000 mm", "--yes"]
    args = parser().parse_args([*given, "--minus-at-rest", "yes", *more])
    return answers.learn(
        args, desk, TODAY, patience=patience or Patience(), opener=desk.open, now_ns=desk.now_ns
    )
