"""The head's geometry, against plane trigonometry, closed forms and a reference library.

`daq.virtual` finds where a plunger's line meets a plane after two rotations in
space. The checks below never do that: they use a side view drawn on paper.
"""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from daq.virtual import JointSpec, MillSpec
from daq.virtual.geometry import (
    UP,
    Hinge,
    joints_for,
    leans,
    pose,
    rotation,
    surface_height,
    surface_normal,
)

FLAT = UP
RIGHT, BACK, LEFT, FRONT = 0.0, 90.0, 180.0, 270.0

SIDE = JointSpec(pivot_x_mm=5.0, pivot_y_mm=140.0, pivot_height_mm=410.0)
NOD = JointSpec(pivot_x_mm=-8.0, pivot_y_mm=190.0, pivot_height_mm=530.0)
PLAIN = MillSpec(side=SIDE, nod=NOD, wedge_mm=0.0)

slopes = st.floats(-0.02, 0.02)
radii = st.floats(40.0, 250.0)


def pushed(spec: MillSpec, side_rad: float, nod_rad: float, azimuth_deg: float) -> float:
    return surface_height(pose(spec, side_rad, nod_rad), FLAT, spec.radius_mm, azimuth_deg)


def side_view(reach_mm: float, height_mm: float, lean: float) -> float:
    """How far a plunger is pushed in when its head has leaned, from a drawing in one plane.

    Put the pivot at the origin, `height_mm` above the table. The plunger's line
    is parallel to the spindle, `reach_mm` from the pivot on the side the top
    leans to. Lean by the angle whose tangent is `lean`. In the leaned head's own
    axes the table is the line z = reach x tan - height / cos: a line tilted the
    other way, at the same distance from the pivot. Upright it was z = -height.
    """
    cosine = 1.0 / math.sqrt(1.0 + lean * lean)
    return reach_mm * lean - height_mm / cosine + height_mm


@pytest.mark.parametrize("lean", [-0.01, -0.0025, 0.001, 0.01])
def test_side_lean_agrees_with_a_drawing_in_one_plane(lean: float) -> None:
    angle = math.atan(lean)
    for azimuth, reach in ((RIGHT, 100.0 - 5.0), (LEFT, -100.0 - 5.0)):
        moved = pushed(PLAIN, angle, 0.0, azimuth) - pushed(PLAIN, 0.0, 0.0, azimuth)
        assert moved == pytest.approx(side_view(reach, 410.0, lean), abs=1e-9)


@pytest.mark.parametrize("lean", [-0.01, -0.0025, 0.001, 0.01])
def test_nod_lean_agrees_with_a_drawing_in_one_plane(lean: float) -> None:
    angle = math.atan(lean)
    for azimuth, reach in ((FRONT, 100.0 + 190.0), (BACK, -100.0 + 190.0)):
        moved = pushed(PLAIN, 0.0, angle, azimuth) - pushed(PLAIN, 0.0, 0.0, azimuth)
        assert moved == pytest.approx(side_view(reach, 530.0, lean), abs=1e-9)


def test_parked_at_the_back_above_the_pivot_the_gauge_sees_almost_nothing() -> None:
    spec = dataclasses.replace(PLAIN, nod=dataclasses.replace(NOD, pivot_y_mm=100.0))
    moved = pushed(spec, 0.0, 0.002, BACK) - pushed(spec, 0.0, 0.0, BACK)
    seen_in_front = pushed(spec, 0.0, 0.002, FRONT) - pushed(spec, 0.0, 0.0, FRONT)
    assert abs(moved) < 0.0015
    assert seen_in_front == pytest.approx(0.4, abs=0.0015)


def test_signs_top_leaning_right_makes_the_right_low_and_toward_you_the_front() -> None:
    def slant(side_rad: float, nod_rad: float) -> tuple[float, float]:
        right, left = (pushed(PLAIN, side_rad, nod_rad, at) for at in (RIGHT, LEFT))
        front, back = (pushed(PLAIN, side_rad, nod_rad, at) for at in (FRONT, BACK))
        return right - left, front - back

    top = pose(PLAIN, 0.001, 0.0).matrix @ UP
    assert top[0] > 0.0
    assert slant(0.001, 0.0)[0] > 0.1
    top = pose(PLAIN, 0.0, 0.001).matrix @ UP
    assert top[1] < 0.0
    assert slant(0.0, 0.001)[1] > 0.1


@settings(max_examples=60, derandomize=True)
@given(side=slopes, nod=slopes, radius=radii, azimuth=st.floats(0.0, 360.0))
def test_the_sweep_is_a_pure_first_harmonic(
    side: float, nod: float, radius: float, azimuth: float
) -> None:
    """m = c + R (a cos + b sin) with a = side lean, b = -nod lean: exact on a flat table."""
    spec = dataclasses.replace(PLAIN, radius_mm=radius)
    angles = joints_for(spec, side, nod)
    centre = surface_height(pose(spec, *angles), FLAT, 0.0, 0.0)
    phi = math.radians(azimuth)
    wave = radius * (side * math.cos(phi) - nod * math.sin(phi))
    assert pushed(spec, *angles, azimuth) - centre == pytest.approx(wave, abs=1e-9)


