"""A mill's head as an exact rigid body: where its plunger's line meets the surface swept.

It shares no code with what reads, learns or advises, nor with the practice mill: it takes
only the words of the trade from the house. X right, Y away from the operator, Z up; the
spindle stands over the origin and the surface swept goes through it. The side hinge lies along
Y and hangs on the nod hinge, which lies along X. Lengths mm, angles rad unless a name says
otherwise.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from daq.words import AXES, POSITIONS, Axis, Position

Array = npt.NDArray[np.float64]

UP: Array = np.array([0.0, 0.0, 1.0])
_STEP_RAD = 1e-5
_NEAR_MM = 1e-9
DIRECTIONS = {
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


def swung(side: Hinge, nod: Hinge, angle_rad: float) -> tuple[Hinge, Hinge]:
    """Both hinges on a ram swung about the spindle, anticlockwise seen from above."""
    about = turned(UP, angle_rad)
    found = []
    for hinge, along in ((side, (side.coupling, 1.0)), (nod, (1.0, nod.coupling))):
        x, y, _ = about @ np.array([hinge.x_mm, hinge.y_mm, 0.0])
        right, away, _ = about @ np.array([*along, 0.0])
        coupling = right / away if hinge is side else away / right
        found.append(replace(hinge, x_mm=float(x), y_mm=float(y), coupling=float(coupling)))
    return found[0], found[1]


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


class Rigid:
    """One head, swept at `radius_mm` on a surface `wedge_mm` thicker on one side than opposite.

    `angles` of the hinges, above zero with the right or the front low. `knocks` lean the
    head about the middle of the circle, as bolts and blows do. `stand` after any change.
    """

    def __init__(self, side: Hinge, nod: Hinge, radius_mm: float, wedge_mm: float = 0.0) -> None:
        self.radius_mm = radius_mm
        self.wedge_mm = wedge_mm
        self.angles: dict[Axis, float] = dict.fromkeys(AXES, 0.0)
        self.knocks: dict[Axis, float] = dict.fromkeys(AXES, 0.0)
        self.lift_mm = 0.0
        self._lines = {
            "side": _line(side, (side.coupling, 1.0)),
            "nod": _line(nod, (1.0, nod.coupling)),
        }
        self.lay(0.0)

    def lay(self, thickest_deg: float) -> None:
        """Lay the surface's thickest side there."""
        wedge, thick = self.wedge_mm / self.across_mm, math.radians(thickest_deg)
        self._surface = np.array([-wedge * math.cos(thick), -wedge * math.sin(thick), 1.0])
        self.stand()

    @property
    def across_mm(self) -> float:
        """The diameter of the sweep."""
        return 2.0 * self.radius_mm

    def lean_by(self, side_mm: float, nod_mm: float) -> None:
        """Turn both hinges until the differences are these; each pass mends what is missing."""
        for _ in range(8):
            found = self.differences()
            self.angles["side"] += (side_mm - found[0]) / self.across_mm
            self.angles["nod"] += (nod_mm - found[1]) / self.across_mm
        self.stand()

    def _pose(self) -> tuple[Array, Array]:
        """Where the head's own origin stands, and the matrix of its axes."""
        (side_point, side_line), (nod_point, nod_line) = self._lines["side"], self._lines["nod"]
        inner = turned(side_line, self.angles["side"])
        outer = turned(nod_line, self.angles["nod"])
        origin = nod_point + outer @ (side_point - inner @ side_point - nod_point)
        matrix = outer @ inner
        if self.knocks["side"] or self.knocks["nod"]:
            knock = turned(np.array([0.0, 1.0, 0.0]), self.knocks["side"])
            knock = turned(np.array([1.0, 0.0, 0.0]), self.knocks["nod"]) @ knock
            origin, matrix = knock @ origin, knock @ matrix
        return origin + self.lift_mm * UP, matrix

    def stand(self) -> None:
        """Work out how the plunger's line meets the surface, once for the whole circle."""
        origin, matrix = self._pose()
        across = self._surface @ matrix
        down, right, away = -float(across[2]), float(across[0]), float(across[1])
        height = float(self._surface @ origin) / down
        self._plane = (height, self.radius_mm * right / down, self.radius_mm * away / down)

    def pushed(self, position: Position, radius_mm: float | None = None) -> float:
        """How far the plunger is pushed in: the exact cut of its line with the surface."""
        height, right, away = self._plane
        along_x, along_y = DIRECTIONS[position]
        part = 1.0 if radius_mm is None else radius_mm / self.radius_mm
        return height + part * right * along_x + part * away * along_y

    def differences(self) -> tuple[float, float]:
        """The true differences across the sweep, right − left and front − back, surface aside."""
        _, matrix = self._pose()
        lean = matrix[2] / matrix[2, 2]
        return -float(lean[0]) * self.across_mm, float(lean[1]) * self.across_mm

    def swing(self, axis: Axis, angle: float) -> None:
        """Turn about one hinge."""
        self.angles[axis] += angle
        self.stand()

    def gain(self, axis: Axis, position: Position) -> float:
        """How the plunger answers a small turn, mm/rad."""
        before = self.pushed(position)
        self.swing(axis, _STEP_RAD)
        gain = (self.pushed(position) - before) / _STEP_RAD
        self.swing(axis, -_STEP_RAD)
        return gain

    def turn_to(self, axis: Axis, position: Position, pushed_mm: float) -> None:
        """Turn about one hinge until the plunger at a position is pushed in so far."""
        for _ in range(20):
            missing = pushed_mm - self.pushed(position)
            if abs(missing) < _NEAR_MM:
                return
            self.swing(axis, missing / self.gain(axis, position))
        raise ArithmeticError(f"{axis} cannot reach {pushed_mm} mm at {position}")
