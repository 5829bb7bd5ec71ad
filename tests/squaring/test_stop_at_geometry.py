"""The stop-at against a head built from rotation matrices, in three dimensions.

Nothing here uses the formulas under test. The head swings in side about an axis that the
nod knuckle carries, and the knuckle swings in nod about an axis fixed to the ram. A
plunger parallel to the spindle is a line; the table is the plane z = 0; what the gauge
reads is where the line meets the plane.

What is found: with the other axis standing square the stop-at is exact. While nod is
moved, a lean of the side axis leaves nothing. While side is moved, a head that nods
toward the operator has its side pivot lower by (nod pivot distance) × lean: 2 mm at
200 mm and 10 mrad. That leaves this height × (t² − w²)/2, under 0.15 µm here; with the
pivot's height measured as the head stands it leaves nothing.
"""

import itertools
import math
from dataclasses import dataclass

import pytest

from daq.squaring.advice import pivot_from_parked, stop_at
from daq.words import AXES, OPPOSITE, Axis, Position
from tests.benchmarks.heads.rigid import Hinge, Rigid

UM = 1e-3


@dataclass(frozen=True)
class Head:
    side_x: float
    side_z: float
    nod_y: float
    nod_z: float
    radius: float

    def reading(self, position: Position, side: float, nod: float) -> float:
        """Distance up the plunger's line to the table; side and nod are angles, rad.

        Side above zero leans the spindle's top to the right, nod toward the operator.
        """
        body = Rigid(
            Hinge(self.side_x, 0.0, self.side_z), Hinge(0.0, self.nod_y, self.nod_z), self.radius
        )
        body.swing("side", side)
        body.swing("nod", nod)
        return body.pushed(position)

    def toward(self, position: Position, side: float, nod: float) -> float:
        far = self.reading(OPPOSITE[position], side, nod)
        return (self.reading(position, side, nod) - far) / (2.0 * self.radius)

    def distance(self, axis: Axis) -> float:
        return -self.side_x if axis == "side" else self.nod_y

    def height(self, axis: Axis) -> float:
        return self.side_z if axis == "side" else self.nod_z


HEADS = [
    Head(side_x, side_z, nod_y, nod_z, radius)
    for side_x, side_z, nod_y, nod_z, radius in itertools.product(
        (0.0, -12.0), (280.0, 520.0), (120.0, 290.0), (250.0, 600.0), (75.0, 150.0)
    )
]
LEANS = [(start, end) for size in (1e-3, 1e-2) for start, end in ((size, 0.0), (-size, size / 4))]


def angles(axis: Axis, moving: float, other: float) -> tuple[float, float]:
    return (moving, other) if axis == "side" else (other, moving)


def test_the_head_built_here_leans_as_the_house_says():
    head = HEADS[0]
    assert head.toward("right", 1e-3, 0.0) > 0.0, "top to the right: right side low"
    assert head.toward("front", 0.0, 1e-3) > 0.0, "top toward the operator: front low"
    assert head.toward("right", math.atan(2e-3), 0.0) == pytest.approx(2e-3, rel=1e-12)


def residual(
    head: Head,
    axis: Axis,
    position: Position,
    lean: tuple[float, float],
    other: float,
    lower: float = 0.0,
) -> float:
    """Return stop-at less what the gauge truly reads at the wanted lean, mm.

    `lower` is how much lower the pivot stands than with the head square.
    """
    before, after = (angles(axis, angle, other) for angle in lean)
    told = stop_at(
        head.reading(position, *before),
        head.toward(position, *before),
        head.toward(position, *after),
        head.radius,
        pivot_from_parked(axis, position, head.distance(axis)),
        head.height(axis) - lower,
    )
    return told - head.reading(position, *after)


@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("axis", AXES)
def test_one_axis_alone_is_exact(axis: Axis, lean: tuple[float, float]):
    places: dict[Axis, tuple[Position, ...]] = {"side": ("right", "left"), "nod": ("front", "back")}
    for head in HEADS:
        for position in places[axis]:
            assert abs(residual(head, axis, position, lean, 0.0)) < 0.01 * UM


@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("other", [1e-3, -1e-3, 1e-2, -1e-2])
def test_nod_is_exact_however_side_leans(lean: tuple[float, float], other: float):
    for head in HEADS:
        assert abs(residual(head, "nod", "front", lean, other)) < 0.01 * UM


@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("other", [1e-3, -1e-3, 1e-2, -1e-2])
def test_side_is_left_with_what_nod_lowers_its_pivot(lean: tuple[float, float], other: float):
    for head in HEADS:
        left = residual(head, "side", "right", lean, other)
        t, w = (head.toward("right", angle, other) for angle in lean)
        lower = head.nod_y * math.tan(other)
        assert left == pytest.approx(lower * (t * t - w * w) / 2.0, abs=0.01 * UM)
        assert abs(left) < 0.15 * UM
        assert abs(residual(head, "side", "right", lean, other, lower)) < 0.01 * UM


def test_without_the_height_a_ten_milliradian_lean_leaves_what_a_tape_measure_saves():
    """14 to 36 µm for pivots 280 to 720 mm above the contact."""
    for height, left_um in ((280.0, 14.0), (720.0, 36.0)):
        head = Head(0.0, height, 150.0, height, 100.0)
        lean = (math.atan(1e-2), 0.0)
        missing = stop_at(0.0, 1e-2, 0.0, 100.0, 150.0, height) - stop_at(
            0.0, 1e-2, 0.0, 100.0, 150.0, 0.0
        )
        assert abs(missing) == pytest.approx(left_um * UM, rel=1e-3)
        assert abs(residual(head, "nod", "front", lean, 0.0)) < 0.01 * UM


@pytest.mark.parametrize(("t", "w"), [(1e-3, 0.0), (1e-2, 0.0), (-1e-2, 2e-3), (5e-3, -1e-2)])
def test_the_quadratic_form_is_the_same_to_a_nanometre(t: float, w: float):
    for radius, p, h in ((75.0, 0.0, 280.0), (100.0, 150.0, 400.0), (150.0, 290.0, 600.0)):
        quadratic = 1.2 + (radius + p) * (w - t) - h / 2.0 * (w * w - t * t)
        assert stop_at(1.2, t, w, radius, p, h) == pytest.approx(quadratic, abs=0.001 * UM)
