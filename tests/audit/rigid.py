"""A head of exact rigid geometry and a machinist who obeys the console, at a pure bench.

The head comes from the virtual mill's geometry, which knows nothing of the advice.
"""

import math
from collections.abc import Mapping
from dataclasses import replace

from daq.audit.codec import decode
from daq.audit.facts import left_to_check, wanted
from daq.squaring.tightening import steps
from daq.virtual import geometry
from daq.virtual.spec import JointSpec, MillSpec
from daq.words import AXES, OPPOSITE, POSITIONS, Axis, Position

ZERO_MM = 1.5
"""What the gauge reads with the head square: pushed in so far from a free reading of 0."""

NUDGE_MM = 0.1
"""What a few degrees of an adjuster do, across the sweep."""

MIRROR: dict[Position, Position] = {"right": "left", "left": "right"}


def mill(
    radius_mm: float = 100.0,
    side: tuple[float, float] = (0.0, 0.0),
    nod: tuple[float, float] = (150.0, 0.0),
    height_mm: float = 400.0,
    ram_deg: float = 0.0,
    wedge_mm: float = 0.0,
    axial_mm: float = 0.0,
) -> MillSpec:
    """A mill by its pivots: (left of the spindle, coupling), (behind the spindle, coupling)."""
    still = {"pivot_height_mm": height_mm, "backlash_mm": 0.0}
    spec = MillSpec(
        radius_mm=radius_mm,
        side=JointSpec(pivot_x_mm=-side[0], coupling=side[1], **still),
        nod=JointSpec(pivot_y_mm=nod[0], coupling=nod[1], **still),
        wedge_mm=wedge_mm,
        axial_mm=axial_mm,
    )
    return spec.swung(ram_deg) if ram_deg else spec


class RigidHead:
    """A head that leans as told; `at` is what a gauge of 0.001 mm reads at a position."""

    def __init__(self, spec: MillSpec, side_mm: float, nod_mm: float) -> None:
        across = 2.0 * spec.radius_mm
        side, nod = geometry.joints_for(spec, side_mm / across, nod_mm / across)
        self.spec = spec
        self.angle: dict[Axis, float] = {"side": side, "nod": nod}
        self.zero_mm = ZERO_MM
        self.lift_mm = 0.0
        self.ring_deg = 0.0
        self.arm_deg = 0.0

    def true_mm(self, axis: Axis) -> float:
        """The lean of an axis as the difference across the sweep."""
        side, nod = geometry.leans(self._pose())
        return 2.0 * self.spec.radius_mm * (side if axis == "side" else nod)

    def exactly(self, position: Position, radius_mm: float | None = None) -> float:
        """What a gauge without a last digit reads at a position."""
        spec = self.spec
        azimuth = POSITIONS[position]
        wedge = spec.wedge_mm / (2.0 * spec.radius_mm)
        normal = geometry.surface_normal(wedge, spec.wedge_azimuth_deg + self.ring_deg)
        reach = radius_mm or spec.radius_mm
        height = geometry.surface_height(self._pose(), normal, reach, azimuth)
        turned = math.radians(azimuth - self.arm_deg - spec.axial_azimuth_deg)
        return height + self.zero_mm + spec.axial_mm * math.cos(turned)

    def at(self, position: Position) -> float:
        """What the gauge reads at a position."""
        return round(self.exactly(position), 3)

    def opposite(self, position: Position, radius_mm: float) -> float:
        """What the gauge at the other end of a bar reads."""
        return round(self.exactly(OPPOSITE[position], radius_mm), 3)

    def turn(self, axis: Axis, position: Position, stop_mm: float) -> None:
        """Turn an adjuster until the gauge at a position reads that (secant steps)."""
        step = 1e-4
        for _ in range(30):
            off = self.exactly(position) - stop_mm
            if abs(off) < 1e-9:
                return
            self.angle[axis] += step
            gain = (self.exactly(position) - stop_mm - off) / step
            self.angle[axis] -= step + off / gain

    def shift(self, axis: Axis, across_mm: float) -> None:
        """Lean an axis by so much across the sweep."""
        self.angle[axis] += across_mm / (2.0 * self.spec.radius_mm)

    def _pose(self) -> geometry.Pose:
        return geometry.pose(self.spec, self.angle["side"], self.angle["nod"], self.lift_mm)


