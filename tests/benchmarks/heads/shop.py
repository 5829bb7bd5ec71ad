"""The shop's files for a head: what a person who measured it by eye and tape would write."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.setup import AuditSetup, AxisSetup, GaugeSetup, MachineSetup
from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from daq.words import Axis

MACHINE = "mill"
SERIAL_NUMBER = "P-1"
MM_AN_INCH = 25.4
BOLTS_MM = 200.0
SHIM_MM = 0.05
"""The shims there are: every multiple of it."""


@dataclass(frozen=True, slots=True)
class Files:
    """What a cell of the table asks of the files: tolerance, rule, gauge, adjusters.

    `over_mm`: what the tolerance is over; None: across the sweep. `shims`: nod goes by them.
    """

    limit_mm: float
    rule: Literal["simple", "guarded"] = "simple"
    resolution_mm: float = 0.001
    unit: Literal["mm", "in"] = "mm"
    max_error_mm: float = 0.0
    share: float = 1.0
    over_mm: float | None = None
    loosen: Literal["one", "both"] = "one"
    kind: Literal["worm", "rack", "hand"] = "worm"
    backlash_mm: float | None = None
    shims: bool = False


def setup(files: Files, radius_mm: float) -> AuditSetup:
    """The audit's setup for a sweep of that radius, the head's prior the same for all heads."""
    turned = Adjust(files.kind, backlash=files.backlash_mm)
    shimmed = Adjust("shim", bolt_spacing=BOLTS_MM, shim_step=SHIM_MM) if files.shims else turned
    machine = MachineSetup(
        "Mill",
        "arm",
        "ring",
        files.unit,
        radius_mm,
        _axis(files, radius_mm, "Side to side", "side", (0.0, 5.0), turned),
        _axis(files, radius_mm, "Nod", "nod", (190.0, 40.0), shimmed),
        loosen=files.loosen,
        verdict=Rule(files.rule, share=files.share),
    )
    gauge = GaugeSetup(
        "arm",
        "Arm gauge",
        SERIAL_NUMBER,
        counts_up=True,
        cosine=1.0,
        resolution=files.resolution_mm,
        travel=MM_AN_INCH,
        calibration_due="2028-01-01",
        max_error=files.max_error_mm,
    )
    return AuditSetup(MACHINE, machine, gauge)


def _axis(
    files: Files,
    radius_mm: float,
    say: str,
    axis: Axis,
    pivot_mm: tuple[float, float],
    adjust: Adjust,
) -> AxisSetup:
    """One axis, its pivot by tape and in what doubt."""
    return AxisSetup(
        say,
        limit=files.limit_mm,
        over=files.over_mm or 2.0 * radius_mm,
        pivot_distance=pivot_mm[0],
        pivot_doubt=pivot_mm[1],
        pivot_height=385.0,
        pivot_height_doubt=75.0,
        coupling_doubt=0.02,
        bolts=f"the {axis} bolts",
        adjuster=f"the {axis} adjuster",
        adjust=adjust,
    )
