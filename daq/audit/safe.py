"""What is loose, or may be, and what is in the spindle: why a machine must not run."""

from dataclasses import replace

from daq.audit.facts import unasked
from daq.audit.parts import Unsafe
from daq.audit.state import Job
from daq.words import AXES, Axis


def maybe_loose(job: Job) -> tuple[Axis, ...]:
    """The axes whose bolts a person was told to crack, and may have, though nobody said so yet."""
    if job.anew is not None:
        return job.anew.maybe
    stood = unasked(job)
    if stood.step in ("closer", "set-back"):
        return AXES
    return (stood.axis,) if stood.step == "loosen" and stood.axis is not None else ()


def loose_first(job: Job) -> Axis | None:
    """The axis to be read first of those whose bolts are loose."""
    axes = sorted(job.loose, key=lambda axis: (axis != job.axis, AXES.index(axis)))
    return axes[0] if axes else None


def unsafe(job: Job) -> Unsafe | None:
    """What must be put right before the machine has power again; None when nothing must.

    Told to crack bolts or to bring the head closer, a person may have cracked them already.
    """
    loose = [axis for axis in AXES if axis in job.loose or axis in maybe_loose(job)]
    bolts = tuple(job.setup.machine.axis(axis).bolts for axis in loose)
    return Unsafe(bolts, job.arm_in, job.check is not None) if bolts or job.arm_in else None


def maybe_unsafe(job: Job) -> Unsafe | None:
    """The same where it is to be looked at: at the card the arm may be in, before that is said."""
    return unsafe(replace(job, arm_in=job.arm_in or job.step == "prepare"))
