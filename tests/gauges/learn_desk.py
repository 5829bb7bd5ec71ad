"""A gauge at a port and a person at it, in a time of their own that nobody waits for."""

import random

from daq.cli import parser
from daq.gauges.learn.live import answers
from daq.gauges.learn.live.search import Patience
from daq.virtual.uart import LineEnd, resample
from tests.words import en

S = 1_000_000_000
LOOKS_S = 2.0
"""So long a person looks at the face before it is typed."""
PLACES = {"free": -0.4, "pushed": 0.6, "elsewhere": 0.137}


class Desk:
    """Sends frames of a trial in one of these manners, and does and says what is asked.

    "streams", "answers", "key" as gauges do; "started": streams once it got a request;
    "noise": bytes that are no frames, by itself. `after` tells frames from the moment when the
    file is tried: what then comes instead. `types` answers instead of the face, step by step.
    """

    def __init__(self, trial, manner="streams", own=None, after=None, types=None, places=PLACES):
        self.trial, self.manner, self.after, self.places = trial, manner, after, places
        self.own = own or LineEnd(9600)
        self.types = dict(types or {})
        self.codes, self.says, self.asks, self.shown, self.opens = [], [], [], [], []
        self.now = 0
        self.sent = 0
        self.wanted = 0
        self.running = manner in ("streams", "noise")
        self.rng = random.Random(5)
        self.at_mm = self.from_mm = -0.4
        self.since = 0
        self.trying = False

    def now_ns(self):
        self.now += 20_000
        return self.now

    def stand(self):
        """Where the contact is: a hand takes a second from one place to another."""
        part = min(1.0, (self.now - self.since) / S)
        return self.from_mm + (self.at_mm - self.from_mm) * part

    def go(self, to_mm):
        self.from_mm, self.at_mm, self.since = self.stand(), to_mm, self.now

    def frame(self):
        self.sent += 1
        if self.manner == "noise":
            return bytes(self.rng.choice(b"\x13\x92\x07\xe1\xb5") for _ in range(9))
        if self.after is not None and self.trying:
            return self.after(self.sent)
        return self.trial.frame(round(self.stand() / self.trial.size_mm), self.sent)

    def open(self, line, _url):
        self.opens.append(line)
        return Port(self, LineEnd(line.baud, line.bits, line.parity, line.stop))

    def tell(self, say):
        self.codes.append(say.code)
        self.says.append(en(say))
        if say.code == "learn-work":
            self.go(1.9)

    def show(self, number):
        self.shown.append(number)

    def skipped(self):
        return False

    def asked(self, step, say, meanwhile):
        self.asks.append(say.code)
        self.trying = self.trying or say.code == "learn-due"
        if step in self.places:
            self.go(self.places[step])
        if say.code in self.types:
            given = self.types[say.code]
            answer = given.pop(0) if isinstance(given, list) and given else given
            if not isinstance(answer, list):
                return answer
        if say.code == "learn-resolution":
            return self.manual()
        if step == "told":
            return ""
        if step == "key":
            self.running, self.trying = True, say.code == "learn-press-once"
            return ""
        until = self.now + round(LOOKS_S * S)
        while self.now < until:
            before = self.now
            meanwhile()
            self.now += S // 100 if self.now == before else 0
        return self.face()

    def manual(self):
        """One step of the last digit, as the manual says it."""
        if abs(self.trial.size_mm - 0.00127) < 1e-9:
            return "0.00005 in"
        return f"{self.trial.size_mm:g} mm"

    def face(self):
        mm = self.trial.true_mm(round(self.stand() / self.trial.size_mm))
        if abs(self.trial.size_mm - 0.00127) < 1e-9:
            return f"{mm / 25.4:.5f} in"
        return f"{mm:.{4 if self.trial.size_mm < 0.0009 else 3}f} mm"


class Port:
    """One opening."""

    def __init__(self, desk, line):
        self.desk, self.line = desk, line
        self.due = desk.now + round(desk.rng.uniform(0.2, 1.0) * desk.trial.every_s * S)

    def read(self, wait_s):
        desk, end = self.desk, self.desk.now + round(wait_s * S)
        if not (desk.running or desk.wanted) or self.due > end:
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
        if self.desk.manner == "started":
            self.desk.running = False


def learned(desk, *more, patience=None):
    """Have the gauge at a desk learned; return what was made."""
    args = parser().parse_args(["gauge", "learn", "--port", "/dev/desk", *more])
    return answers.learn(
        args, desk, patience=patience or Patience(), opener=desk.open, now_ns=desk.now_ns
    )
