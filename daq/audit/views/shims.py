"""Shims in words: how thick, behind what, what they leave; that there is none that would do."""

from daq.audit.facts import unit_of
from daq.audit.parts import NoShim, Shim
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length, with_unit
from daq.units import FINE
from daq.words import Said, Shown, Unit, said


def say_shim(needed: Shim, unit: Unit) -> Said:
    """A shim, or the two of a stack: how thick, and the bolts they go behind."""
    if len(needed.stack) > 1:
        thick, thin = (Shown(mm, unit, FINE[unit]) for mm in needed.stack)
        return said("shim-stack", thick=thick, thin=thin, place=needed.place)
    thickness = Shown(needed.thickness_mm, unit, FINE[unit])
    return said("shim", thickness=thickness, place=needed.place)


def say_leaves(job: Job, shim: Shim) -> Said | None:
    """What the nearest that there is leaves of the error; None where any thickness is had."""
    unit = unit_of(job)
    if shim.word is None:
        return None
    return said(
        "shim-leaves",
        leaves=with_unit(Shown(abs(shim.leaves_mm), unit, FINE[unit])),
        over=length(job.setup.machine.diameter, unit, WIDE),
        word=shim.word,
    )


def told_shim(job: Job, shim: Shim) -> tuple[Said, ...]:
    """The same to a reader of the record."""
    row = said("row-shim", thickness=say_thickness(job, shim), place=shim.place)
    leaves = say_leaves(job, shim)
    return (row,) if leaves is None else (row, leaves)


def say_thickness(job: Job, shim: Shim) -> Said:
    """How thick it is, and of which two where it is a stack."""
    unit = unit_of(job)
    whole = length(shim.thickness_mm, unit)
    if len(shim.stack) < 2:
        return whole
    thick, thin = (length(mm, unit) for mm in shim.stack)
    return said("shim-sum", sum=whole, thick=thick, thin=thin)


def no_shims(job: Job) -> tuple[Said, ...]:
    """The axes that no shim brings inside, as it was found when this step was reached."""
    return () if job.ahead is None else told_none(job, job.ahead.no_shims)


def told_none(job: Job, none: tuple[NoShim, ...]) -> tuple[Said, ...]:
    """The same, each with what is left at best."""
    return tuple(
        said(
            "no-shim",
            axis=job.setup.machine.axis(each.axis).say,
            leaves=length(abs(each.leaves_mm), unit_of(job)),
        )
        for each in none
    )
