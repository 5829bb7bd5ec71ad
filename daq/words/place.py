"""Places on the sweep circle and the head's two axes of adjustment.

Frame of reference: stand in front of the machine; X to the right, Y away from
you toward the column, Z up. Azimuth from X, anticlockwise seen from above.
"""

from typing import Final, Literal

Position = Literal["front", "right", "back", "left"]
Axis = Literal["side", "nod"]

AXES: Final[tuple[Axis, ...]] = ("side", "nod")

POSITIONS: Final[dict[Position, float]] = {
    "right": 0.0,
    "back": 90.0,
    "left": 180.0,
    "front": 270.0,
}
"""Azimuth of each named position, degrees."""

OPPOSITE: Final[dict[Position, Position]] = {
    "right": "left",
    "left": "right",
    "front": "back",
    "back": "front",
}

PARKED: Final[dict[Axis, Position]] = {"side": "right", "nod": "front"}
"""Where the gauge is parked while an axis is moved."""
