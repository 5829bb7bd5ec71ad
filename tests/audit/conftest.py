"""A pure bench for the fold: commands and gauge values in, events and views out."""

import uuid

import pytest

from daq.audit import evidence
from daq.audit.apply import apply
from daq.audit.codec import encode
from daq.audit.decide import Input, Refused, decide, wants
from daq.audit.decide.opening import audit_id
from daq.audit.setup import AuditSetup, AxisSetup, GaugeSetup, MachineSetup
from daq.audit.state import Shop
from daq.audit.views import aim, console
from daq.words import Command, Event, Sample, Stamp
from tests.words import told

MACHINE = "mill"
SETTLED = ("take", "loosened", "stopped")
NOON_US = 1_780_315_200_000_000  # 2026-06-01 12:00 UTC
LEDGER = "11111111-2222-4333-8444-555555555555"


def setup_of(
    *,
    radius=100.0,
    nod_pivot=150.0,
    height=0.0,
    counts_up=True,
    limit=0.015,
    gauge="arm",
    wanted_side=0.0,
) -> AuditSetup:
    axis = {"limit": limit, "over": 300.0, "pivot_height": height}
    side = AxisSetup(
        "Side to side",
        pivot_distance=0.0,
        bolts="the side bolts",
        adjuster="the side adjuster",
        wanted_lean=wanted_side,
        **axis,
    )
    nod = AxisSetup(
        "Nod",
        pivot_distance=nod_pivot,
        bolts="the nod bolts",
        adjuster="the nod adjuster",
        **axis,
    )
    return AuditSetup(
        MACHINE,
        MachineSetup("Mill", gauge, "table", "mm", radius, side, nod),
        GaugeSetup(gauge, "Arm gauge", "P-1", counts_up, 1.0, 0.001, 12.7, "2028-01-01"),
    )


class Bench:
    """One machine, its audit, and a gauge whose number the test sets."""

    def __init__(self, setup: AuditSetup, machine: str = MACHINE) -> None:
        self.setup = setup
        self.machine = machine
        self.shop = Shop()
        self.events: list[Event] = []
        self.chunks: dict[str, bytes] = {}
        self.inputs = []
        self.ns = 1_000_000_000
        self.n = 0
        self.unit = "mm"

    @property
    def job(self):
        return self.shop.machine(self.machine).job

    @property
    def console(self):
        return told(console(self.shop.machine(self.machine), "Mill"))

    @property
    def aim(self):
        return aim(self.shop.machine(self.machine))

    def samples(self, values) -> list[Sample]:
        found = []
        for value in values:
            self.n += 1
            self.ns += 20_000_000
            text = f"{value:+.3f}"
            raw = f"{text} mm\r\n".encode()
            key = self.setup.gauge.key
            found.append(Sample(key, "run-1", self.n, self.ns, text, self.unit, value, (), raw))
        return found

    def do(self, kind, payload=None, values=(), command_id=None):
        """Post a command; `values` are what the gauge sent. Returns the new events' data."""
        command = Command(command_id or str(uuid.uuid4()), self.machine, kind, payload or {})
        wants(self.shop, command)
        arrived = self.ns
        samples = self.samples(values)
        chunk = evidence.encode(samples)
        digest = evidence.digest(chunk) if chunk else ""
        window = self._still(samples) if kind in SETTLED else samples
        given = Input(
            command,
            arrived,
            tuple(samples),
            window[0].n if window else 0,
            window[-1].n if window else 0,
            digest,
            "2026-06-01",
            self.setup if kind == "open" else None,
        )
        found = decide(self.shop, given)
        self.chunks[digest] = chunk
        self.inputs.append(given)
        for data in found:
            self._commit(data, given)
        return found

    @staticmethod
    def _still(samples):
        """The samples at the end that all read the same: what the service waits for."""
        last = samples[-1].value_mm if samples else 0.0
        moved = [i for i, s in enumerate(samples) if s.value_mm != last]
        return samples[moved[-1] + 1 :] if moved else samples

    def _commit(self, data, given):
        kind, version, plain = encode(data)
        command = given.command
        cause = {
            "id": command.id,
            "kind": command.kind,
            "payload": dict(command.payload),
            "arrived_ns": given.arrived_ns,
            "window": [given.first_n, given.last_n],
        }
        event = Event(
            LEDGER,
            len(self.events) + 1,
            kind,
            version,
            self.machine,
            self.job.id if self.job else audit_id(command.id),
            Stamp(self.ns, NOON_US + self.ns // 1000, "boot", True),
            command.actor,
            cause,
            plain,
            (given.evidence,) if given.evidence else (),
        )
        self.events.append(event)
        self.shop = apply(self.shop, event)

    def take(self, position, value):
        return self.do("take", {"position": position}, [value] * 10)

    def refused(self, kind, payload=None, values=()):
        """What a command is refused with; it must change nothing."""
        before = self.shop
        with pytest.raises(Refused) as refused:
            self.do(kind, payload, values)
        assert self.shop == before
        return refused.value.said

    def abandon(self, why):
        """Give the audit up, and leave the machine safe."""
        self.do("abandon", {"why": why})
        if self.shop.machine(self.machine).unsafe is not None:
            self.do("made-safe")

    def start(self, reason="scheduled", free=0.0, up=1.0):
        """Open, prepare and touch: ready for the as-found sweep."""
        self.do("open", {"reason": reason})
        return self.prepare(free, up)

    def prepare(self, free=0.0, up=1.0):
        """The card read, the contact touched."""
        self.do("prepared", {"serial_number": "P-1"})
        self.do("take", {}, [free] * 10)
        self.do("pushed", {}, [free, free + 0.8 * up, free + 1.1 * up, free])
        return self

    def sweep(self, front, right, back, left, again=None):
        """A full sweep as the person labelled it; returns its SweepDone."""
        self.take("front", front)
        self.take("right", right)
        self.take("back", back)
        self.take("left", left)
        return self.take("front", front if again is None else again)[-1]


@pytest.fixture
def bench():
    """A bench on a machine of the given kind, ready to be opened."""
    return lambda **kind: Bench(setup_of(**kind))
