"""The decider without its thread: a real ledger, a clock and a ring turned by hand."""

from concurrent.futures import Future

from daq.audit.state import Shop
from daq.gauges.ring import Ring
from daq.ledger import Ledger
from daq.service.collars import Collars
from daq.service.files import load
from daq.service.hub import Hub, Served
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import Command
from tests.cards import READY

MILL = "practice-mill"


class Rig:
    machine = MILL

    def __init__(self, folder, config, clock, sample, presses=None, followers=()):
        self.clock, self.sample, self.ring = clock, sample, Ring()
        shop = load(config)
        served = [Served(key, m.name, m.gauge, 1000) for key, m in shop.machines.items()]
        self.hub = Hub(tuple(served), clock.mono_ns)
        self.ledger = Ledger.open(folder, stamp=clock.stamp())
        self.collars = Collars()
        floor = Shopfloor(
            shop.audit_setup,
            {"practice": self.ring},
            presses or {},
            passed=self.collars.since,
        )
        self.decider = wired(
            self.ledger, Shop(), self.hub, clock, "test", shop.used_gauges, floor, dict(followers)
        )
        self.n = 0
        self.closed = False

    def post(self, kind, payload=None, command_id="c", expects=None):
        reply = Future()
        command = Command(command_id, self.machine, kind, payload or {}, expects_seq=expects)
        self.decider.receive(command, self.clock.ns, reply)
        return reply

    def stream(self, values):
        """Values on the wire, 50 a second, the decider turning in between."""
        for value in values:
            self.clock.ns += 20_000_000
            self.n += 1
            self.ring.append(self.sample(self.n, self.clock.ns, value))
            self.decider.tick()

    def push(self, free, into=1.0):
        """The contact pushed in, let go, and the button pressed; returns the answer."""
        self.stream([into] * 5)
        reply = self.post("pushed", {}, f"push-{self.seq}")
        self.stream([free] * 60)
        return reply.result(0)

    @property
    def seq(self):
        return self.hub.snapshot(self.machine).seq


def prepared(rig):
    rig.post("open", {"reason": "practice"}, "c1")
    rig.post("readied", READY, "r1")
    rig.post("warmed", {"warm": True}, "w1")
    return rig.post("prepared", {"serial_number": "P-0417"}, "c2").result(0)
