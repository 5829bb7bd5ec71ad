"""What is said of a pair that does not fit, and what tightening did to one that does."""

from daq.audit.facts import shown_face
from daq.audit.guess import angle, way
from daq.audit.move_events import Strange
from daq.audit.state import Job
from daq.squaring.story import last_worked
from daq.squaring.surmise import Guess
from daq.words import OTHER, Axis, Said, said


def shift(job: Job, axis: Axis, d_mm: float) -> float | None:
    """How tightening changed the difference, if that came between this check and the last."""
    before_mm = job.tightening.before.get(axis)
    return None if axis in job.loose or before_mm is None else d_mm - before_mm


def seems(
    job: Job, axis: Axis, odd: Strange, d_mm: float, used: Guess | None = None
) -> Said | None:
    """What seems to have happened before a pair that does not fit, or did before it is `used`."""
    if not odd:
        if used is None:
            return None
        return said("ram-taken-for-swung", angle=angle(used), way=way(used))
    machine = job.setup.machine
    stands = machine.axis(axis).say
    if axis in job.loose:
        return _seems_turned(stands, odd)
    shift_mm = shift(job, axis, d_mm)
    if shift_mm is None or last_worked(job.head.story) != axis:
        # Its bolts were tight while the other one was moved.
        return said("knocked-while-tight", moved=machine.axis(OTHER[axis]).say, axis=stands)
    by = shown_face(job, abs(shift_mm))
    if odd == "again":
        return said("tightened-read-again", axis=stands, by=by)
    return said("tightened-too-far", axis=stands, by=by)


def _seems_turned(axis: str, odd: Strange) -> Said:
    """What seems to have happened between the parked reading and the pair check."""
    if odd == "wrong-adjuster":
        return said("another-adjuster", axis=axis)
    if odd == "astray":
        return said("led-astray", axis=axis)
    if odd == "backwards":
        return said("answered-backwards", axis=axis)
    if odd == "fell-back":
        return said("fell-back", axis=axis)
    if odd == "crept":
        return said("crept", axis=axis)
    return said("knocked")
