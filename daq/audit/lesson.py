"""What the readings teach about the head, once they fit what was done. Practice never does."""

from dataclasses import replace
from typing import Final

from daq.audit.events import CheckDone, Data, ResponseUpdated
from daq.audit.head import learned, rest_stats, shift_stats, stop_stats
from daq.audit.parts import AxisShift
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.squaring.learned import Learned
from daq.squaring.response import Standing
from daq.squaring.story import turns_read
from daq.words import Both

_TWICE: Final = 2


def teach(job: Job, at: Standing, check: CheckDone | None = None) -> tuple[Data, ...]:
    """The event that carries what is known of the head now; nothing in practice.

    Nor once an axis answered the other way round, before a second turn of it did so too.
    """
    once = [axis for axis in job.head.backwards if turns_read(job.head.story, axis) < _TWICE]
    if not REASONS[job.reason].kept or not job.moves.made or once:
        return ()
    now = job
    if check is not None and check.shift_mm is not None:
        done = (*job.tightening.shifts, AxisShift(check.axis, check.shift_mm))
        now = replace(job, tightening=replace(job.tightening, shifts=done))
    before = learned(job)
    known = Learned(
        answering=at.answering,
        ram=before.ram,
        file_ram=before.file_ram,
        file=before.file,
        audits=before.audits + 1,
        shift_stats=Both.of(lambda axis: shift_stats(now, axis)),
        rest_stats=Both.of(lambda axis: rest_stats(now, axis)),
        stop_stats=Both.of(lambda axis: stop_stats(now, axis)),
    )
    return (ResponseUpdated(known),)
