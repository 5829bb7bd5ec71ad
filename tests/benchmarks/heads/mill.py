"""A mill's head as an exact rigid body, with a gauge in its spindle and hands at its adjusters.

It shares no code with what reads, learns or advises: it takes only the words of the trade
from the house. X right, Y away from the operator, Z up; the spindle stands over the origin
and the surface swept goes through it. The side hinge lies along Y and hangs on the nod
hinge, which lies along X. Lengths mm, angles rad unless a name says otherwise.
"""

import math
from dataclasses import dataclass, field
from random import Random

import numpy as np
import numpy.typing as npt

from daq.words import AXES, POSITIONS, Axis, Position

Array = npt.NDArray[np.float64]

IN_AIR_MM = 10.0
"""How far below its first reading the gauge reads with its contact in the air."""
NUDGE_MM = 0.1
"""What a few degrees of an adjuster do, across the sweep."""
UP: Array = np.array([0.0, 0.0, 1.0])
_STEP_RAD = 1e-5
_NEAR_MM = 1e-9
_DIRECTIONS = {
    position: (math.cos(math.radians(azimuth)), math.sin(math.radians(azimuth)))
    for position, azimuth in POSITIONS.items()
}


@dataclass(frozen=True, slots=True)
class Hinge:
    """Where one hinge line stands, and `coupling`: the other lean per unit of its own."""

    x_mm: float
    y_mm: float
    height_mm: float
    coupling: float = 0.0


@dataclass(frozen=True, slots=True)
class Head:
    """What belongs to one head for good; `shift_sign`: which way tightening leans each axis."""

    side: Hinge
    nod: Hinge
    shift_sign: tuple[int, int] = (1, 1)


@dataclass(frozen=True, slots=True)
class Conditions:
    """How well everything behaves, mm.

    `sigma_mm`: how differently the contact lands each time it is swung to a place, and with
    `slides` each time the head was turned under it; while it rests it shows the same.
    `resolution_mm`: a count of the gauge.
    `wedge_mm`: the ring's, across the sweep. `stop_error_mm`: the hand stops anywhere
    within this of the stop-at. `shift_mm` over `shift_over_mm`: what tightening does to its
    axis, each time scattered by `shift_scatter` of it (standard deviation), with a lift of
    the whole head by about `lift_mm`. `relax_mm`: how far the parked reading creeps back
    once the hand has left. `bump_chance` an audit: somebody hits the arm, which shows at
    the gauge as about `arm_mm` and turns each axis by about `knock_mm` across the sweep.
    """

    sigma_mm: float = 0.0007
    slides: bool = False
    resolution_mm: float = 0.001
    wedge_mm: float = 0.003
    stop_error_mm: float = 0.002
    shift_mm: float = 0.0
    shift_over_mm: float = 200.0
    shift_scatter: float = 0.25
    lift_mm: float = 0.002
    relax_mm: float = 0.0
    relax_scatter: float = 0.25
    bump_chance: float = 0.0
    arm_mm: float = 0.05
    knock_mm: float = 0.02


@dataclass(frozen=True, slots=True)
class Visit:
    """One audit's circumstances: how far out each axis starts, mm across the sweep.

    `ring_deg`: where the ring is thickest. `bump_at`: the reading before which a bump comes
    if there is one, and `bump_draw`, from 0 to 1, whether there is. `seed`: of all else.
    """

    radius_mm: float
    start_mm: tuple[float, float]
    ring_deg: float
    bump_at: int
    bump_draw: float
    seed: str


def turned(axis: Array, angle: float) -> Array:
    """The matrix of a right-handed turn about a unit vector (Rodrigues' formula)."""
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    matrix: Array = np.eye(3) + math.sin(angle) * cross + (1 - math.cos(angle)) * cross @ cross
    return matrix


def _line(hinge: Hinge, along: tuple[float, float]) -> tuple[Array, Array]:
    """A point of a hinge line, and its unit direction."""
    direction = np.array([*along, 0.0])
    point = np.array([hinge.x_mm, hinge.y_mm, hinge.height_mm])
    return point, direction / np.linalg.norm(direction)


