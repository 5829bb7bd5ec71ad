"""What follows directly from an open audit's state; decisions and views share it."""

from typing import cast

import numpy as np

from daq.audit.events import SweepDone
from daq.audit.parts import AxisResult, Point, Word
from daq.audit.state import Job
from daq.metrology.verdict import Tolerance, simple
from daq.units import show
from daq.words import OPPOSITE, PARKED, Axis, Position

EXPECTED_OUT = ("after-angled-work", "practice")
"""Reasons for which an as-found out of tolerance says nothing about earlier work."""


def face_text(job: Job, face_mm: float, *, plus: bool = False) -> str:
    """A face value as the gauge shows it: its unit, its decimals."""
    unit = job.unit or job.setup.machine.unit
    return show(face_mm, unit, decimals(job), plus=plus)


def decimals(job: Job) -> int:
    """How many decimals the gauge's resolution is worth in the unit it shows."""
    step = job.setup.gauge.resolution / (25.4 if job.unit == "in" else 1.0)
    return int(np.clip(np.ceil(-np.log10(step) - 1e-9), 0, 6))


def result(job: Job, axis: Axis, d_mm: float) -> AxisResult:
    """One axis judged: its difference on this sweep against the wanted lean and the tolerance."""
    spec = job.setup.machine.axis(axis)
    diameter = 2 * job.setup.machine.sweep_radius
    error = d_mm - spec.wanted_lean * diameter
    limit = Tolerance(spec.limit, spec.over).at(diameter)
    return AxisResult(d_mm, error, limit, simple(error, limit).word)


def points(known: dict[Position, float]) -> tuple[Point, ...]:
    """Values by position, as an event carries them."""
    return tuple(Point(position, value) for position, value in known.items())


def differences(known: dict[Position, float]) -> dict[Axis, float]:
    """right minus left, front minus back."""
    return {"side": known["right"] - known["left"], "nod": known["front"] - known["back"]}


def wanted(job: Job) -> tuple[Position, ...]:
    """The places still to be read, the guided one first; at the end the first one again."""
    taken = [r.position for r in job.taken]
    left = tuple(p for p in job.setup.plan.positions if p not in taken)
    return left or (cast(Position, taken[0]),)


def check_order(axis: Axis) -> tuple[Position, Position]:
    """Where the gauge stands first, then across."""
    near = PARKED[axis]
    return near, OPPOSITE[near]


def left_to_check(job: Job) -> tuple[Position, ...]:
    """The positions a pair check still needs, where the gauge stands first."""
    read = [r.position for r in job.taken]
    return tuple(p for p in check_order(cast(Axis, job.axis)) if p not in read)


def asks_for_past(job: Job) -> bool:
    """Whether signing asks since when the machine was out, and what became of the work."""
    found = job.as_found
    return found is not None and word_of(found) == "out" and job.reason not in EXPECTED_OUT


def word_of(sweep: SweepDone) -> Word:
    """Whether a sweep found both axes inside."""
    return "in" if sweep.side.word == sweep.nod.word == "in" else "out"


def in_air(job: Job, pushed_mm: float) -> bool:
    """Whether the contact cannot be on a surface: pushed in no further than when free."""
    free = job.free_pushed_mm
    return free is not None and pushed_mm - free < _free_margin(job)


def reads_as_free(job: Job, pushed_mm: float) -> bool:
    """Whether the gauge reads what it reads with its contact off the surface."""
    free = job.free_pushed_mm
    return free is not None and abs(pushed_mm - free) < _free_margin(job)


def _free_margin(job: Job) -> float:
    return max(5 * job.setup.gauge.resolution, 2 * job.spread_mm)
