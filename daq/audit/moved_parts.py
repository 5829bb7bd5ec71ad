"""What a turn, or pulling up bolts, leaves: how far it went past, where the head must stand."""

from dataclasses import dataclass

from daq.audit.parts import AxisResult, Point, Whole
from daq.words import Axis, Both


@dataclass(frozen=True)
class Late:
    """How far past its stop-at a turn of an axis ended, mm on the face; below zero short of it."""

    axis: Axis
    late_mm: float


@dataclass(frozen=True)
class Foreseen:
    """Where the head must stand after what was done to it, read nowhere yet.

    `points`: what each place must read; `slack_mm`: how far each axis's parked reading may differ
    from that.
    """

    points: tuple[Point, ...]
    results: Both[AxisResult]
    slack_mm: Both[float]
    whole: Whole | None = None