@dataclass(slots=True)
class Mill:
    """One head during one audit. Readings come as the gauge shows them, in mm."""

    head: Head
    conditions: Conditions
    visit: Visit
    angles: dict[Axis, float] = field(default_factory=lambda: dict.fromkeys(AXES, 0.0))
    knocks: dict[Axis, float] = field(default_factory=lambda: dict.fromkeys(AXES, 0.0))
    lift_mm: float = 0.0
    arm_mm: float = 0.0
    readings: int = 0
    _rng: Random = field(init=False)
    _lines: dict[Axis, tuple[Array, Array]] = field(init=False)
    _ring: Array = field(init=False)
    _plane: tuple[float, ...] = field(init=False)
    _last_way: float = 1.0
    _last_turn: float = 1.0
    _stands: Position | None = None
    _landed_mm: float = 0.0

    def __post_init__(self) -> None:
        """Stand the head where this audit finds it, the contact on the ring."""
        self._rng = Random(self.visit.seed)
        self._lines = {
            "side": _line(self.head.side, (self.head.side.coupling, 1.0)),
            "nod": _line(self.head.nod, (1.0, self.head.nod.coupling)),
        }
        wedge = self.conditions.wedge_mm / self.across_mm
        thick = math.radians(self.visit.ring_deg)
        self._ring = np.array([-wedge * math.cos(thick), -wedge * math.sin(thick), 1.0])
        self._lean_by(*self.visit.start_mm)
        self.arm_mm = -self._pushed("front")

    @property
    def across_mm(self) -> float:
        """The diameter of the sweep."""
        return 2.0 * self.visit.radius_mm

    def _lean_by(self, side_mm: float, nod_mm: float) -> None:
        """Turn both hinges until the differences are these; each pass mends what is missing."""
        for _ in range(8):
            self._stand()
            found = self.differences()
            self.angles["side"] += (side_mm - found[0]) / self.across_mm
            self.angles["nod"] += (nod_mm - found[1]) / self.across_mm
        self._stand()

    def _pose(self) -> tuple[Array, Array]:
        """Where the head's own origin stands, and the matrix of its axes."""
        (side_point, side_line), (nod_point, nod_line) = self._lines["side"], self._lines["nod"]
        inner = turned(side_line, self.angles["side"])
        outer = turned(nod_line, self.angles["nod"])
        origin = nod_point + outer @ (side_point - inner @ side_point - nod_point)
        matrix = outer @ inner
        if self.knocks["side"] or self.knocks["nod"]:
            # About the middle of the circle: bolts and knocks turn the head about no pivot.
            knock = turned(np.array([0.0, 1.0, 0.0]), self.knocks["side"])
            knock = turned(np.array([1.0, 0.0, 0.0]), self.knocks["nod"]) @ knock
            origin, matrix = knock @ origin, knock @ matrix
        return origin + self.lift_mm * UP, matrix

    def _stand(self) -> None:
        """Work out how the plunger's line meets the ring, once for every place of the circle."""
        origin, matrix = self._pose()
        across = self._ring @ matrix
        down, right, away = -float(across[2]), float(across[0]), float(across[1])
        radius = self.visit.radius_mm
        height = float(self._ring @ origin) / down
        self._plane = (height, radius * right / down, radius * away / down)

    def _pushed(self, position: Position) -> float:
        """How far the plunger is pushed in: the exact cut of its line with the ring's plane."""
        height, right, away = self._plane
        along_x, along_y = _DIRECTIONS[position]
        return height + right * along_x + away * along_y + self.arm_mm

    def differences(self) -> tuple[float, float]:
        """The true differences across the sweep, right − left and front − back, ring aside."""
        _, matrix = self._pose()
        lean = matrix[2] / matrix[2, 2]
        return -float(lean[0]) * self.across_mm, float(lean[1]) * self.across_mm

    def indication(self, position: Position) -> float:
        """What the gauge shows at a place it was swung to, or still stands at, in whole counts."""
        if position != self._stands:
            self._stands = position
            self._land()
        self.readings += 1
        due = self.visit.bump_draw < self.conditions.bump_chance
        if due and self.readings == self.visit.bump_at:
            self._bump()
        return self._counts(self._pushed(position) + self._landed_mm)

    def reads(self, at: Position | None) -> float:
        """What the gauge shows at a place, or with its contact hanging free."""
        if at is not None:
            return self.indication(at)
        self._stands = None
        return self._counts(-IN_AIR_MM)

    def _land(self) -> None:
        self._landed_mm = self._rng.gauss(0, self.conditions.sigma_mm)

    def _counts(self, mm: float) -> float:
        count = self.conditions.resolution_mm
        return round(mm / count) * count

    def turn(self, axis: Axis, position: Position, stop_mm: float) -> None:
        """Turn an adjuster, the gauge parked, until it shows about `stop_mm`.

        The hand sees whole counts: it cannot come nearer than half of one.
        """
        error = max(self.conditions.stop_error_mm, self.conditions.resolution_mm / 2)
        if position != self._stands or self.conditions.slides:
            self._stands = position
            self._land()
        target = self._counts(stop_mm) + self._rng.uniform(-error, error) - self._landed_mm
        self._last_way = math.copysign(1.0, target - self._pushed(position))
        before = self.angles[axis]
        for _ in range(20):
            missing = target - self._pushed(position)
            if abs(missing) < _NEAR_MM:
                self._last_turn = self.angles[axis] - before
                return
            self._swing(axis, missing / self._gain(axis, position))
        raise ArithmeticError(f"{axis} cannot reach {stop_mm} mm at {position}")

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn an adjuster a little, back from where it was turned last or any way."""
        way = -math.copysign(1.0, self._last_turn) if back else 1.0
        self._swing(axis, way * NUDGE_MM / self.across_mm)

    def _swing(self, axis: Axis, angle: float) -> None:
        self.angles[axis] += angle
        self._stand()

    def _gain(self, axis: Axis, position: Position) -> float:
        """How the reading answers a small turn, mm/rad."""
        before = self._pushed(position)
        self._swing(axis, _STEP_RAD)
        gain = (self._pushed(position) - before) / _STEP_RAD
        self._swing(axis, -_STEP_RAD)
        return gain

    def let_go(self, axis: Axis, position: Position) -> None:
        """The hand leaves: the axis creeps back the way it came."""
        if not self.conditions.relax_mm:
            return
        back = self.conditions.relax_mm * self._rng.gauss(1, self.conditions.relax_scatter)
        self._swing(axis, -self._last_way * back / self._gain(axis, position))

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts: nothing drops."""

    def pull(self, axis: Axis, part: float) -> None:
        """Pull up all bolts: the axis leans a little, the head lifts or drops a little."""
        if not self.conditions.shift_mm:
            return
        mean = self.conditions.shift_mm / self.conditions.shift_over_mm
        sign = self.head.shift_sign[AXES.index(axis)]
        self.knocks[axis] += sign * mean * self._rng.gauss(1, self.conditions.shift_scatter)
        self.lift_mm += self._rng.gauss(0, self.conditions.lift_mm)
        self._stand()

    def _bump(self) -> None:
        self.arm_mm += self._rng.gauss(0, self.conditions.arm_mm)
        for axis in AXES:
            self.knocks[axis] += self._rng.gauss(0, self.conditions.knock_mm) / self.across_mm
        self._stand()
