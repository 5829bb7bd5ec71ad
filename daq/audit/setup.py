"""What an audit is opened with: the machine, the gauge and the rules, fixed for its whole length.

`AuditOpened` embeds all of it, so neither the fold nor a later reader of the
ledger looks into a config file again.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any, Final, Literal

from daq.audit.gauge_setup import GaugeSetup as GaugeSetup
from daq.audit.shop_papers import ShopPapers, Tool
from daq.audit.stated import NOTHING_KNOWN, Stated
from daq.checks.sweep.by_mark import ByMark
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.effects import Work
from daq.checks.sweep.plan import FOUR, RADII, Plan, plan_of
from daq.checks.sweep.rings import NamedRing
from daq.checks.sweep.slots import SlottedTable
from daq.checks.sweep.slow_turn.way import Marks
from daq.checks.sweep.terms import TURNS, Seat
from daq.metrology.reliability import Between
from daq.metrology.rule import Limits, Rule
from daq.metrology.settle import SettleRules
from daq.settings import Angle, Length, Range, Slope, quoted
from daq.squaring.adjuster import Adjust
from daq.squaring.learned import AxisPrior, Learned, from_file
from daq.squaring.pace import StepTimes
from daq.squaring.tightening import AfterCrash, Tighten
from daq.words import AXES, OPPOSITE, PARKED, Axis, Both, Position, Unit

MOST_SWUNG = math.radians(60.0)
"""Further round than this, front and back would be the wrong names for what is read."""

DOUBTS_MM: Final = Both(5.0, 40.0)
"""How well a pivot's distance is known that the file gives without a doubt: by eye and tape
(common practice, no source)."""


@dataclass(frozen=True)
class AxisSetup:
    """One axis of adjustment, from the machine's file.

    `pivot_distance`: horizontal distance from the spindle axis to the axis's pivot,
    counted positive away from the parked position (right for side, front for nod).
    `pivot_height`: the pivot's height above the surface swept. The doubts are their
    standard uncertainties; `coupling` is what the other lean does for each unit of this
    one. `limit` over `over`: the tolerance; `limit_low` is another one toward the left
    (side) or the back (nod) being low, and `one_sided` names the only side that may be
    low at all. `wanted_lean`: a deliberate lean, positive when the right (side) or the
    front (nod) is low. `tolerance`: the preset `limit` came from, "" when it is the file's own.
    """

    say: str
    limit: Annotated[Length, Range(1e-5, 10.0)]
    over: Annotated[Length, Range(1.0, 10_000.0)]
    pivot_distance: Annotated[Length, Range(-2000.0, 2000.0)]
    pivot_height: Annotated[Length, Range(0.0, 3000.0)]
    bolts: str
    adjuster: str
    wanted_lean: Annotated[Slope, Range(-0.1, 0.1)] = 0.0
    limit_low: Annotated[Length, Range(1e-5, 10.0)] | None = None
    one_sided: Literal["", "right", "left", "front", "back"] = ""
    pivot_doubt: Annotated[Length, Range(0.1, 2000.0)] | None = None
    pivot_height_doubt: Annotated[Length, Range(0.1, 2000.0)] = 75.0
    coupling: Annotated[float, Range(-0.5, 0.5)] = 0.0
    coupling_doubt: Annotated[float, Range(1e-5, 0.5)] = 0.02
    adjust: Adjust = field(default_factory=Adjust)
    tighten: Tighten = field(default_factory=Tighten)
    tolerance: str = ""

    @property
    def held_by(self) -> Literal["adjuster", "block", "sling"]:
        """What holds the head on this axis once its bolts are cracked; never a person's hands.

        A worm or a rack does. Pushed by hand, or fixed, it is blocked or slung first; for a
        shim it is slung or jacked, as the joint is opened. Common practice, no source.
        """
        if self.adjust.kind == "shim":
            return "sling"
        return "adjuster" if self.adjust.kind in ("worm", "rack") else "block"


@dataclass(frozen=True)
class CheckSetup:
    """One check besides the sweep, from the machine's file.

    `options`: those of its kind (`daq.checks.kinds`), plain, lengths mm, angles rad.
    `every_days`: how often, if the shop agreed a number.
    """

    options: Mapping[str, Any]
    every_days: Annotated[int, Range(1, 3650)] | None = None


@dataclass(frozen=True)
class MachineSetup:
    """A machine's file. Lengths in mm, slopes in mm/mm, angles in rad.

    `second_gauge`: the one at the other end of a two-gauge bar, read with every take, its
    contact `second_radius` from the spindle. `positions`: where a sweep reads, in order.
    `seat`: what the contact stands on; a block is moved from spot to spot with the contact
    lifted. `ram_angle`: how far the ram is swung, anticlockwise seen from above. `loosen`:
    the bolts of one axis at a time, or of both. `plan`: what tells nothing new is left out, or
    every check is made and every sweep read back. `first`: the axis moved first where both are
    to be. `audit_every`: days between audits, if the
    shop agreed a number. `tolerance`: the preset named for both axes, if one is; the one that
    an axis goes by stands there. `checks`: those besides the sweep, by their kind.

    `spindle`: only an upright one is swept. `z`: how the contact is brought down. `drawbar`:
    how the arm is clamped. `brake`: the spindle's; a "spring" one holds with the power off
    until its hand release is worked as the manual says. `air`: drawbar or clamps work by it, so
    it is vented. `people`: how many work at the machine, a lock each. `table`: what a sweep on
    it has to heed. `ring`: the shop's ring that usually lies on it, by its name.
    `spindle_mark`: what on the spindle tells how the arm is clamped in it. `slow_turn`: what the
    collar's switches tell where the arm passes by itself: the "four" places, or one "mark" a turn
    at the front; "" where a sweep is read standing still alone.

    For paper: `asset`, its number in the shop; `place`, where it stands; `customer`, whose it is;
    `thermometer`, the number on the one that usually hangs there.
    """

    name: str
    gauge: str
    surface: str
    unit: Unit
    sweep_radius: Annotated[Length, RADII]
    side: AxisSetup
    nod: AxisSetup
    second_gauge: str = ""
    second_radius: Annotated[Length, RADII] | None = None
    positions: tuple[Position, ...] = FOUR.positions
    seat: Seat = "ring"
    ram_angle: Annotated[Angle, Range(-MOST_SWUNG, MOST_SWUNG)] = 0.0
    loosen: Literal["one", "both"] = "one"
    plan: Literal["quick", "sure"] = "quick"
    first: Literal["worst", "nod", "side"] = "worst"
    verdict: Rule = field(default_factory=Rule)
    uncertainty: Doubts = field(default_factory=Doubts)
    work: Work = field(default_factory=Work)
    audit_every: Annotated[int, Range(1, 3650)] | None = None
    tolerance: str = ""
    checks: Mapping[str, CheckSetup] = field(default_factory=dict)
    spindle: Literal["vertical", "horizontal"] = "vertical"
    z: Literal["knee", "quill", "powered"] = "knee"
    drawbar: Literal["hand", "power"] = "hand"
    brake: Literal["none", "hand", "spring"] = "none"
    air: bool = False
    people: Literal[1, 2] = 1
    table: SlottedTable = field(default_factory=SlottedTable)
    after_crash: AfterCrash = field(default_factory=AfterCrash)
    ring: str = ""
    spindle_mark: str = ""
    slow_turn: Literal[""] | Marks = ""
    asset: str = ""
    place: str = ""
    customer: str = ""
    thermometer: str = ""

    def __post_init__(self) -> None:
        """Refuse positions that cannot be a sweep, and sides that are not the axis's.

        Raises:
            ValueError: names the key, what was found and what is allowed.
        """
        plan_of(self.positions)
        for key, axis in self.axes.items():
            sides = (PARKED[key], OPPOSITE[PARKED[key]])
            if axis.one_sided not in ("", *sides):
                raise ValueError(
                    f"{key}.one_sided: found {quoted(axis.one_sided)}; "
                    f"allowed: {sides[0]}, {sides[1]}"
                )
            if axis.adjust.finish_raising not in ("", *sides):
                raise ValueError(
                    f"{key}.adjust.finish_raising: found {quoted(axis.adjust.finish_raising)}; "
                    f"allowed: {sides[0]}, {sides[1]}"
                )

    def axis(self, axis: Axis) -> AxisSetup:
        """One axis's part of the file."""
        return self.axes[axis]

    @property
    def axes(self) -> Both[AxisSetup]:
        """Both axes' parts of the file."""
        return Both(self.side, self.nod)

    @property
    def held_by_bolts(self) -> tuple[Axis, ...]:
        """The axes on which the head is to be supported before a bolt is cracked."""
        return tuple(axis for axis in AXES if self.axes[axis].held_by != "adjuster")

    @property
    def while_powered(self) -> tuple[Literal["height", "arm"], ...]:
        """What can be done only before the power is locked out.

        A powered head is brought to the height it is swept at, a power drawbar clamps the arm.
        """
        height: tuple[Literal["height"], ...] = ("height",) if self.z == "powered" else ()
        return (*height, "arm") if self.drawbar == "power" else height

    @property
    def crash_bolts(self) -> tuple[str, ...]:
        """What a wrench is put on after a crash: the bolts of the file, else those of the axes.

        Those by their names, unless both axes use the same one.
        """
        axes = self.axes.values()
        named = [name for axis in axes for name in axis.tighten.bolts or (axis.bolts,)]
        whole = len(set(named)) < len(named)
        return self.after_crash.bolts or tuple(axis.bolts for axis in axes if whole) or tuple(named)

    @property
    def seat_turns(self) -> bool:
        """Whether what the contact stands on can be turned half round."""
        return self.seat in TURNS

    @property
    def diameter(self) -> float:
        """The sweep circle's, mm."""
        return 2.0 * self.sweep_radius

    def limits(self, axis: Axis) -> Limits:
        """What the difference across this sweep may be, less the wanted lean, mm."""
        spec = self.axis(axis)
        scale = self.diameter / spec.over
        high: float | None = spec.limit * scale
        low: float | None = -(spec.limit_low or spec.limit) * scale
        if spec.one_sided in ("right", "front"):
            low = 0.0
        elif spec.one_sided in ("left", "back"):
            high = 0.0
        return Limits(low, high)

    def prior(self, ram: float | None = None) -> Learned:
        """What the head's answers are expected to be from the file alone.

        `ram`: how far the ram is swung, rad, if not as the file says.
        """
        swung = self.ram_angle if ram is None else ram
        measured = Both.of(lambda axis: _measured(self.axis(axis), DOUBTS_MM[axis]))
        return from_file(measured, swung, self.ram_angle)


