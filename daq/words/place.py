"""Places on the sweep circle and the head's two axes of adjustment.

Frame of reference: stand in front of the machine; X to the right, Y away from
you toward the column, Z up. Azimuth from X, anticlockwise seen from above.
"""

from typing import Final, Literal

Position = Literal[
    "front",
    "front-right",
    "right",
    "back-right",
    "back",
    "back-left",
    "left",
    "front-left",
]
Axis = Literal["side", "nod"]

AXES: Final[tuple[Axis, ...]] = ("side", "nod")
OTHER: Final[dict[Axis, Axis]] = {"side": "nod", "nod": "side"}
"""Each axis's other one."""

POSITIONS: Final[dict[Position, float]] = {
    "front": 270.0,
    "front-right": 315.0,
    "right": 0.0,
    "back-right": 45.0,
    "back": 90.0,
    "back-left": 135.0,
    "left": 180.0,
    "front-left": 225.0,
}
"""Azimuth of each named position, degrees, in the order a sweep meets them from the front."""

FOUR_POSITIONS: Final[tuple[Position, ...]] = ("front", "right", "back", "left")
"""The positions that lie on the head's two axes, in the order a sweep meets them."""

OPPOSITE: Final[dict[Position, Position]] = {
    "front": "back",
    "front-right": "back-left",
    "right": "left",
    "back-right": "front-left",
    "back": "front",
    "back-left": "front-right",
    "left": "right",
    "front-left": "back-right",
}

PARKED: Final[dict[Axis, Position]] = {"side": "right", "nod": "front"}
"""Where the gauge is parked while an axis is moved."""
