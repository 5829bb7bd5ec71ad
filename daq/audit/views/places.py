"""The places of a sweep in words, and where the gauge is wanted now."""

from typing import cast

from daq.audit.facts import left_to_check, wanted
from daq.audit.head import park_at
from daq.audit.state import Job
from daq.words import Axis, Position

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