def _measured(axis: AxisSetup, doubt_mm: float) -> AxisPrior:
    return AxisPrior(
        axis.pivot_distance,
        axis.pivot_doubt or doubt_mm,
        axis.pivot_height,
        axis.pivot_height_doubt,
        axis.coupling,
        axis.coupling_doubt,
    )


@dataclass(frozen=True)
class AuditSetup:
    """Machine, gauge, settling rules, the order of the sweep, and what is known of the head.

    `learned`: how this head answered in earlier audits, None when nothing is known beyond
    the file. `visits`: how far the gauge read off at spots it came back to with nothing
    touched in between, mm, from earlier audits. `previous`: the row of the last signature on
    this machine, practice left out. `others`: the shop's gauges that are finer than the audit's
    in anything, of which one may be what helps to decide. `day`: when the audit was opened, an
    ISO date, UTC. `rings`: the shop's named rings. `stated`: what the signature before it stated,
    which this audit's as-found is held against; `going`: how far the head goes by itself meanwhile.
    `rise`: what is known of how the spindle rises and falls once a turn, mm. `shop`, `tools`: what
    paper says of it, its torque wrenches and thermometers. `config`: the SHA-256 of the files that
    all of it came from, hex; by which release it was opened stands in the row's cause.
    `pace`: how long each step takes here; `returns`: how far this gauge walked within
    earlier sweeps, mm, as they were read back.
    """

    machine_key: str
    machine: MachineSetup
    gauge: GaugeSetup
    settle: SettleRules = field(default_factory=SettleRules)
    plan: Plan = FOUR
    second_gauge: GaugeSetup | None = None
    learned: Learned | None = None
    visits: tuple[float, ...] = ()
    previous: int | None = None
    others: tuple[GaugeSetup, ...] = ()
    day: str = ""
    rings: tuple[NamedRing, ...] = ()
    stated: Stated | None = None
    going: Both[Between] = NOTHING_KNOWN
    rise: ByMark | None = None
    shop: ShopPapers = field(default_factory=ShopPapers)
    tools: tuple[Tool, ...] = ()
    config: str = ""
    pace: StepTimes = field(default_factory=StepTimes)
    returns: tuple[float, ...] = ()

    @property
    def gauges(self) -> tuple[GaugeSetup, ...]:
        """Every gauge bound to the audit."""
        return (self.gauge, self.second_gauge) if self.second_gauge else (self.gauge,)