@settings(max_examples=40, derandomize=True)
@given(side=slopes, nod=slopes)
def test_the_two_leans_make_the_tangent_of_the_total_lean(side: float, nod: float) -> None:
    at = pose(PLAIN, *joints_for(PLAIN, side, nod))
    cosine = float((at.matrix @ UP) @ UP)
    tangent = math.sqrt(1.0 / cosine**2 - 1.0)
    assert math.hypot(*leans(at)) == pytest.approx(tangent, abs=1e-9)
    assert leans(at) == pytest.approx((side, nod), abs=1e-12)


def test_the_height_of_the_pivot_takes_away_half_h_times_the_squares() -> None:
    """A pivot 500 mm up and a lean of 10 mrad: 25 µm, whichever way it leans."""
    spec = dataclasses.replace(PLAIN, side=JointSpec(pivot_x_mm=0.0, pivot_height_mm=500.0))
    for lean in (0.01, -0.01):
        moved = pushed(spec, math.atan(lean), 0.0, RIGHT) - pushed(spec, 0.0, 0.0, RIGHT)
        assert moved - 100.0 * lean == pytest.approx(-0.025, abs=1e-5)


def test_coupling_leans_the_other_axis_by_its_share() -> None:
    spec = MillSpec(
        side=dataclasses.replace(SIDE, coupling=0.03), nod=dataclasses.replace(NOD, coupling=-0.02)
    )
    side, nod = leans(pose(spec, 0.002, 0.0))
    assert nod / side == pytest.approx(0.03, rel=1e-4)
    side, nod = leans(pose(spec, 0.0, 0.002))
    assert side / nod == pytest.approx(-0.02, rel=1e-4)


def test_coupling_lengthens_the_reach_by_its_share_of_the_other_distance() -> None:
    """Parked right, the number follows R - x + coupling x y for each unit of side lean."""
    spec = dataclasses.replace(PLAIN, side=dataclasses.replace(SIDE, coupling=0.03))
    tiny = 1e-6
    change = pushed(spec, tiny, 0.0, RIGHT) - pushed(spec, -tiny, 0.0, RIGHT)
    lean = leans(pose(spec, tiny, 0.0))[0] - leans(pose(spec, -tiny, 0.0))[0]
    assert change / lean == pytest.approx(100.0 - 5.0 + 0.03 * 140.0, rel=1e-6)


def test_the_ring_wedge_adds_to_the_lean_and_changes_sign_when_the_ring_is_turned() -> None:
    at = pose(PLAIN, *joints_for(PLAIN, 0.0015, 0.0))
    wedge = 0.00005

    def slant(turned_deg: float) -> float:
        normal = surface_normal(wedge, RIGHT + turned_deg)
        right, left = (surface_height(at, normal, 100.0, az) for az in (RIGHT, LEFT))
        return right - left

    # Thick under the right: the plunger is pushed in further there.
    assert slant(0.0) - slant(180.0) == pytest.approx(2.0 * 200.0 * wedge, rel=1e-4)
    assert (slant(0.0) + slant(180.0)) / 2.0 == pytest.approx(200.0 * 0.0015, rel=1e-6)


@settings(max_examples=40, derandomize=True)
@given(
    angle=st.floats(-3.0, 3.0),
    along=st.tuples(*[st.floats(-1.0, 1.0)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1),
)
def test_rotations_agree_with_a_reference_library(
    angle: float, along: tuple[float, float, float]
) -> None:
    unit = np.array(along) / np.linalg.norm(along)
    theirs = Rotation.from_rotvec(unit * angle).as_matrix()
    assert np.allclose(rotation(unit, angle), theirs, atol=1e-12)


def test_points_on_a_hinge_stay_where_they_are() -> None:
    spec = MillSpec()
    for hinge, at in (
        (Hinge.side(spec.side), pose(spec, 0.01, 0.0)),
        (Hinge.nod(spec.nod), pose(spec, 0.0, 0.01)),
    ):
        for along in (-200.0, 0.0, 200.0):
            point = hinge.point + along * hinge.axis
            assert np.allclose(at.origin + at.matrix @ point, point, atol=1e-10)


def test_the_side_hinge_rides_on_the_nod_joint() -> None:
    """However far the head is swung sideways, its side hinge stands where nod alone put it."""
    spec = MillSpec()
    hinge, carried = Hinge.side(spec.side), pose(spec, 0.0, 0.02)
    both = pose(spec, 0.03, 0.02)
    for along in (-200.0, 0.0, 200.0):
        point = hinge.point + along * hinge.axis
        there = carried.origin + carried.matrix @ point
        assert np.allclose(both.origin + both.matrix @ point, there, atol=1e-10)
