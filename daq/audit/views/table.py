"""The card of the table in words, and what of it a signature is to show."""

from daq.audit.held.table import TABLE, TICKS, TableReady, Tick
from daq.audit.state import Job
from daq.units import degrees
from daq.words import Figure, Said, said


def tick(job: Job, key: Tick) -> Said:
    """One line of the card."""
    machine = job.setup.machine
    return said("table-tick", tick=key, seat=machine.seat, z=machine.z)


def lines(job: Job) -> tuple[Said, ...]:
    """All of them."""
    return tuple(tick(job, key) for key in TICKS)


def kept(job: Job) -> tuple[Said, ...]:
    """What was not done and why, the temperature and the numbers, for whoever signs."""
    found = job.own.get(TABLE)
    if not isinstance(found, TableReady):
        return ()
    shown: list[Said] = []
    if found.not_done:
        what = tuple(tick(job, key) for key in found.not_done)
        shown.append(said("table-not-done", what=what, why=found.why))
    if found.temperature_c is not None:
        unit = job.setup.machine.unit
        here = Figure(degrees(found.temperature_c, unit), 1)
        shown.append(said("table-temperature", degrees=here, unit=unit))
    if found.thermometer:
        shown.append(said("table-thermometer", number=found.thermometer))
    if found.wrench:
        shown.append(said("table-wrench", number=found.wrench))
    return tuple(shown)
