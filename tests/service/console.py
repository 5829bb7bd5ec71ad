"""A console made of plain data: a hub, an inbox that answers as told, and a switchboard at them."""

import threading
from types import SimpleNamespace

from daq.audit.views.step import Action, Field
from daq.gauges.config import from_table
from daq.service.hub import Hub, Served
from daq.service.switchboard import Press, Switchboard
from daq.words import Ack, Snapshot
from tests.patience import PATIENCE_S, until
from tests.words import en

MILL = "mill-1"


def action(kind, payload=None, *, say="", primary=False, fields=(), confirm=None):
    fields = tuple(Field(name, name) for name in fields)
    return Action(kind, say, payload or {}, primary, fields=fields, confirm=confirm)


def gauge(mode="streams", **talk):
    """A gauge's config with this way to talk."""
    table = {
        "name": "Shop gauge",
        "serial_number": "1",
        "kind": "plunger",
        "counts_up": True,
        "resolution": "0.001 mm",
        "travel": "10 mm",
        "max_error": "0.004 mm",
        "calibration_due": "2030-01-01",
        "line": {"port": "gauge"},
        "talk": {"mode": mode} | ({"interval": "20 ms"} if mode == "streams" else {}) | talk,
        "frame": {"shape": "text", "pattern": r"(?P<value>\d+\.\d+)", "unit": "mm"},
    }
    return from_table(table, "gauge.toml")


class FakeInbox:
    """Remembers every command; answers with `answer` once `hold` is set."""

    def __init__(self):
        self.got = []
        self.at_ns = []
        self.hold = threading.Event()
        self.hold.set()
        self.answer = lambda command: Ack(command.id, True, (1,), "ok")

    def submit(self, command, at_ns=None):
        self.at_ns.append(at_ns)
        self.got.append(command)  # last: `next` waits for it
        assert self.hold.wait(PATIENCE_S)
        return self.answer(command)

    def next(self):
        until(lambda: self.got)
        return self.got.pop(0)


class Console:
    """One machine's switchboard, at work for the length of the block."""

    def __init__(self, clock, config=None):
        self.hub = Hub((Served(MILL, "Mill", "g", 1000),), clock.mono_ns)
        self.inbox = FakeInbox()
        self.seq = 0
        self.show([action("undo-not-offered")], seq=1)
        self.switchboard = Switchboard(MILL, config or gauge(), self.hub, self.inbox, "switch")

    def __enter__(self):
        self.switchboard.start()
        return self

    def __exit__(self, *_):
        self.inbox.hold.set()
        self.switchboard.stop()
        self.switchboard.join()

    def show(self, actions, seq=None):
        """Publish a state with these actions."""
        self.seq = self.seq if seq is None else seq
        pages = {"console": SimpleNamespace(actions=tuple(actions), audit="A")}
        shown = Snapshot(MILL, self.seq, "", pages, (), {"ok": True, "say": ""})
        self.hub.publish(shown, None, "g")

    @property
    def said(self):
        """What is said of a press: its outcome and its words."""
        said = self.hub.snapshot(MILL).said
        return said and {key: en(said[key]) for key in ("outcome", "say")}

    def press(self, press=None):
        self.switchboard.press(self.switchboard.look(), press or Press("take"))

    def done(self):
        """Wait until the press under way was answered."""
        self.until(lambda: not self.switchboard._busy.locked())

    def until(self, true_of):
        until(true_of)
