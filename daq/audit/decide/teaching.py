"""What the readings teach about the head, once they fit what was done. Practice never does."""

from dataclasses import replace

from daq.audit.events import CheckDone, Data, ResponseUpdated
from daq.audit.facts import unit_of
from daq.audit.head import learned, shifts
from daq.audit.parts import AxisShift
from daq.audit.state import Job
from daq.squaring.learned import Learned
from daq.squaring.response import Standing
from daq.units import show
from daq.words import AXES

TELLS = 0.8
"""What is known of a pivot is said again when its doubt shrank to this part of what it was."""


def teach(job: Job, at: Standing, check: CheckDone | None = None) -> tuple[Data, ...]:
    """The event that carries what is known of the head now; nothing in practice.

    Nor once an axis answered the other way round: the machine's file is to be put right first.
    """
    if job.reason == "practice" or not job.moves or job.reversed:
        return ()
    now = job
    if check is not None and check.shift_mm is not None:
        now = replace(job, shifts=(*job.shifts, AxisShift(check.axis, check.shift_mm)))
    before = learned(job)
    known = Learned(
        answering=at.answering,
        ram=before.ram,
        file_ram=before.file_ram,
        file=before.file,
        audits=before.audits + 1,
        side_shifts=shifts(now, "side"),
        nod_shifts=shifts(now, "nod"),
    )
    return (ResponseUpdated(known, _say(job, before, known)),)


def _say(job: Job, before: Learned, now: Learned) -> tuple[str, ...]:
    """What became clearer, in words."""
    unit = unit_of(job)
    digits = 0 if unit == "mm" else 2
    said = []
    for axis in AXES:
        was, doubt = before.answering.pivot_doubt_mm(axis), now.answering.pivot_doubt_mm(axis)
        if doubt < TELLS * was:
            name = job.setup.machine.axis(axis).say
            pivot = show(now.answering.pivot_mm(axis), unit, digits)
            within = show(2.0 * doubt, unit, max(digits, 1))
            said.append(
                f"{name}: it turns about {pivot} {unit} from the spindle, give or take {within}."
            )
    return tuple(said)
