"""Two kinds of head for the tests of what is learned, and the story each one writes.

`PlainHead` is the plain picture itself, with every scatter drawn at random as `Doubt` states
it. `RigidHead` is an exact body that turns about two hinge lines, and knows nothing of pivots
or couplings. Neither uses a line of what is tested but its words.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from daq.squaring.equations import Doubt, Scatter
from daq.squaring.learned import AxisPrior, from_file
from daq.squaring.resting import RESTS, share
from daq.squaring.story import Happened, Seen
from daq.squaring.tightening import HEADS
from daq.words import AXES, FOUR_POSITIONS, OPPOSITE, POSITIONS, Axis, Both, Position
from tests.benchmarks.heads.rigid import Hinge, Rigid

SCATTER: dict[Axis, Scatter] = dict.fromkeys(AXES, Scatter(HEADS.scatter, RESTS.scatter))
QUIET = Doubt(1e-6, 1e-7, 1e-6, 1e-6, 1e-6, 1e-6)
"""Readings and moves of next to no scatter, mm."""


def prior(pivot_doubts=(5.0, 40.0), coupling_doubt=0.02, pivots=(0.0, 150.0)):
    """What a machine's file says of a knee mill's head."""
    side, nod = (
        AxisPrior(pivot, doubt, 400.0, 75.0, 0.0, coupling_doubt)
        for pivot, doubt in zip(pivots, pivot_doubts, strict=True)
    )
    return from_file(Both(side, nod), 0.0, 0.0).answering


@dataclass
class Head:
    """What every head can do: be read, and have it written down."""

    radius_mm: float
    doubt: Doubt
    rng: np.random.Generator
    story: list = field(default_factory=list)
    zero_mm: float = 0.0
    landed_mm: float = 0.0
    stood: list = field(default_factory=list)

    def true_mm(self, position: Position) -> float:
        raise NotImplementedError

    def read(self, *positions: Position, stays: bool = False):
        """Read one place after another; with `stays` the contact is where it was."""
        if not self.stood:
            self.stood.append(self.stands())
        for position in positions:
            if not stays:
                self.landed_mm = self.rng.normal(0.0, self.doubt.visit_mm)
            shown = self.true_mm(position) + self.zero_mm + self.landed_mm
            pushed_mm = shown + self.rng.normal(0.0, self.doubt.count_mm)
            self.story.append(Seen(position, float(pushed_mm), stays))
        return self

    def stop(self, position: Position | None):
        """Read at the stop, where the contact has not left its place, if it is read at all."""
        if position is None:
            return self
        last = next(entry for entry in reversed(self.story) if isinstance(entry, Seen))
        return self.read(position, stays=last.position == position)

    def stands(self):
        """Side, nod and middle, as they truly are."""
        raise NotImplementedError

    def sweep(self):
        return self.read(*FOUR_POSITIONS)

    def pair(self, axis: Axis, parked: Position):
        return self.read(OPPOSITE[parked], parked)

    def zero(self, by_mm: float):
        self.zero_mm += by_mm
        return self.happened("zeroed")

    def happened(self, what, axis=None, way=0):
        self.story.append(Happened(what, axis, way))
        self.stood.append(self.stands())
        return self


@dataclass
class PlainHead(Head):
    """`truth`: P, κ, h of side, then of nod; the mean shifts, the rests, what is late of them.

    `at`: side, nod, middle. `aside_mm`: where its pivots stand in the file it was drawn from.
    `ways`: which way each axis was turned last that was not tightened since.
    """

    truth: Sequence[float] = (0.0,) * 12
    aside_mm: tuple[float, float] = (0.0, 150.0)
    at: list[float] = field(default_factory=lambda: [0.0, 0.0, 0.0])
    ways: dict = field(default_factory=dict)

    def stands(self):
        return (*self.at[:2], self.at[2] + self.zero_mm)

    def true_mm(self, position):
        azimuth = math.radians(POSITIONS[position])
        toward = self.at[0] * math.cos(azimuth) - self.at[1] * math.sin(azimuth)
        return self.radius_mm * toward + self.at[2]

    def _turn(self, axis, slope):
        own = AXES.index(axis)
        p, k, h = self.truth[3 * own : 3 * own + 3]
        before, after = self.at[own], self.at[own] + slope
        self.at[own] = after
        self.at[1 - own] += k * slope + self._across(self.doubt.cross_mm)
        bend = math.sqrt(1.0 + after * after) - math.sqrt(1.0 + before * before)
        self.at[2] += p * slope - h * bend + self.rng.normal(0.0, self.doubt.lift_mm)

    def _across(self, sd_mm):
        return self.rng.normal(0.0, sd_mm) / (2.0 * self.radius_mm)

    def move(self, axis, slope, read=None):
        """Turn one adjuster, read where the gauge stands parked, and let go."""
        self._turn(axis, slope)
        self.happened("moved", axis).stop(read)
        own, way = AXES.index(axis), 1 if slope > 0.0 else -1
        back = self.truth[8 + own] + self.rng.normal(0.0, SCATTER[axis].rest)
        self._turn(axis, -way * back * self._share(own))
        self.ways[axis] = way
        return self.happened("rested", axis, way)

    def _share(self, own):
        return share(self.radius_mm, self.aside_mm[own])

    def tighten(self, axis):
        own = AXES.index(axis)
        late = self.ways.pop(axis, 0) * self.truth[10 + own] * self._share(own)
        self.at[own] += self.truth[6 + own] - late + self.rng.normal(0.0, SCATTER[axis].tight)
        self.at[1 - own] += self._across(self.doubt.tight_cross_mm)
        self.at[2] += self.rng.normal(0.0, self.doubt.tight_lift_mm)
        return self.happened("tightened", axis)

    def knock(self, side_mm, nod_mm, middle_mm):
        across = 2.0 * self.radius_mm
        for i, by in enumerate((side_mm / across, nod_mm / across, middle_mm)):
            self.at[i] += by
        return self


class RigidHead(Head):
    """An exact head about two hinge lines; angles rad, above zero with right or front low."""

    def __init__(self, radius_mm, doubt, rng, side: Hinge, nod: Hinge) -> None:
        super().__init__(radius_mm, doubt, rng)
        self.body = Rigid(side, nod, radius_mm)

    def stand(self, **angles: float):
        """Stand at these angles, an axis not named upright."""
        self.body.angles = {**dict.fromkeys(AXES, 0.0), **angles}
        self.body.stand()
        return self

    def true_mm(self, position):
        return self.body.pushed(position)

    def leans(self):
        """Side and nod as the differences across the sweep say, slopes."""
        right, left, front, back = map(self.true_mm, ("right", "left", "front", "back"))
        return (right - left) / (2 * self.radius_mm), (front - back) / (2 * self.radius_mm)

    def stands(self):
        return (*self.leans(), self.middle_mm() + self.zero_mm)

    def middle_mm(self):
        return sum(map(self.true_mm, FOUR_POSITIONS)) / 4.0

    def move(self, axis, angle_rad, read=None):
        self.body.swing(axis, angle_rad)
        self.happened("moved", axis).stop(read)
        return self.happened("rested", axis)
