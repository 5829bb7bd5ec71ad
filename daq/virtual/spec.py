"""What one particular mill is like: dimensions, slack, habits.

Lengths are millimetres, angles degrees. Amounts "across the sweep" are the
difference between opposite positions of the sweep circle: slope x 2 x radius.
All figures are invented; their sizes are common practice, no source.
"""

import math
import random
from dataclasses import dataclass, field, replace
from typing import Final, Self

from daq.virtual.model import GaugeModel
from daq.virtual.talk import Streaming
from daq.virtual.wires.scale import CountStep
from daq.virtual.wires.text import TextSpec
from daq.words import Axis, Unit

LAYOUT: Final = "{sign}{number} {unit}\r\n"
INTERVAL_S: Final = 0.02


@dataclass(frozen=True, slots=True)
class JointSpec:
    """One axis of adjustment: where it turns, and how it misbehaves.

    The axis of rotation is a horizontal line through (`pivot_x_mm`,
    `pivot_y_mm`) at `pivot_height_mm` above the surface swept. `coupling` is
    the lean the other axis gets for each unit of lean of this one: the line is
    turned by that much about the vertical. `backlash_mm`, `drop_mm` (when
    loosened), `shift_mm` and `shift_sd_mm` (when tightened) are across the
    sweep; `lift_sd_mm` is how far tightening moves the head bodily up or down.

    `rest_mm` is how far the head goes back, across the sweep, when the hand leaves
    the adjuster. Of the `bolts` some may pull the head aside: `bolts_mm` has their
    names and by how much, across the sweep, once each time they are tightened.
    """

    pivot_x_mm: float = 0.0
    pivot_y_mm: float = 0.0
    pivot_height_mm: float = 450.0
    coupling: float = 0.0
    backlash_mm: float = 0.008
    drop_mm: float = 0.004
    shift_mm: float = 0.003
    shift_sd_mm: float = 0.001
    lift_sd_mm: float = 0.002
    rest_mm: float = 0.0
    bolts: tuple[str, ...] = ("1", "2", "3", "4")
    bolts_mm: tuple[tuple[str, float], ...] = ()

    def swung(self, degrees: float, coupling: float) -> "JointSpec":
        """Return this joint turned about the spindle by `degrees`, then with `coupling`."""
        turn = math.radians(degrees)
        x, y = self.pivot_x_mm, self.pivot_y_mm
        return replace(
            self,
            pivot_x_mm=x * math.cos(turn) - y * math.sin(turn),
            pivot_y_mm=x * math.sin(turn) + y * math.cos(turn),
            coupling=coupling,
        )


@dataclass(frozen=True, slots=True)
class GaugeSpec:
    """The gauge: a plunger whose number changes by `step` x 10^-`places` `unit`.

    `zero_mm` is the compression at which it reads zero when first switched on;
    `noise_sd_mm` is the flicker of one indication with the contact on a
    surface, `visit_sd_mm` how differently the contact lands at each visit. The
    preload leaves room for squaring a head that starts half a millimetre out with
    its front low: the move lets the plunger out by almost a millimetre.
    """

    unit: Unit = "mm"
    places: int = 3
    step: int = 1
    counts_up: bool = True
    travel_mm: float = 12.7
    preload_mm: float = 1.5
    zero_mm: float = 0.35
    noise_sd_mm: float = 0.0003
    visit_sd_mm: float = 0.0003

    def model(self) -> GaugeModel:
        """Return this gauge with its wire: text, fifty frames a second, at 9600 baud."""
        return GaugeModel(
            key="practice",
            wire=TextSpec(LAYOUT, self._scales()),
            talk=Streaming(INTERVAL_S),
            unit=self.unit,
            counts_up=self.counts_up,
            travel_mm=self.travel_mm,
            zero_mm=self.zero_mm,
            noise_sd_mm=self.noise_sd_mm,
        )

    def _scales(self) -> dict[Unit, CountStep]:
        """Return the digits of both units; the one not shown at first keeps a like fineness."""
        own = CountStep(self.places, self.step)
        if self.unit == "mm":
            return {"mm": own, "in": CountStep(self.places + 2, 5 * self.step)}
        return {"in": own, "mm": CountStep(self.places - 1, self.step)}


SIDE = JointSpec(pivot_x_mm=4.0, pivot_y_mm=150.0, pivot_height_mm=430.0, coupling=0.02)
NOD = JointSpec(
    pivot_x_mm=10.0,
    pivot_y_mm=180.0,
    pivot_height_mm=520.0,
    coupling=-0.015,
    backlash_mm=0.012,
    drop_mm=0.030,
    shift_mm=0.006,
    shift_sd_mm=0.002,
)


