"""What an audit is opened with: the machine, the gauge and the rules, fixed for its whole length.

`AuditOpened` embeds all of it, so neither the fold nor a later reader of the
ledger looks into a config file again.
"""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from daq.checks.sweep.plan import FOUR, Plan
from daq.metrology.pushed import face, pushed_in
from daq.metrology.settle import SettleRules
from daq.settings import Length, Range, Slope
from daq.words import Axis

Reason = Literal["after-angled-work", "crash", "maintenance", "scheduled", "check-only", "practice"]

REASONS: dict[Reason, str] = {
    "after-angled-work": "After angled work",
    "crash": "After a crash",
    "maintenance": "After maintenance",
    "scheduled": "Scheduled",
    "check-only": "Check only",
    "practice": "Practice",
}


@dataclass(frozen=True)
class AxisSetup:
    """One axis of adjustment, from the machine's file.

    `pivot_distance`: horizontal distance from the spindle axis to the axis's pivot,
    counted positive away from the parked position (right for side, front for nod).
    `pivot_height`: the pivot's height above the surface swept.
    `limit` over `over`: the tolerance. `wanted_lean`: a deliberate lean, positive
    when the right (side) or the front (nod) is low.
    """

    say: str
    limit: Annotated[Length, Range(1e-5, 10.0)]
    over: Annotated[Length, Range(1.0, 10_000.0)]
    pivot_distance: Annotated[Length, Range(-2000.0, 2000.0)]
    pivot_height: Annotated[Length, Range(0.0, 3000.0)]
    bolts: str
    adjuster: str
    wanted_lean: Annotated[Slope, Range(-0.1, 0.1)] = 0.0


@dataclass(frozen=True)
class MachineSetup:
    """A machine's file. Lengths in mm, slopes in mm/mm.

    `second_gauge`: the one at the other end of a two-gauge bar, read with every take.
    """

    name: str
    gauge: str
    surface: str
    unit: Literal["mm", "in"]
    sweep_radius: Annotated[Length, Range(5.0, 2000.0)]
    side: AxisSetup
    nod: AxisSetup
    second_gauge: str = ""

    def axis(self, axis: Axis) -> AxisSetup:
        """One axis's part of the file."""
        return self.side if axis == "side" else self.nod


@dataclass(frozen=True)
class GaugeSetup:
    """What the audit needs to know of its gauge: identity, papers, how its face relates to mm.

    Days are ISO dates. `checked_on`, `check_passed`: its latest check against known lengths
    before the audit was opened, None when there was none on record.
    """

    key: str
    name: str
    serial_number: str
    counts_up: bool
    cosine: float
    resolution: float
    travel: float
    calibration_due: str
    certificate: str = ""
    laboratory: str = ""
    calibrated_on: str | None = None
    checked_on: str | None = None
    check_passed: bool | None = None

    def pushed(self, face_mm: float) -> float:
        """How far the contact is pushed in (plus the gauge's zero), mm."""
        return pushed_in(face_mm, self.counts_up, self.cosine)

    def face(self, pushed_mm: float) -> float:
        """What the gauge's own face shows for that, mm."""
        return face(pushed_mm, self.counts_up, self.cosine)


@dataclass(frozen=True)
class AuditSetup:
    """Machine, gauge, settling rules and the order of the sweep."""

    machine_key: str
    machine: MachineSetup
    gauge: GaugeSetup
    settle: SettleRules = field(default_factory=SettleRules)
    plan: Plan = FOUR
    second_gauge: GaugeSetup | None = None

    @property
    def gauges(self) -> tuple[GaugeSetup, ...]:
        """Every gauge bound to the audit."""
        return (self.gauge, self.second_gauge) if self.second_gauge else (self.gauge,)
