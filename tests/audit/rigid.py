"""A head of exact rigid geometry and a machinist who obeys the console, at a pure bench.

The head is the tests' own exact body, which knows nothing of the advice.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from daq.audit.codec import decode
from daq.audit.reading_order import left_to_check, unread_places
from daq.squaring.tightening import steps
from daq.virtual import Hand, Simulated
from daq.virtual import Machinist as Obedient
from daq.virtual.workplace import Plain
from daq.words import AXES, OPPOSITE, POSITIONS, Ack, Axis, Position
from tests.benchmarks.heads.rigid import Hinge, Rigid, swung

ZERO_MM = 1.5
"""What the gauge reads with the head square: pushed in so far from a free reading of 0."""

STEP_RAD = 1e-3
NUDGE_MM = 0.1
"""What a few degrees of an adjuster do, across the sweep."""

MIRROR: dict[Position, Position] = {"right": "left", "left": "right"}


@dataclass(frozen=True)
class Spec:
    """One mill. The spindle moves along itself by ± `axial_mm` once a turn."""

    side: Hinge
    nod: Hinge
    radius_mm: float = 100.0
    wedge_mm: float = 0.0
    wedge_azimuth_deg: float = 35.0
    axial_mm: float = 0.0


def mill(
    radius_mm: float = 100.0,
    side: tuple[float, float] = (0.0, 0.0),
    nod: tuple[float, float] = (150.0, 0.0),
    height_mm: float = 400.0,
    ram_deg: float = 0.0,
    wedge_mm: float = 0.0,
    axial_mm: float = 0.0,
) -> Spec:
    """A mill by its pivots: (left of the spindle, coupling), (behind the spindle, coupling)."""
    hinges = Hinge(-side[0], 0.0, height_mm, side[1]), Hinge(0.0, nod[0], height_mm, nod[1])
    hinges = swung(*hinges, math.radians(ram_deg))
    return Spec(*hinges, radius_mm, wedge_mm, axial_mm=axial_mm)


class RigidHead(Rigid):
    """A head that leans as told; `at` is what a gauge of 0.001 mm reads at a position."""

    def __init__(self, spec: Spec, side_mm: float, nod_mm: float) -> None:
        super().__init__(spec.side, spec.nod, spec.radius_mm, spec.wedge_mm)
        self.lean_by(side_mm, nod_mm)
        self.spec = spec
        self.zero_mm = ZERO_MM
        self.ring_deg = 0.0
        self.arm_deg = 0.0

    def true_mm(self, axis: Axis) -> float:
        """The lean of an axis as the difference across the sweep."""
        return self.differences()[AXES.index(axis)]

    def exactly(self, position: Position, radius_mm: float | None = None) -> float:
        """What a gauge without a last digit reads at a position."""
        self.lay(self.spec.wedge_azimuth_deg + self.ring_deg)
        axial = math.cos(math.radians(POSITIONS[position] - self.arm_deg))
        return self.pushed(position, radius_mm) + self.zero_mm + self.spec.axial_mm * axial

    def at(self, position: Position) -> float:
        """What the gauge reads at a position."""
        return round(self.exactly(position), 3)

    def opposite(self, position: Position, radius_mm: float) -> float:
        """What the gauge at the other end of a bar reads."""
        return round(self.exactly(OPPOSITE[position], radius_mm), 3)

    def turn(self, axis: Axis, position: Position, stop_mm: float) -> None:
        """Turn an adjuster until the gauge at a position reads that, or as near as it comes."""
        beyond_mm, before = self.exactly(position) - self.pushed(position), self.angles[axis]
        try:
            self.turn_to(axis, position, stop_mm - beyond_mm)
        except ArithmeticError:
            # Nearly over the pivot the number turns round before it is there.
            self.swing(axis, before - self.angles[axis])
            for _ in range(4):
                gain = self.gain(axis, position)
                self.swing(axis, STEP_RAD)
                bend = (self.gain(axis, position) - gain) / STEP_RAD
                self.swing(axis, -STEP_RAD - gain / bend)

    def shift(self, axis: Axis, across_mm: float) -> None:
        """Lean an axis by so much across the sweep."""
        self.swing(axis, across_mm / self.across_mm)


class Machinist(Simulated):
    """The obedient machinist at a bench and one head; everything reads as the head stands.

    `shifts`: what tightening does to each axis, mm across the sweep, and `lift_mm` to the
    whole head. `miss_mm`: how far each turn ends beyond its stop-at. What the gauge shows is
    `sense` times what it is pushed in, and `plus_mm`. `mirrored`: everything is done on the
    other side, left for right.
    """

    def __init__(
        self,
        bench,
        head: RigidHead,
        shifts: Mapping[Axis, float] | None = None,
        miss_mm: float = 0.0,
        sense: float = 1.0,
        plus_mm: float = 0.0,
        mirrored: bool = False,
        lift_mm: float = 0.0,
    ) -> None:
        super().__init__(bench, head, samples=10)
        self.bench = bench
        self.obedient = Obedient(self, Hand(miss_mm=miss_mm))
        self.lift_mm = lift_mm
        self.went: dict[Axis, float] = {}
        self.sense = sense
        self.plus_mm = plus_mm
        self.mirrored = mirrored
        self.shifts = dict(shifts or {})

    @property
    def miss_mm(self) -> float:
        return self.obedient.hand.miss_mm

    @miss_mm.setter
    def miss_mm(self, miss_mm: float) -> None:
        self.obedient.hand = Hand(miss_mm=miss_mm)

    def start(self, reason: str = "scheduled", **card) -> "Machinist":
        """Open, prepare and touch."""
        number = self.bench.setup.gauge.serial_number
        self.bench.open(reason)
        self.bench.do("prepared", {"serial_number": number, **card})
        self.step()
        self.step()
        return self

    def work(self, *until: str) -> "Machinist":
        """Do what the console says until one of these steps, or until no audit is open."""
        self.obedient.work(*until, "idle", "signed", "unsafe", most=200)
        return self

    def step(self):
        """Do the one next thing; returns the events' data."""
        ack = self.obedient.step()
        return tuple(decode(self.bench.events[seq - 1 - self.bench.rows]) for seq in ack.seqs)

    def obey(self) -> None:
        """Do with the hands what the console says, and press nothing."""
        self.obedient.obey(self.look())

    def face(self, place: Position) -> float:
        """What the gauge shows at a position."""
        return round(self.sense * self.head.at(place) + self.plus_mm, 3)

    def shown(self) -> float:
        return self.plus_mm if self.place is None else self.face(self.place)

    def press(self, kind: str, payload: Plain) -> Ack:
        if kind == "take" and self.place is not None and "station" not in payload:
            payload = {**payload, "position": self.place}
        return super().press(kind, payload)

    def pushed(self) -> list[float]:
        return [self.plus_mm + self.sense * mm for mm in (0.0, 0.8, 1.1, *[0.0] * 10)]

    def swing(self, position: Position) -> None:
        """On a mirrored machine to the other side, if that is still to be read."""
        job, other = self.bench.job, MIRROR.get(position, position)
        free = left_to_check(job) if job.step == "check" else unread_places(job)
        there = job.step == "park" or other in free
        self.place = other if self.mirrored and there else position

    def turn(self, axis: Axis, reads: float) -> None:
        before = self.head.angles[axis]
        self.head.turn(axis, self.place, (reads * self.scale - self.plus_mm) * self.sense)
        self.went[axis] = math.copysign(1.0, self.head.angles[axis] - before)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        self.head.shift(axis, -self.went.get(axis, 1.0) * NUDGE_MM if back else NUDGE_MM)

    def crack(self, axis: Axis) -> None:
        """The head does not drop."""

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """All bolts, or one by one step: its part of the shift comes."""
        parts = len(steps(self.bench.setup.machine.axis(axis).tighten)) or 1
        self.head.shift(axis, self.shifts.get(axis, 0.0) / parts)
        self.head.lift_mm += self.lift_mm / parts

    def sweep(self, *order: Position):
        """A full sweep in that order; returns its SweepDone, or None when one is not done yet."""
        places = order or self.bench.setup.plan.positions
        found = ()
        for place in (*places, places[0]):
            self.place = place
            found = self.bench.take(place, self.face(place))
        return next(data for data in found if type(data).__name__ == "SweepDone")

    def finish(self, **more):
        """Work to the end and sign; returns the Signed."""
        self.work("clear", "sign")
        if self.bench.job.step == "clear":
            self.bench.do("cleared")
        past = {"last_good": "2026-01-05", "disposition": "none made since"}
        return self.bench.do("sign", {"done_by": "T", **past, **more})[-1]


def changed(setup, machine=None, gauge=None, side=None, nod=None, both=None):
    """A setup with other values in its machine, its gauge, one axis or both."""
    made = setup.machine
    for key, more in (("side", side), ("nod", nod)):
        axis = replace(getattr(made, key), **{**(both or {}), **(more or {})})
        made = replace(made, **{key: axis})
    made = replace(made, **(machine or {}))
    return replace(setup, machine=made, gauge=replace(setup.gauge, **(gauge or {})))


def told(bench, kind: str):
    """The data of every event of one type, oldest first."""
    return [decode(event) for event in bench.events if event.type == kind]


def leans_mm(head: RigidHead) -> dict[Axis, float]:
    """Both leans as they truly are, across the sweep."""
    return {axis: head.true_mm(axis) for axis in AXES}