@dataclass(frozen=True, slots=True)
class BarSpec:
    """A test bar in its taper; figures are invented, angles from the spindle's mark.

    Its axis stands `off_mm` off the axis of rotation at the spindle's nose, toward `off_deg`, and
    leans by the slope `lean` toward `lean_deg` going down: that is the spindle. The bar itself
    is `own_mm` off its taper, toward `own_deg`, which turns round when it is set in anew.
    """

    radius_mm: float = 20.0
    off_mm: float = 0.003
    off_deg: float = 60.0
    lean: float = 0.00001
    lean_deg: float = 200.0
    own_mm: float = 0.0005
    own_deg: float = 300.0


@dataclass(frozen=True, slots=True)
class TravelSpec:
    """One travel of the table: it rises by the slope `rise`, and by `bow_mm` more half-way."""

    rise: float = 0.00001
    bow_mm: float = 0.004
    length_mm: float = 300.0

    def height_mm(self, at_mm: float) -> float:
        """How much higher the table is there than where the travel begins."""
        part = at_mm / self.length_mm
        return self.rise * at_mm + self.bow_mm * 4.0 * part * (1.0 - part)


@dataclass(frozen=True, slots=True)
class JawSpec:
    """A vise's fixed jaw along the table: places from its left end; figures are invented.

    Its right end stands nearer the gauge by the slope `rise`; two bolts hold it. Tapped, it turns
    about the further one.
    """

    rise: float = 0.0003
    bolts_mm: tuple[float, float] = (30.0, 120.0)


@dataclass(frozen=True, slots=True)
class MillSpec:
    """One mill: two joints, an arm of `radius_mm`, a gauge and a ring.

    `start_mm` is how far out of square each axis begins, across the sweep; the
    mill's seed picks the signs. The ring is `wedge_mm` thicker on one side than
    on the other (across the sweep), thickest at `wedge_azimuth_deg`.

    The `test_bar` is what a gauge reads for run-out, and both of the table's travels are alike. The
    vise on it has the `jaw`.

    The spindle moves along itself by ± `axial_mm` once a turn; with the arm as it was
    first clamped it is lowest with the gauge at `axial_azimuth_deg`. With a
    `bar_radius_mm` the arm is a bar that carries a second gauge opposite the first, at
    that radius, clamped `bar_lower_mm` lower.
    """

    radius_mm: float = 100.0
    side: JointSpec = SIDE
    nod: JointSpec = NOD
    gauge: GaugeSpec = field(default_factory=GaugeSpec)
    start_mm: float = 0.5
    wedge_mm: float = 0.001
    wedge_azimuth_deg: float = 35.0
    bump_mm: float = 0.04
    axial_mm: float = 0.0
    axial_azimuth_deg: float = 0.0
    test_bar: BarSpec = field(default_factory=BarSpec)
    travel: TravelSpec = field(default_factory=TravelSpec)
    jaw: JawSpec = field(default_factory=JawSpec)
    bar_radius_mm: float | None = None
    bar_lower_mm: float = 0.2

    def joint(self, axis: Axis) -> JointSpec:
        """Return the joint of `axis`."""
        return self.side if axis == "side" else self.nod

    def swung(self, degrees: float) -> Self:
        """Return this mill with its ram swung anticlockwise, seen from above, by `degrees`.

        Both axes of rotation turn with the ram while the table stays, so that each
        axis leans the other by the tangent of the angle.
        """
        turn = math.radians(degrees)
        return replace(
            self,
            side=self.side.swung(degrees, math.tan(math.atan(self.side.coupling) - turn)),
            nod=self.nod.swung(degrees, math.tan(math.atan(self.nod.coupling) + turn)),
        )

    @classmethod
    def drawn(cls, seed: int) -> Self:
        """Return another plausible mill: the same seed gives the same mill."""
        rng = random.Random(seed)
        return cls(
            side=JointSpec(
                pivot_x_mm=rng.uniform(-6.0, 6.0),
                pivot_y_mm=rng.uniform(110.0, 200.0),
                pivot_height_mm=rng.uniform(330.0, 520.0),
                coupling=rng.gauss(0.0, 0.02),
                backlash_mm=rng.uniform(0.002, 0.012),
                drop_mm=rng.uniform(0.0, 0.010),
                shift_mm=rng.gauss(0.0, 0.004),
                shift_sd_mm=rng.uniform(0.0005, 0.0015),
            ),
            nod=JointSpec(
                pivot_x_mm=rng.uniform(-15.0, 15.0),
                pivot_y_mm=rng.uniform(120.0, 260.0),
                pivot_height_mm=rng.uniform(400.0, 620.0),
                coupling=rng.gauss(0.0, 0.02),
                backlash_mm=rng.uniform(0.004, 0.020),
                drop_mm=rng.uniform(0.010, 0.050),
                shift_mm=rng.gauss(0.0, 0.006),
                shift_sd_mm=rng.uniform(0.0010, 0.0025),
            ),
            wedge_mm=rng.uniform(0.0, 0.002),
            wedge_azimuth_deg=rng.uniform(0.0, 360.0),
        )
