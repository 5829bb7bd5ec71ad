"""What a verdict is of: the measurand, said with its result and signed with it."""

from daq.audit.held.ran import RAN, Ran
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length
from daq.words import Said, said


def condition(job: Job) -> Said | str:
    """The state it is read in: as the machine's file states it, and how the spindle was run."""
    stated, ran = job.setup.machine.uncertainty.condition, job.own.get(RAN)
    if not isinstance(ran, Ran):
        return stated or said("no-condition")
    how = said("spindle-ran", warm="warm" if ran.warm else "cold", minutes=ran.minutes or 0)
    if not stated:
        return said("just-ran", ran=how)
    return said("list-more", before=said("name", name=stated), next=how)


def measurand(job: Job) -> Said:
    """What is judged, on what, in which condition, and by which gauge."""
    machine = job.setup.machine
    gauges = tuple(
        said("gauge-known", name=g.name, number=g.serial_number) for g in job.setup.gauges
    )
    by = said("condition-and-gauge", condition=condition(job), gauge=gauges)
    if job.check is None:
        across = length(machine.diameter, job.gauge.unit, WIDE)
        return said("measurand-lean", seat=machine.seat, across=across, by=by)
    return said("measurand-check", kind=job.check.kind, name=job.check.name, by=by)
