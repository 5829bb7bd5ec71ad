"""A shop's messages over a ledger that stands still, with a hub that shows what it is told."""

import json
from dataclasses import dataclass, field
from types import SimpleNamespace

from daq.audit.state import Shop
from daq.ledger.view import LedgerView
from daq.service.clock import SystemClock
from daq.service.messages.config import Mqtt
from daq.service.messages.messages import WAY, Messages
from daq.words import Live

LIVE = Live("arm", "run-1", 7, "0.012", "mm", 0.012, 40, fresh=True, fresh_for_ms=960)


@dataclass
class Shown:
    """Stands in for the hub: one machine and its number."""

    now: Live = LIVE
    keys: tuple[str, ...] = ("mill",)
    readers: dict[str, object] = field(default_factory=dict)

    def __post_init__(self):
        self.say("ok")

    def say(self, code):
        self.readers["arm"] = SimpleNamespace(status=SimpleNamespace(code=code))

    def machines(self):
        return tuple(SimpleNamespace(key=key) for key in self.keys)

    def live(self, machine):
        return self.now


def owing(data, rows=(), seen=None):
    """As a run before left it: these rows are owed, of all up to `seen`."""
    with LedgerView.open(data) as view:
        last, _ = view.last()
        known = {"ledger": view.name(), "seen": last if seen is None else seen, "rows": [*rows]}
    (data / f"owed-{WAY}.json").write_text(json.dumps(known), "utf-8")


def telling(data, port, shown=None, state=None, **config):
    shown = shown or Shown()
    of = Mqtt("127.0.0.1", **{"port": port, "live_hz": 0.0, **config})
    state = state or Shop()
    return Messages(of, data, "0.0.test", shown, shown.readers, state, SystemClock())
