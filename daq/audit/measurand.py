"""What a verdict is of: the measurand, said with its result and signed with it."""

from daq.audit.held.ran import RAN, Ran
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length
from daq.audit.views.not_safe import listed
from daq.audit.views.table import temperatures
from daq.words import Said, said


def condition(job: Job) -> Said | str:
    """The state it is read in: as the file states it, how the spindle was run, how warm all is."""
    stated, warm = job.setup.machine.uncertainty.condition, temperatures(job)
    parts = [_ran(job.own.get(RAN)), warm]
    known = [part for part in parts if part is not None]
    if not known:
        return stated or said("no-condition")
    if not stated:
        return said("just-ran", ran=listed(known))
    return listed([said("name", name=stated), *known])


def _ran(ran: object) -> Said | None:
    if not isinstance(ran, Ran):
        return None
    return said("spindle-ran", warm="warm" if ran.warm else "cold", minutes=ran.minutes or 0)


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
