"""A sweep that ends at its last place: whether the first, read once more, could tell anything.

What the reading may have walked is not seen then. It is taken for what this gauge was seen to
walk on this machine before, or for all that one may where too few sweeps were read back.
"""

import math
from typing import Final

from daq.audit.events import SweepDone
from daq.audit.facts import narrowest
from daq.audit.head import reading_sd
from daq.audit.reading_order import is_quick
from daq.audit.state import Job
from daq.checks import finding as against
from daq.checks.sweep.steady import BENT, walked
from daq.metrology.rule import judge
from daq.words import AXES, Axis

_ENOUGH: Final = 3
"""So many sweeps that were read back tell what the reading walks."""
_AS_FAR: Final = 2.0
"""It may walk so many times as far as it did on average (root of squares)."""


def may_stay_out(job: Job) -> bool:
    """Whether the return reading may be left out: nothing is turned, and one gauge reads."""
    return is_quick(job) and not job.reads.turned and job.setup.second_gauge is None


def unseen_mm(job: Job) -> float:
    """How far the reading may have walked within a sweep that was not read back, mm."""
    most_mm = against.return_limit_mm(job.setup.gauge.resolution, narrowest(job))
    done = [each.return_error_mm for each in job.sweeps.done if each.usable and each.returned]
    seen = [walked(mm, reading_sd(job)) for mm in (*job.setup.returns, *done)]
    if len(seen) < _ENOUGH:
        return most_mm
    rms_mm = math.sqrt(math.fsum(mm * mm for mm in seen) / len(seen))
    return min(_AS_FAR * rms_mm, most_mm)


def return_tells(job: Job, done: SweepDone) -> bool:
    """Whether the first place, read once more, could change what this sweep says.

    That is where something speaks against it, or where what may have walked makes another word of
    either axis, or of both together.
    """
    if any(flaw.blocking for flaw in done.findings) or done.whole is not None:
        return True
    return any(_turns(job, done, axis) for axis in AXES)


def _turns(job: Job, done: SweepDone, axis: Axis) -> bool:
    found, off_mm = done.results[axis], BENT * unseen_mm(job)
    limits, rule = job.setup.machine.limits(axis), job.setup.machine.verdict
    u_mm, dof = found.u_mm, found.dof
    ends = (judge(found.error_mm + mm, u_mm, dof, limits, rule) for mm in (-off_mm, off_mm))
    return any(each.word != found.word for each in ends)
