"""Places in words, where the gauge is wanted now, and how far out an axis reads at them."""

from daq.audit.facts import axis_of, unit_of
from daq.audit.reading_order import unread_places
from daq.audit.state import Job
from daq.units import FINE
from daq.words import OPPOSITE, PARKED, Axis, Position, Said, Shown, said

SWEEPS = ("as-found", "final")


def at(place: Position) -> Said:
    """That the gauge stands at a place."""
    return said("at-place", place=place)


def to(place: Position) -> Said:
    """That it is turned to a place."""
    return said("to-place", place=place)


def named(place: Position) -> Said:
    """A place's name, on its own."""
    return said("place-name", place=place)


def next_place(job: Job) -> Position | None:
    """Where the gauge is wanted now, or None where its place does not matter."""
    if job.step in SWEEPS:
        return unread_places(job)[0]
    if job.step == "park" and job.base is not None:
        return job.base.position
    if job.step in ("park", "check") and job.ahead is not None:
        read = [r.position for r in job.reads.taken] if job.step == "check" else []
        return next((place for place in job.ahead.places if place not in read), None)
    if job.step in ("loosen", "move") and job.stop is not None:
        return job.stop.position
    return None


def still_out(job: Job) -> Said | None:
    """How far out the axis worked on was read last; None unless it is loose and that is far."""
    axis = axis_of(job)
    if axis not in job.loose or not job.axes.results[axis].far:
        return None
    error_mm, unit = job.axes.results[axis].error_mm, unit_of(job)
    by, low = Shown(abs(error_mm), unit, FINE[unit]), _low(axis, error_mm)
    if job.setup.machine.axis(axis).wanted_lean:
        return said("still-too-low", by=by, at=at(low))
    return said("still-low", by=by, at=at(low))


def low_by(job: Job, axis: Axis) -> Said:
    """Which end of an axis is low, or how it is nodded, and by how much, as it was read last."""
    error_mm, unit = job.axes.results[axis].error_mm, unit_of(job)
    leans, side = job.setup.machine.axis(axis).wanted_lean, _low(axis, error_mm)
    end = said("too-low-end", side=side) if leans else said("low-end", side=side)
    return said("low-by", end=end, limit=Shown(abs(error_mm), unit, FINE[unit]))


def _low(axis: Axis, error_mm: float) -> Position:
    """The side that is low, or too low where a lean is wanted."""
    return PARKED[axis] if error_mm > 0.0 else OPPOSITE[PARKED[axis]]
