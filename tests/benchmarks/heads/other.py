"""Somebody else's head: joints as screws, friction in both of them, a bar that is wound up.

It shares nothing with the other exact head here, nor with what reads, learns or advises: a
pose is a product of exponentials of two twists (screw theory), the contact a ray that is cut
with the ring's plane. Lengths mm, angles rad.

An adjuster drives its joint through something that gives. Coulomb friction holds the joint until
that is wound up, so a change of direction goes unanswered at first; cracking the bolts lets all
of it go, tightening them some of it, forward and by another share each time.
"""

import math
from random import Random

import numpy as np
import numpy.typing as npt

from daq.words import POSITIONS, Axis, Position

Array = npt.NDArray[np.float64]

FREE_MM = -10.0
COUNT_MM = 0.001
LANDS_MM = 0.0012
"""The contact lands anywhere within this."""
HAND_MM = 0.002
WOUND_RAD = 4e-5
"""How far a joint's drive gives before it follows: 8 µm over 200 mm."""
RELEASED = 0.3
"""Tightening lets at most so much of it go."""


def _exponential(axis: Array, through: Array, angle: float) -> Array:
    """The motion of a turn about a line: twist (v, ω) with v = −ω × q, as a 4 × 4 matrix."""
    wx, wy, wz = axis
    hat = np.array([[0.0, -wz, wy], [wz, 0.0, -wx], [-wy, wx, 0.0]])
    turn = np.eye(3) + math.sin(angle) * hat + (1.0 - math.cos(angle)) * hat @ hat
    motion = np.eye(4)
    motion[:3, :3], motion[:3, 3] = turn, (np.eye(3) - turn) @ through
    return motion


class Screwed:
    """One head during one audit; what belongs to it for good follows from `seed`."""

    def __init__(self, seed: str, audit: int, radius_mm: float, start_mm: tuple[float, float]):
        """Stand it, turned out of square by about `start_mm` across the sweep."""
        own = Random(f"screwed {seed}")
        self._lines: dict[Axis, tuple[Array, Array]] = {
            "side": _line(own, 0.0, (own.gauss(0.0, 0.02), 1.0)),
            "nod": _line(own, own.uniform(120.0, 260.0), (1.0, own.gauss(0.0, 0.02))),
        }
        self._rng = Random(f"screwed {seed} {audit}")
        self.radius_mm = radius_mm
        side_mm, nod_mm = (mm / (2.0 * radius_mm) for mm in start_mm)
        self.joints: dict[Axis, float] = {"side": side_mm, "nod": nod_mm}
        self.wound: dict[Axis, float] = {"side": 0.0, "nod": 0.0}
        thick, tilt = self._rng.uniform(0.0, math.tau), self._rng.uniform(0.0, 0.003)
        rises = tilt / (2.0 * radius_mm)
        self._plane = np.array([-rises * math.cos(thick), -rises * math.sin(thick), 1.0])
        self._at: Position | None = None
        self._landed_mm = self._zero_mm = 0.0
        self._zero_mm = self._depth("front")

    def differences(self) -> tuple[float, float]:
        """What an ideal sweep of a level plane would show, side and nod."""
        normal = self._pose()[:3, :3].T @ np.array([0.0, 0.0, 1.0])
        across_mm = 2.0 * self.radius_mm
        return float(-normal[0] / normal[2]) * across_mm, float(normal[1] / normal[2]) * across_mm

    def reads(self, at: Position | None) -> float:
        """What the gauge shows, in whole counts."""
        if at != self._at:
            self._at, self._landed_mm = at, self._rng.uniform(-LANDS_MM, LANDS_MM)
        shown_mm = FREE_MM if at is None else self._depth(at) - self._zero_mm + self._landed_mm
        return round(shown_mm / COUNT_MM) * COUNT_MM

    def turn(self, axis: Axis, at: Position, reads: float) -> None:
        """Work the adjuster until the number stands there, as near as a hand comes."""
        self.reads(at)
        goal_mm = reads + self._rng.uniform(-HAND_MM, HAND_MM) - self._landed_mm + self._zero_mm
        low, high = self.joints[axis] - 0.1, self.joints[axis] + 0.1
        began, rises = self.joints[axis], self._with(axis, high, at) > self._with(axis, low, at)
        for _ in range(60):
            middle = (low + high) / 2.0
            if (self._with(axis, middle, at) < goal_mm) == rises:
                low = middle
            else:
                high = middle
        self.joints[axis] = low
        # Whatever way it went, friction has wound the drive up that way.
        self.wound[axis] = math.copysign(WOUND_RAD, low - began)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn an adjuster a little: the other way than it is wound up, or any way."""
        way = -math.copysign(1.0, self.wound[axis]) if back else 1.0
        self.joints[axis] += way * 0.05 / self.radius_mm
        self.wound[axis] = way * WOUND_RAD

    def crack(self, axis: Axis) -> None:
        """Loose bolts hold nothing: the joint follows its drive."""
        self._release(axis, 1.0)

    def pull(self, axis: Axis, part: float) -> None:
        """Each pull lets some of it go."""
        self._release(axis, part * self._rng.uniform(0.0, RELEASED))

    def let_go(self, axis: Axis, position: Position) -> None:
        """Friction holds it where it stands."""

    def passes(self, seconds: float) -> None:
        """It stands."""

    def turn_round(self, what: str) -> None:
        """The ring's high side comes opposite."""
        if what == "ring":
            self._plane[:2] *= -1.0

    def _release(self, axis: Axis, share: float) -> None:
        self.joints[axis] += share * self.wound[axis]
        self.wound[axis] *= 1.0 - share

    def _pose(self) -> Array:
        (side, side_at), (nod, nod_at) = self._lines["side"], self._lines["nod"]
        inner = _exponential(side, side_at, self.joints["side"])
        return _exponential(nod, nod_at, self.joints["nod"]) @ inner

    def _with(self, axis: Axis, angle: float, at: Position) -> float:
        stood, self.joints[axis] = self.joints[axis], angle
        depth_mm = self._depth(at)
        self.joints[axis] = stood
        return depth_mm

    def _depth(self, at: Position) -> float:
        """How far below the contact's own level the ring cuts its plunger's line."""
        phi, pose = math.radians(POSITIONS[at]), self._pose()
        foot = np.array([self.radius_mm * math.cos(phi), self.radius_mm * math.sin(phi), 0.0, 1.0])
        start, along = (pose @ foot)[:3], pose[:3, 2]
        return float(-(self._plane @ start) / (self._plane @ along))


def _line(own: Random, behind_mm: float, along: tuple[float, float]) -> tuple[Array, Array]:
    """A joint's axis and a point on it."""
    direction = np.array([*along, 0.0])
    through = np.array([own.gauss(0, 3.0), behind_mm + own.gauss(0, 3.0), own.uniform(250, 520)])
    return direction / np.linalg.norm(direction), through
