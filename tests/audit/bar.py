"""A bench with two gauges on one bar: every take brings what both read."""

import uuid
from dataclasses import replace

from daq.audit import evidence
from daq.audit.engine import decide, needs
from daq.audit.input import Input
from daq.words import OPPOSITE, Command, Position, Sample
from tests.audit.conftest import Bench
from tests.audit.rigid import RigidHead

FAR = "far"


def with_bar(setup, radius_mm: float):
    """The setup of a machine whose bar carries a second gauge opposite the first."""
    machine = replace(setup.machine, second_gauge=FAR, second_radius=radius_mm)
    far = replace(setup.gauge, key=FAR, serial_number="P-2")
    return replace(setup, machine=machine, second_gauge=far)


class BarBench(Bench):
    """A bench whose takes in a sweep are of two gauges."""

    def both(self, position: Position, near_mm: float, far_mm: float):
        """Take one place of the bar; returns the new events' data."""
        command = Command(str(uuid.uuid4()), self.machine, "take", {"position": position})
        needs(self.shop, command)
        arrived = self.ns
        far = [replace(sample, gauge=FAR) for sample in self.samples([far_mm] * 10)]
        near = self.samples([near_mm] * 10)
        samples: tuple[Sample, ...] = (*far, *near)
        chunk = evidence.encode(samples)
        digest = evidence.digest(chunk)
        window = (far[0].n, far[-1].n)
        given = Input(
            command,
            arrived,
            samples,
            near[0].n,
            near[-1].n,
            digest,
            "2026-06-01",
            None,
            window,
        )
        found = decide(self.shop, given)
        self.chunks[digest] = chunk
        for data in found:
            self.keep(data, given)
            # What the service notes of the other gauge's window.
            self.events[-1].cause["second_window"] = list(window)
        return found

    def bar_sweep(self, head: RigidHead, radius_mm: float, drift_mm: float = 0.0, zero_mm=0.3):
        """A sweep with the bar while both gauges creep alike; returns its SweepDone."""
        found = ()
        places = (*self.setup.plan.positions, self.setup.plan.positions[0])
        for count, place in enumerate(places):
            crept = count * count * drift_mm
            near = round(head.exactly(place) + crept, 3)
            far = round(head.exactly(OPPOSITE[place], radius_mm) + crept + zero_mm, 3)
            found = self.both(place, near, far)
        return next(data for data in found if type(data).__name__ == "SweepDone")
