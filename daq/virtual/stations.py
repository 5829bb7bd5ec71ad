"""What else a gauge can be set on: a bar in the spindle, and an edge along the table's travel.

Exact geometry, pure: numbers in, numbers out. A bar is a cylinder that stands a little off the
spindle's axis of rotation and leans against it; the gauge stands beside it on the table, square
to that axis, to the right of it. An edge lies along the travel, level; the table rises and falls
as it goes, and the gauge stays with the head.
"""

import math

import numpy as np

from daq.virtual.geometry import UP, Array
from daq.virtual.spec import BarSpec, JawSpec


def bar_axis(bar: BarSpec, below_mm: float, seat: int) -> tuple[Array, Array]:
    """Return where a bar's axis passes so far below the nose, and along which unit vector."""
    own = bar.own_mm if seat == 1 else -bar.own_mm
    through = _plane(bar.off_mm, bar.off_deg) + _plane(own, bar.own_deg)
    fall = _plane(bar.lean, bar.lean_deg)
    along = fall - UP
    return through + fall * below_mm - UP * below_mm, along / np.linalg.norm(along)


def bar_met(bar: BarSpec, turned_deg: float, below_mm: float, seat: int) -> float:
    """Return how far from the axis of rotation the gauge meets the bar, mm.

    With the spindle at an angle its place of that angle faces the gauge. The gauge's line comes
    from the right through the axis of rotation, and meets the nearer side of a cylinder.
    """
    through, along = bar_axis(bar, below_mm, seat)
    turn = math.radians(-turned_deg)
    about = np.array(
        [[math.cos(turn), -math.sin(turn), 0.0], [math.sin(turn), math.cos(turn), 0.0], UP]
    )
    through, along = about @ through, about @ along
    # Of a point s to the right at this height, what lies across the bar is as long as its radius.
    start = np.array([0.0, 0.0, -below_mm]) - through
    step = np.array([1.0, 0.0, 0.0])
    start, step = start - (start @ along) * along, step - (step @ along) * along
    a, b, c = step @ step, 2.0 * (start @ step), start @ start - bar.radius_mm**2
    return float((-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a))


def tapped(jaw: JawSpec, at_mm: float, away_mm: float) -> tuple[float, float]:
    """Return by how much a tap that moves a place of the jaw away changes its slope and left end.

    It turns about the bolt further from there: a straight line about one of its points.
    """
    about = max(jaw.bolts_mm, key=lambda bolt: abs(bolt - at_mm))
    rise = -away_mm / (at_mm - about)
    return rise, -rise * about


def _plane(size: float, toward_deg: float) -> Array:
    toward = math.radians(toward_deg)
    return size * np.array([math.cos(toward), math.sin(toward), 0.0])
