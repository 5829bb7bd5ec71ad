"""The head as a body with habits: bolts, adjusters, slack, and where the gauge stands.

Everything here happens at once; `mill` spreads it over the time a person takes.
"""

import random
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from typing import Any, Final, Literal

from daq.virtual import geometry
from daq.virtual.spec import JointSpec, MillSpec
from daq.virtual.store import StateFileError
from daq.words import AXES, POSITIONS, Axis, Position

UNWOUND: Final[dict[Position, float]] = {**POSITIONS, "front": POSITIONS["front"] - 360.0}
"""Azimuths the cable can follow without winding up: front, right, back, left and back again."""

HAND_SD: Final = 0.02
"""How unevenly an adjuster answers the hand, as a part of the amount (invented)."""


@dataclass(slots=True)
class JointState:
    """One joint: its angle (rad), its bolts, and how far its adjuster is into its slack (rad)."""

    angle_rad: float = 0.0
    tight: bool = True
    slack_rad: float = 0.0


@dataclass(slots=True)
class HeadState:
    """All that can change about the head, the arm and the ring."""

    side: JointState = field(default_factory=JointState)
    nod: JointState = field(default_factory=JointState)
    lift_mm: float = 0.0
    quill_mm: float = 0.0
    contact: Literal["free", "set"] = "free"
    position: Position = "front"
    azimuth_deg: float = UNWOUND["front"]
    visit_mm: float = 0.0
    arm_mm: float = 0.0
    ring_deg: float = 0.0

    def plain(self) -> dict[str, Any]:
        """Return the state as plain values."""
        return asdict(self)

    @classmethod
    def restored(cls, table: Mapping[str, Any]) -> "HeadState":
        """Return the state that `plain` gave. Raises StateFileError on anything else."""
        try:
            values: dict[str, Any] = {f.name: table[f.name] for f in fields(cls)}
            side, nod = JointState(**values.pop("side")), JointState(**values.pop("nod"))
            state = cls(side=side, nod=nod, **values)
        except (KeyError, TypeError) as error:
            raise StateFileError(str(error)) from error
        state.check()
        return state

    def check(self) -> None:
        """Raise StateFileError when a value is not of its kind."""
        words = {"position": tuple(POSITIONS), "contact": ("free", "set")}
        for name, allowed in words.items():
            if getattr(self, name) not in allowed:
                found = getattr(self, name)
                raise StateFileError(f"{name}: found {found!r}; allowed: {', '.join(allowed)}")
        tables = {"": self.plain(), "side.": asdict(self.side), "nod.": asdict(self.nod)}
        for where, table in tables.items():
            for name in set(table) - {"position", "contact", "side", "nod"}:
                if not isinstance(table[name], int | float):
                    found = table[name]
                    raise StateFileError(f"{where}{name}: found {found!r}; allowed: a number")


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
        slope = self.spec.start_mm / (2.0 * self.spec.radius_mm)
        side, nod = (self.rng.choice((-slope, slope)) for _ in AXES)
        self.state = HeadState(ring_deg=self.state.ring_deg)
        angles = geometry.joints_for(self.spec, side, nod)
        for axis, angle in zip(AXES, angles, strict=True):
            slack = self.rng.uniform(0.0, self._rad(self.spec.joint(axis).backlash_mm))
            self._put(axis, JointState(angle, True, slack))

    def joint(self, axis: Axis) -> JointState:
        """Return the state of one joint."""
        return self.state.side if axis == "side" else self.state.nod

    def leans(self) -> tuple[float, float]:
        """Return the true leans (side, nod) against the table, mm/mm."""
        return geometry.leans(self._pose())

    def compression(self) -> float:
        """Return how far the plunger is pushed in, mm; less than 0 is clear of the surface."""
        if self.state.contact == "free":
            return 0.0
        return self._surface() - self.state.quill_mm + self.state.visit_mm + self.state.arm_mm

    def set_down(self) -> None:
        """Bring the contact down on the surface with roughly the usual preload."""
        preload = self.spec.gauge.preload_mm * self.rng.uniform(0.95, 1.05)
        self.state.quill_mm = self._surface() - preload
        self.state.arm_mm = 0.0
        self.state.contact = "set"

    def land(self, position: Position) -> None:
        """Let the contact come to rest at `position`, a little differently at each visit."""
        self.state.position = position
        self.state.azimuth_deg = UNWOUND[position]
        self.state.visit_mm = self.rng.gauss(0.0, self.spec.gauge.visit_sd_mm)

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

    def _pose(self) -> geometry.Pose:
        state = self.state
        return geometry.pose(self.spec, state.side.angle_rad, state.nod.angle_rad, state.lift_mm)

    def _surface(self) -> float:
        wedge = self.spec.wedge_mm / (2.0 * self.spec.radius_mm)
        normal = geometry.surface_normal(wedge, self.spec.wedge_azimuth_deg + self.state.ring_deg)
        return geometry.surface_height(
            self._pose(), normal, self.spec.radius_mm, self.state.azimuth_deg
        )
