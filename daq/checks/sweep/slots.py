"""Slots of a bare table: which spots of a sweep would stand in one, and the radii where none does.

Lengths mm, from the spindle axis with the table where it is swept; plus is toward the back
and the right.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from daq.checks.sweep.plan import RADII
from daq.settings import Length, Range
from daq.units import SLACK_MM
from daq.words import POSITIONS, Position

_NOTHING: Final = 1e-12
"""A sine or cosine as small as this is none: π has no end."""


@dataclass(frozen=True, slots=True)
class Slots:
    """A table's slots, from the machine's file.

    `offset`: to the middle of the first of `count`, the frontmost or the leftmost; the others
    follow every `pitch`. `direction`: which way they run. `clear`: how far from an edge the
    contact's middle stays, or the block's: half of what stands there, and the burr (3 mm:
    common practice, no source).

    Raises:
        ValueError: slots wider than they are apart.
    """

    width: Annotated[Length, Range(1.0, 200.0)]
    pitch: Annotated[Length, Range(5.0, 1000.0)]
    offset: Annotated[Length, Range(-2000.0, 2000.0)]
    count: Annotated[int, Range(1, 50)]
    direction: Literal["left-right", "front-back"] = "left-right"
    clear: Annotated[Length, Range(0.0, 200.0)] = 3.0

    def __post_init__(self) -> None:
        """Refuse a table that would be nothing but slots."""
        if self.width >= self.pitch:
            raise ValueError(f"width: found {self.width:g} mm; allowed: below pitch")


@dataclass(frozen=True, slots=True)
class SlottedTable:
    """What a machine's file tells of its table; `slots` of None: it is swept as if it had none."""

    slots: Slots | None = None


def _shut(slots: Slots, position: Position) -> Iterator[tuple[float, float]]:
    """The radii at which this spot does not stand clear: between each two, the ends are clear."""
    azimuth = math.radians(POSITIONS[position])
    across = math.sin(azimuth) if slots.direction == "left-right" else math.cos(azimuth)
    half = slots.width / 2.0 + slots.clear
    for n in range(slots.count):
        middle = slots.offset + n * slots.pitch
        if abs(across) > _NOTHING:
            low, high = sorted(((middle - half) / across, (middle + half) / across))
            yield low, high
        elif abs(middle) < half - SLACK_MM:
            yield -math.inf, math.inf


def _within(radius: float, low: float, high: float) -> bool:
    return low + SLACK_MM < radius < high - SLACK_MM


def in_a_slot(slots: Slots, positions: Sequence[Position], radius: float) -> tuple[Position, ...]:
    """Return the spots that would stand in a slot of this table, or too near to its edge."""
    return tuple(
        position
        for position in positions
        if any(_within(radius, *ends) for ends in _shut(slots, position))
    )


def next_clear(
    slots: Slots,
    positions: Sequence[Position],
    radius: float,
    way: Literal["larger", "smaller"],
    step: float = 0.0,
) -> float | None:
    """Return the next radius at which every spot stands clear, the one given if it does.

    With a `step`, the next whole number of steps. None where no radius of a sweep is.
    """
    shut = [ends for position in positions for ends in _shut(slots, position)]
    up = way == "larger"
    while RADII.holds(radius):
        ends = [each for each in shut if _within(radius, *each)]
        if ends:
            radius = max(high for _, high in ends) if up else min(low for low, _ in ends)
            continue
        whole = _whole(radius, step, up=up)
        if whole == radius:
            return radius
        radius = whole
    return None


def _whole(radius: float, step: float, *, up: bool) -> float:
    """The next whole number of steps; what is one but for a float's last bit is one."""
    if not step:
        return radius
    steps = radius / step
    if abs(steps - round(steps)) < _NOTHING * max(1.0, steps):
        return radius
    return (math.ceil(steps) if up else math.floor(steps)) * step
