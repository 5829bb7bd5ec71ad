"""What is loose, or may be, and what is in the spindle: why a machine must not run."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import axis_of, kind_of
from daq.audit.parts import RESTING, Unsafe
from daq.audit.reading_order import both_at_once
from daq.audit.state import Job
from daq.words import AXES, Axis

_TIGHT = (e.Parked, e.BaseRead, e.SweepDone, e.Prepared, e.BroughtCloser)
PUT_IN = ("power-arm", "prepare", "arm-back")
"""Where the arm goes into the spindle."""


def maybe_loose(job: Job) -> tuple[Axis, ...]:
    """The axes whose bolts a person was told to crack, and may have, though nobody said so yet."""
    before = job.anew.maybe if job.anew is not None else ()
    return tuple(axis for axis in AXES if axis in before or axis in job.told)


def told_to_crack(before: Job, after: Job, data: e.Data) -> frozenset[Axis]:
    """The axes that somebody was told to crack, and has not said since to be loose or tight.

    What is read with all bolts tight, and the card, say that they are, and so does whoever has set
    the head back or leaves it; what the gauge does by itself, or a press taken back, does not.
    """
    told = before.told
    if isinstance(data, _TIGHT) or before.step in ("set-back", *RESTING):
        told = frozenset()
    elif isinstance(data, e.Loosened | e.Tightened):
        told = frozenset() if getattr(data, "both", False) else told - {data.axis}
    if after.step in ("closer", "set-back"):
        return frozenset(AXES)
    if after.step == "loosen" and both_at_once(after):
        return frozenset(AXES)
    return told | {axis_of(after)} if after.step in ("loosen", "shim-open") else told


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
    if not (bolts or job.arm_in):
        return None
    return Unsafe(bolts, job.arm_in, kind_of(job) == "check", job.setup.machine.drawbar)


def maybe_unsafe(job: Job) -> Unsafe | None:
    """The same where it is to be looked at: told to put the arm in, a person may have done so."""
    return unsafe(replace(job, arm_in=job.arm_in or job.step in PUT_IN))
