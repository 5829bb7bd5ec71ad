"""What a leaning tool cuts: textbook formulas, and geometry cut out point by point.

The textbook forms are those of machining textbooks (from memory): the dish of a face-milled
strip of width e with a cutter of diameter D leaning by τ along the feed is
(D − √(D² − e²))/2 · tan τ; exact is sin τ. The points are made here from a tilted circle,
by rotation matrices of scipy.
"""

import math

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from daq.checks.sweep.effects import Work, effects
from daq.words import Both

D, E = 80.0, 60.0


def circle(side: float, nod: float, diameter: float = D) -> np.ndarray:
    """Points of a tool's edge whose axis leans: x to the right, y away, z up, mm."""
    # The right is low: the top leans right. The front is low: the top leans toward the front.
    axis = np.array([side, -nod, 1.0])
    axis /= np.linalg.norm(axis)
    turn, _ = Rotation.align_vectors([axis], [[0.0, 0.0, 1.0]])
    angle = np.linspace(0.0, 2.0 * math.pi, 200_001)
    flat = np.column_stack([np.cos(angle), np.sin(angle), np.zeros_like(angle)])
    return turn.apply(flat * diameter / 2.0)


def profile(points: np.ndarray, across: int, at: list[float]) -> list[float]:
    """The lowest height that a strip cut by these points has at places across the feed."""
    found = []
    for place in at:
        near = points[np.abs(points[:, across] - place) < 0.002]
        found.append(float(near[:, 2].min()))
    return found


def dish(side: float, nod: float, feed: str = "left-right") -> tuple[float, float]:
    work = Work(cutter=D, cut_width=E, feed=feed)
    (effect,) = effects(Both(side, nod), work)
    return effect.exact_mm, effect.textbook_mm


def test_the_dish_of_a_strip_is_the_textbooks():
    """(D − √(D² − e²))/2 · tan τ: machining textbooks (from memory)."""
    exact, textbook = dish(1e-3, 0.0)
    assert textbook == pytest.approx((D - math.sqrt(D * D - E * E)) / 2.0 * 1e-3, rel=1e-12)
    assert exact == pytest.approx(
        (D - math.sqrt(D * D - E * E)) / 2.0 * math.sin(math.atan(1e-3)), rel=1e-12
    )


def test_sine_and_tangent_differ_by_5e_7_at_one_milliradian():
    exact, textbook = dish(math.tan(1e-3), 0.0)
    assert textbook / exact - 1.0 == pytest.approx(5e-7, rel=1e-3)


@pytest.mark.parametrize("lean", [(0.01, 0.0), (-0.01, 0.0), (0.01, 0.008), (0.03, -0.05)])
@pytest.mark.parametrize("feed", ["left-right", "front-back"])
def test_the_dish_is_that_of_a_tilted_circle(lean: tuple[float, float], feed: str):
    across = 1 if feed == "left-right" else 0
    middle, front, back = profile(circle(*lean), across, [0.0, -E / 2.0, E / 2.0])
    expected = (front + back) / 2.0 - middle
    exact, _ = dish(*lean, feed)
    assert exact == pytest.approx(expected, abs=5e-4 * max(map(abs, lean)) * 10.0)


def test_the_step_is_the_distance_between_the_faces_of_two_passes():
    """Two planes z = −q y, one moved by s along y: their distance is s · sin σ: geometry."""
    for nod in (1e-3, 0.05):
        (step,) = effects(Both(0.0, nod), Work(pass_step=50.0))
        assert step.exact_mm == pytest.approx(50.0 * math.sin(math.atan(nod)), rel=1e-12)
        assert step.textbook_mm == pytest.approx(50.0 * nod, rel=1e-12)


def test_a_hole_ends_where_the_axis_ends():
    for side, nod in ((0.01, 0.0), (0.003, -0.004), (-0.05, 0.02)):
        down = -np.array([side, -nod, 1.0]) / np.linalg.norm([side, -nod, 1.0])
        tip = 50.0 * down
        (hole,) = effects(Both(side, nod), Work(hole_depth=50.0))
        assert hole.exact_mm == pytest.approx(math.hypot(tip[0], tip[1]), rel=1e-12)
        named = {"left": tip[0] < 0.0, "right": tip[0] > 0.0, "back": tip[1] > 0.0}
        named["front"] = tip[1] < 0.0
        assert hole.toward
        assert all(named[word] for word in hole.toward.split("-"))


def test_a_bore_by_raising_the_table_is_the_tilted_circle_seen_from_above():
    """An ellipse of D by D cos τ: geometry."""
    for side, nod in ((0.02, 0.0), (0.03, -0.04)):
        seen = np.hypot(*circle(side, nod, 100.0)[:, :2].T)
        (bore,) = effects(Both(side, nod), Work(bore_diameter=100.0))
        assert bore.exact_mm == pytest.approx(2.0 * (seen.max() - seen.min()), abs=1e-7)
        lean = math.atan(math.hypot(side, nod))
        assert bore.exact_mm == pytest.approx(100.0 * (1.0 - math.cos(lean)), rel=1e-9)


def test_a_bore_at_small_leans_keeps_its_digits():
    """D τ²/2: the first term of the cosine's series."""
    (bore,) = effects(Both(1e-6, 0.0), Work(bore_diameter=100.0))
    assert bore.exact_mm == pytest.approx(100.0 * 1e-12 / 2.0, rel=1e-9)
