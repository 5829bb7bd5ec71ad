"""The head as a body with habits: bolts, adjusters, slack, and where the gauge stands.

Everything here happens at once; `mill` spreads it over the time a person takes.
"""

import math
import random
from typing import Final

from daq.virtual import geometry
from daq.virtual.deeds import Stand
from daq.virtual.lessons import Lesson
from daq.virtual.spec import JointSpec, MillSpec
from daq.virtual.standing import UNWOUND, HeadState, JointState
from daq.virtual.stations import bar_met
from daq.words import AXES, Axis, Position

HAND_SD: Final = 0.02
"""How unevenly an adjuster answers the hand, as a part of the amount (invented)."""

CHIP_DEG: Final = 180.0
"""Where a ring that rocks on a chip stands higher than its plane, a sixth of its round each way."""

ALL: Final = 1e-9
"""So little of a tightening that it is none."""


class Head:
    """The mill's head, answering hands exactly as its geometry and its habits make it."""

    def __init__(self, spec: MillSpec, rng: random.Random, state: HeadState | None = None) -> None:
        """Take over `state`, or throw the head out of square for a fresh start."""
        self.spec = spec
        self.rng = rng
        self.state = state or HeadState()
        if state is None:
            self.throw()

    def throw(self) -> None:
        """Throw the head out of square by the start error on both axes; bolts tight, gauge free."""
        start = self.spec.start_mm
        self._lean_by(*(self.rng.choice((-start, start)) for _ in AXES))

    def begin(self, lesson: Lesson) -> None:
        """Become the mill that this lesson is about, as it begins: the same each time."""
        self.spec, self.rng = lesson.mill, random.Random(f"lesson {lesson.seed}")
        self.state = HeadState()
        self._lean_by(lesson.side_mm, lesson.nod_mm)
        self.state.chip_mm = lesson.chip_mm
        self.land(lesson.at)

    def _lean_by(self, side_mm: float, nod_mm: float) -> None:
        """Stand out of square by this much across the sweep; bolts tight, gauge free."""
        self.state = HeadState(ring_deg=self.state.ring_deg, arm_deg=self.state.arm_deg)
        leans = self._rad(side_mm), self._rad(nod_mm)
        angles = geometry.joints_for(self.spec, *leans)
        for axis, angle in zip(AXES, angles, strict=True):
            slack = self.rng.uniform(0.0, self._rad(self.spec.joint(axis).backlash_mm))
            self._put(axis, JointState(angle, True, slack))

    def joint(self, axis: Axis) -> JointState:
        """Return the state of one joint."""
        return self.state.side if axis == "side" else self.state.nod

    def leans(self) -> tuple[float, float]:
        """Return the true leans (side, nod) against the table, mm/mm."""
        return geometry.leans(self._pose(self.state.lift_mm))

    def stand(self) -> Stand:
        """Return how everything truly stands that a score goes by."""
        side, nod = self.leans()
        joints = {axis: self.joint(axis) for axis in AXES}
        return Stand(
            {"side": side, "nod": nod},
            self.state.position if self.state.set_up == "ring" else "",
            self.state.contact == "set",
            tuple(axis for axis, joint in joints.items() if not joint.tight),
            tuple(axis for axis, joint in joints.items() if not joint.tight or joint.pulled < 1.0),
            self.state.chip_mm > 0.0,
        )

    def compression(self) -> float:
        """Return how far the plunger is pushed in, mm; less than 0 is clear of the surface."""
        if self.state.contact == "free":
            return 0.0
        return self._surface() - self.state.quill_mm + self.state.visit_mm + self.state.arm_mm

    def far_compression(self) -> float:
        """Return the same of the gauge at the bar's other end; 0 where there is none."""
        radius, state = self.spec.bar_radius_mm, self.state
        if radius is None or state.contact == "free":
            return 0.0
        surface = self._surface_at(radius, state.azimuth_deg + 180.0)
        return surface - state.quill_mm + self.spec.bar_lower_mm + state.far_visit_mm

    def set_down(self) -> None:
        """Bring the contact down on the surface with roughly the usual preload."""
        preload = self.spec.gauge.preload_mm * self.rng.uniform(0.95, 1.05)
        self.state.quill_mm = self._surface() - preload
        self.state.arm_mm = 0.0
        self.state.contact = "set"

    def land(self, position: Position) -> None:
        """Let the contact come to rest at `position`, a little differently at each visit."""
        if self.state.set_up != "ring":
            self.state.set_up, self.state.contact = "ring", "free"
        self.state.position = position
        self.state.azimuth_deg = UNWOUND[position]
        self.unsteady(self.spec.gauge.visit_sd_mm)

    def unsteady(self, sd_mm: float) -> None:
        """Let each contact stand a little differently from before."""
        self.state.visit_mm = self.rng.gauss(0.0, sd_mm)
        if self.spec.bar_radius_mm is not None:
            self.state.far_visit_mm = self.rng.gauss(0.0, sd_mm)

    def turn(self, axis: Axis, amount_mm: float) -> None:
        """Turn an adjuster by an amount of lean across the sweep; loose bolts are a must.

        The slack between the two directions is taken up before the head follows.
        """
        joint = self.joint(axis)
        if joint.tight:
            return
        turned = self._rad(amount_mm)
        backlash = self._rad(self.spec.joint(axis).backlash_mm)
        room = backlash - joint.slack_rad if turned > 0 else -joint.slack_rad
        taken = min(turned, room) if turned > 0 else max(turned, room)
        joint.slack_rad += taken
        joint.angle_rad += turned - taken
        rest = self._rad(self.spec.joint(axis).rest_mm)
        joint.wound_rad = min(max(joint.wound_rad + turned - taken, -rest), rest)

    def unwind(self, axis: Axis, wound_rad: float) -> None:
        """Let the head go back by `wound_rad` of what the hand held."""
        joint = self.joint(axis)
        joint.wound_rad -= wound_rad
        joint.angle_rad -= wound_rad

    def grip(self, amount_mm: float) -> float:
        """Return what the hand really makes of `amount_mm`."""
        return amount_mm * (1.0 + self.rng.gauss(0.0, HAND_SD))

    def shift(self, axis: Axis, amount_mm: float, lift_mm: float) -> None:
        """Move a joint by itself: `amount_mm` across the sweep, and the whole head by `lift_mm`."""
        self.joint(axis).angle_rad += self._rad(amount_mm)
        self.state.lift_mm += lift_mm

    def drop_mm(self, axis: Axis) -> float:
        """Return how far the head drops when this axis is loosened, across the sweep."""
        return self.spec.joint(axis).drop_mm * self.rng.uniform(0.7, 1.3)

    def tightening_mm(self, axis: Axis) -> tuple[float, float]:
        """Return (shift across the sweep, lift) of pulling up this axis's bolts."""
        joint: JointSpec = self.spec.joint(axis)
        lean = self.rng.gauss(joint.shift_mm, joint.shift_sd_mm)
        return lean, self.rng.gauss(0.0, joint.lift_sd_mm)

    def hold(self, axis: Axis) -> None:
        """Begin to tighten loose bolts: what all of them will do together is settled now."""
        joint = self.joint(axis)
        if not joint.tight:
            joint.shift_mm, joint.lift_mm = self.tightening_mm(axis)
            joint.tight, joint.pulled, joint.bolts = True, 0.0, []

    def pull(self, axis: Axis, part: float, own_mm: float = 0.0) -> None:
        """Let `part` of the whole tightening come, and `own_mm` across the sweep besides."""
        joint = self.joint(axis)
        joint.pulled += part
        self.shift(axis, joint.shift_mm * part + own_mm, joint.lift_mm * part)

    def settle(self, axis: Axis, left: float) -> None:
        """Take `left` for what is still to come, free of what the many small parts rounded off."""
        self.joint(axis).pulled = 1.0 if left < ALL else 1.0 - left

    def take_up(self, axis: Axis, bolt: str) -> float:
        """Note that `bolt` is pulled up; return what that does besides, mm across the sweep."""
        joint = self.joint(axis)
        if bolt in joint.bolts:
            return 0.0
        joint.bolts.append(bolt)
        return dict(self.spec.joint(axis).bolts_mm).get(bolt, 0.0)

    def knock(self) -> None:
        """Knock into the arm and the head: the number jumps and stays, and both leans change."""
        self.state.arm_mm += self.rng.choice((-1.0, 1.0)) * self.spec.bump_mm
        for axis in AXES:
            self.shift(axis, self.rng.gauss(0.0, self.spec.bump_mm / 2.0), 0.0)

    def _put(self, axis: Axis, joint: JointState) -> None:
        if axis == "side":
            self.state.side = joint
        else:
            self.state.nod = joint

    def _rad(self, across_mm: float) -> float:
        return across_mm / (2.0 * self.spec.radius_mm)

    def _pose(self, lift_mm: float) -> geometry.Pose:
        state = self.state
        return geometry.pose(self.spec, state.side.angle_rad, state.nod.angle_rad, lift_mm)

    def _surface(self) -> float:
        state = self.state
        if state.set_up == "bar":
            return bar_met(self.spec.test_bar, state.spindle_deg, state.below_mm, state.seat)
        if state.set_up == "edge":
            # A table that rises is a head that comes down.
            raised = self.spec.travel.height_mm(state.table_mm)
            at, radius = self._pose(state.lift_mm - raised), self.spec.radius_mm
            return geometry.surface_height(at, geometry.UP, radius, state.azimuth_deg)
        if state.set_up == "jaw":
            return state.jaw_mm + (self.spec.jaw.rise + state.jaw_rise) * state.table_mm
        return self._surface_at(self.spec.radius_mm, state.azimuth_deg)

    def _surface_at(self, radius_mm: float, azimuth_deg: float) -> float:
        spec, state = self.spec, self.state
        wedge = spec.wedge_mm / (2.0 * spec.radius_mm)
        normal = geometry.surface_normal(wedge, spec.wedge_azimuth_deg + state.ring_deg)
        surface = geometry.surface_height(self._pose(state.lift_mm), normal, radius_mm, azimuth_deg)
        # The spindle itself moves, and everything clamped in it alike.
        turned = math.radians(state.azimuth_deg - state.arm_deg - spec.axial_azimuth_deg)
        rocked = state.chip_mm if math.cos(math.radians(azimuth_deg - CHIP_DEG)) > 0.5 else 0.0
        return surface + spec.axial_mm * math.cos(turned) + rocked
