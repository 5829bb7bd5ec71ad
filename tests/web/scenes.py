"""Every situation a screen can stand at, made by running audits at the pure bench.

Nothing here is worded or counted by hand: what stands on a page is what the product says. The
live number, and what becomes of a press or of the recording, come from the service's own hub.
"""

from dataclasses import replace
from functools import cache
from typing import Any, Literal

from daq.audit.aim import Aim, aim
from daq.audit.chosen import offers
from daq.says import language
from daq.screens.console import console
from daq.screens.wall import wall
from daq.service.hub import Hub, Served
from daq.units import show
from daq.words import Live, Sample, Snapshot
from tests.audit.conftest import Bench
from tests.web import checking, moving, resting, signing, sweeping
from tests.web.acts import MACHINE, NAME, SITUATIONS

__all__ = [
    "MACHINE",
    "SITUATIONS",
    "Screen",
    "checking",
    "made",
    "moving",
    "resting",
    "scene",
    "signing",
    "sweeping",
    "view",
]

FRESH_MS = 1000


@cache
def made(name: str) -> Bench:
    """The bench of a situation, run once."""
    return SITUATIONS[name]()


def scene(name: str, seq: int = 41) -> Snapshot:
    """A situation as the screens get it."""
    return Screen(made(name)).publish(seq)


def view(name: str) -> dict[str, Any]:
    """What the console shows of a situation."""
    return dict(scene(name).pages["console"])


class Screen:
    """A situation as the service's hub shows it; `ns` is the hub's clock."""

    def __init__(self, stands: Bench, *, keyed: bool = False) -> None:
        """Take the bench as it stands; `keyed`: its gauge sends on its own key."""
        self.bench = stands
        self.state = stands.shop.machine(MACHINE)
        self.gauge = stands.setup.gauge.key
        self.ns = 1_000_000_000_000
        served = Served(MACHINE, NAME, self.gauge, None if keyed else FRESH_MS)
        self.hub = Hub((served,), lambda: self.ns)
        self.n = 100

    @property
    def aim(self) -> Aim:
        """What the number is held against."""
        found = aim(self.state)
        assert found is not None
        return found

    def publish(self, seq: int = 41, **more: Any) -> Snapshot:
        """The snapshot under this number, and whatever else it is to carry."""
        shown = self.state, NAME, offers(self.bench.setup.machine)
        pages = {"wall": wall(*shown), "console": console(*shown)}
        told = language().told(pages, signing.NAMES)
        snapshot = Snapshot(MACHINE, seq, "ab12" * 16, told, (), {"ok": True, "say": ""})
        self.hub.publish(replace(snapshot, **more), aim(self.state), self.gauge)
        return self.hub.snapshot(MACHINE)

    def reads(self, *faces_mm: float, unit: Literal["mm", "in"] | None = None) -> Live:
        """What the screens are sent once the gauge has shown these numbers."""
        unit = unit or self.bench.unit
        for face_mm in faces_mm:
            self.n += 1
            text = show(face_mm, unit, 3 if unit == "mm" else 4)
            given = (self.gauge, "run-1", self.n, self.ns, text, unit, face_mm, (), text.encode())
            self.hub.on_sample(Sample(*given))
        return self.hub.live(MACHINE)
