"""Places in words, where the gauge is wanted now, and how far out an axis reads at them."""

from typing import cast

from daq.audit.facts import is_far_out, left_to_check, middle, unit_of, wanted
from daq.audit.head import park_at
from daq.audit.state import Job
from daq.units import FINE, show
from daq.words import OPPOSITE, PARKED, Axis, Position

AT: dict[Position, str] = {
    "front": "at the front",
    "front-right": "at the front right",
    "right": "at the right",
    "back-right": "at the back right",
    "back": "at the back",
    "back-left": "at the back left",
    "left": "at the left",
    "front-left": "at the front left",
}
TO: dict[Position, str] = {place: f"to{at[2:]}" for place, at in AT.items()}
SWEEPS = ("as-found", "final")


def next_place(job: Job) -> Position | None:
    """Where the gauge is wanted now, or None where its place does not matter."""
    if job.step in SWEEPS:
        return wanted(job)[0]
    if job.step == "park":
        axis = cast(Axis, job.axis)
        return job.base.position if job.base is not None else park_at(job, axis)
    if job.step == "check":
        return left_to_check(job)[0]
    if job.step in ("loosen", "move") and job.stop is not None:
        return job.stop.position
    return None


def still_out(job: Job) -> str:
    """How far out the axis worked on was read last; "" unless it is loose and that is far."""
    axis = cast(Axis, job.axis)
    if axis not in job.loose:
        return ""
    error_mm = job.results[axis].error_mm
    if not is_far_out(job, axis, error_mm - middle(job, axis)):
        return ""
    unit, low = unit_of(job), PARKED[axis] if error_mm > 0.0 else OPPOSITE[PARKED[axis]]
    too = "too low" if job.setup.machine.axis(axis).wanted_lean else "low"
    return f"Still {show(abs(error_mm), unit, FINE[unit])} {too} {AT[low]}"
