"""The exact geometry of head, arm, plunger and surface. Pure: numbers in, numbers out.

X to the right, Y away from the operator, Z up; the surface swept is z = 0 before
its own wedge. With both joints at zero the spindle stands on the Z axis. The
side joint hangs on the nod joint, so the head's pose is nod after side.
"""

import math
from dataclasses import dataclass
from typing import Self

import numpy as np
import numpy.typing as npt

from daq.virtual.spec import JointSpec, MillSpec

Array = npt.NDArray[np.float64]

UP: Array = np.array([0.0, 0.0, 1.0])


def rotation(axis: Array, angle_rad: float) -> Array:
    """Return the matrix of a right-handed turn about unit vector `axis` (Rodrigues' formula)."""
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turned = math.sin(angle_rad) * cross + (1.0 - math.cos(angle_rad)) * (cross @ cross)
    matrix: Array = np.eye(3) + turned
    return matrix


@dataclass(frozen=True, slots=True)
class Hinge:
    """A line in space that part of the head turns about."""

    point: Array
    axis: Array

    @classmethod
    def side(cls, joint: JointSpec) -> Self:
        """Return the side hinge: along Y, positive leans the spindle's top to the right."""
        return cls._of(joint, np.array([joint.coupling, 1.0, 0.0]))

    @classmethod
    def nod(cls, joint: JointSpec) -> Self:
        """Return the nod hinge: along X, positive leans the spindle's top to the operator."""
        return cls._of(joint, np.array([1.0, joint.coupling, 0.0]))

    @classmethod
    def _of(cls, joint: JointSpec, along: Array) -> Self:
        point = np.array([joint.pivot_x_mm, joint.pivot_y_mm, joint.pivot_height_mm])
        return cls(point, along / np.linalg.norm(along))


@dataclass(frozen=True, slots=True)
class Pose:
    """Where the head is: a body point p stands at origin + matrix @ p."""

    origin: Array
    matrix: Array


def pose(spec: MillSpec, side_rad: float, nod_rad: float, lift_mm: float = 0.0) -> Pose:
    """Return the head's pose with its joints at `side_rad` and `nod_rad`, raised by `lift_mm`."""
    side, nod = Hinge.side(spec.side), Hinge.nod(spec.nod)
    inner, outer = rotation(side.axis, side_rad), rotation(nod.axis, nod_rad)
    after_side = side.point - inner @ side.point
    origin = nod.point + outer @ (after_side - nod.point) + lift_mm * UP
    return Pose(origin, outer @ inner)


def surface_normal(wedge_slope: float, thickest_deg: float) -> Array:
    """Return the unit normal of a plane through the origin rising by `wedge_slope` that way."""
    azimuth = math.radians(thickest_deg)
    normal = np.array([-wedge_slope * math.cos(azimuth), -wedge_slope * math.sin(azimuth), 1.0])
    unit: Array = normal / np.linalg.norm(normal)
    return unit


def surface_height(at: Pose, normal: Array, radius_mm: float, azimuth_deg: float) -> float:
    """Return how high up the plunger's line the surface is met, mm in the head's own frame.

    The plunger's line runs parallel to the spindle at `radius_mm`; larger means
    that the plunger is pushed in further. Exact intersection of line and plane.
    """
    azimuth = math.radians(azimuth_deg)
    foot = np.array([radius_mm * math.cos(azimuth), radius_mm * math.sin(azimuth), 0.0])
    start = at.origin + at.matrix @ foot
    return float(-(normal @ start) / (normal @ (at.matrix @ UP)))


def leans(at: Pose) -> tuple[float, float]:
    """Return the spindle's lean against the vertical as slopes (side, nod), mm/mm.

    Side is positive with the spindle's top to the right, nod with its top toward
    the operator. They are the slopes of the sweep circle as seen along the
    spindle, so that their hypotenuse is the tangent of the total lean.
    """
    right, away, along = at.matrix[2]
    return float(-right / along), float(away / along)


def joints_for(spec: MillSpec, side: float, nod: float) -> tuple[float, float]:
    """Return the joint angles (rad) that give the leans `side` and `nod`, mm/mm.

    Fixed-point iteration: each pass corrects by what is still missing, which
    shrinks by the coupling every time.
    """
    side_rad, nod_rad = math.atan(side), math.atan(nod)
    for _ in range(40):
        got_side, got_nod = leans(pose(spec, side_rad, nod_rad))
        side_rad += side - got_side
        nod_rad += nod - got_nod
    return side_rad, nod_rad