class Machinist:
    """Obeys the console of a bench on one head; everything reads as the head stands.

    `shifts`: what tightening does to each axis, mm across the sweep, and `lift_mm` to the
    whole head. `miss_mm`: how far
    each turn ends beyond its stop-at. What the gauge shows is `sense` times what it is
    pushed in, and `plus_mm`. `mirrored`: does everything on the other side, left for right.
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
        self.lift_mm = lift_mm
        self.went: dict[Axis, float] = {}
        self.sense = sense
        self.plus_mm = plus_mm
        self.mirrored = mirrored
        self.bench = bench
        self.head = head
        self.shifts = dict(shifts or {})
        self.miss_mm = miss_mm
        self.place: Position = "front"
        self.asked = ""

    def start(self, reason: str = "scheduled", **card) -> "Machinist":
        """Open, prepare and touch."""
        b = self.bench
        number = b.setup.gauge.serial_number
        b.do("open", {"reason": reason})
        b.do("prepared", {"serial_number": number, **card})
        b.do("take", {}, [self.plus_mm] * 10)
        b.do("pushed", {}, self._pushed())
        return self

    def _pushed(self) -> list[float]:
        return [self.plus_mm + self.sense * mm for mm in (0.0, 0.8, 1.1, 0.0)]

    def face(self, place: Position) -> float:
        """What the gauge shows at a position."""
        return round(self.sense * self.head.at(place) + self.plus_mm, 3)

    def work(self, *until: str) -> "Machinist":
        """Do what the console says until one of these steps."""
        for _ in range(200):
            if self.bench.job is None or self.bench.job.step in until:
                return self
            self.step()
        raise AssertionError(f"never {until}: {self.bench.console['title']}")

    def step(self):
        """Do the one next thing; returns the events' data."""
        b = self.bench
        console = b.console
        action, do = console["actions"][0], console["do"]
        if action["kind"] == "answer":
            # Read again, and the same is asked: then something else is true.
            say = console["question"]["say"]
            action = console["actions"][int(say == self.asked)]
            self.asked = say
        if do["kind"] == "free":
            return b.do("take", {}, [self.plus_mm] * 10)
        if do["kind"] == "push":
            return b.do("pushed", {}, self._pushed())
        if do["kind"] == "swing":
            self.place = self._place(do["position"])
        if action["kind"] == "take":
            return b.take(self.place, self.face(self.place))
        if do["kind"] == "turn":
            self.turn()
        if do["kind"] == "nudge":
            self.nudge(do["axis"], do["back"])
        if do["kind"] in ("tighten", "bolt"):
            self.tighten(do["axis"])
        return b.do(action["kind"], action["payload"], [self.face(self.place)] * 10)

    def tighten(self, axis: Axis) -> None:
        """Pull up all bolts of an axis, or one by one step: its part of the shift comes."""
        parts = len(steps(self.bench.setup.machine.axis(axis).tighten)) or 1
        self.head.shift(axis, self.shifts.get(axis, 0.0) / parts)
        self.head.lift_mm += self.lift_mm / parts

    def _place(self, asked: Position) -> Position:
        """Where to go: on a mirrored machine to the other side, if that is still to be read."""
        job, other = self.bench.job, MIRROR.get(asked, asked)
        free = left_to_check(job) if job.step == "check" else wanted(job)
        there = job.step == "park" or other in free
        return other if self.mirrored and there else asked

    def turn(self) -> None:
        """Turn the adjuster the console names to where it says."""
        stop = self.bench.job.stop
        stop_mm = (stop.stop_face_mm - self.plus_mm) * self.sense
        before = self.head.angle[stop.axis]
        self.head.turn(stop.axis, stop.position, stop_mm + self.miss_mm)
        self.went[stop.axis] = math.copysign(1.0, self.head.angle[stop.axis] - before)

    def nudge(self, axis: Axis, back: bool) -> None:
        """Turn an adjuster a little, back from where it went last or any way."""
        self.head.shift(axis, -self.went.get(axis, 1.0) * NUDGE_MM if back else NUDGE_MM)

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
