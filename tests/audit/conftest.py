"""A pure bench for the fold: commands and gauge values in, events and views out."""

import pytest

from daq.audit.aim import aim
from daq.audit.input import Refused
from daq.audit.setup import AuditSetup, AxisSetup, GaugeSetup, MachineSetup
from daq.service.in_memory import InMemory
from daq.words import Command
from tests.cards import READY
from tests.words import told

MACHINE = "mill"
CARDS = {
    "angled": ("angled", {"still": False}),
    "crashed": ("bolts-tried",),
    "levelled": ("levelled",),
}
"""What a reason asks before the machine is prepared, and how it is answered here."""


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
        MachineSetup("Mill", gauge, "table", "mm", radius, side, nod, plan="sure"),
        GaugeSetup(gauge, "Arm gauge", "P-1", counts_up, 1.0, 0.001, 12.7, "2028-01-01"),
    )


class Bench(InMemory):
    """One machine, its audit, and a gauge whose number the test sets; it begins in mm."""

    def __init__(self, setup: AuditSetup) -> None:
        super().__init__(setup, told)
        self.unit = "mm"

    @property
    def job(self):
        return self.state.job

    @property
    def aim(self):
        return aim(self.state)

    def do(self, kind, payload=None, values=(), command_id=None):
        """Post a command; `values` are what the gauge sent. Returns the new events' data.

        The cards before are answered by themselves, unless a test is about them.
        """
        self.before(kind)
        command = self.command(kind, payload or {})
        if command_id is not None:
            command = Command(command_id, self.machine, kind, payload or {})
        return self.decide(command, values)

    def take(self, position, value):
        return self.do("take", {"position": position}, [value] * 10)

    def refused(self, kind, payload=None, values=()):
        """What a command is refused with; it must change nothing."""
        self.before(kind)
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

    def open(self, reason):
        """Open, and answer what that asks first, so that the head stays as it was found."""
        self.do("open", {"reason": reason})
        while self.job.step in CARDS:
            self.do(*CARDS[self.job.step])

    def start(self, reason="scheduled", free=0.0, up=1.0):
        """Open, prepare and touch: ready for the as-found sweep."""
        self.open(reason)
        return self.prepare(free, up)

    def before(self, kind):
        """The cards before this press."""
        if kind == "prepared":
            self.powered()
        elif kind == "warmed" and self.job is not None and self.job.step == "table":
            self.do("readied", READY)

    def powered(self):
        """What is done while there is still power."""
        first = {
            "table": "readied",
            "power": "warmed",
            "power-arm": "arm-fitted",
            "power-height": "height-set",
        }
        while self.job is not None and self.job.step in first:
            kind = first[self.job.step]
            said = {"warmed": {"warm": True}, "readied": READY}
            self.do(kind, said.get(kind, {}))
        return self

    def prepare(self, free=0.0, up=1.0):
        """The card read, the contact touched."""
        self.do("prepared", {"serial_number": "P-1"})
        self.do("take", {}, [free] * 10)
        self.do("pushed", {}, [free, free + 0.8 * up, free + 1.1 * up, *[free] * 10])
        return self

    def closer(self, free=0.0):
        """Arm out, head held, set by scale and tight; arm back in, the contact touched."""
        for kind in ("arm-out", "closer", "arm-back"):
            self.do(kind)
        self.do("take", {}, [free] * 10)
        return self.do("pushed", {}, [free, free + 0.8, free + 1.1, *[free] * 10])

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
