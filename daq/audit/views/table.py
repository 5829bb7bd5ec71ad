"""The card of the table in words, and what of it a signature is to show."""

from collections.abc import Iterator

from daq.audit.held.table import TABLE, TICKS, TableReady, Tick
from daq.audit.state import Job
from daq.audit.views.not_safe import listed
from daq.units import degrees, degrees_apart
from daq.words import Figure, Said, said


def tick(job: Job, key: Tick) -> Said:
    """One line of the card."""
    machine = job.setup.machine
    return said("table-tick", tick=key, seat=machine.seat, z=machine.z)


def lines(job: Job) -> tuple[Said, ...]:
    """All of them."""
    return tuple(tick(job, key) for key in TICKS)


def read_at(job: Job) -> tuple[str, ...]:
    """What a temperature may be read of, in the order of the card."""
    machine = job.setup.machine
    return ("room", "machine", machine.seat) if machine.seat_turns else ("room", "machine")


def apart(job: Job, kelvins: float) -> Said:
    """A difference of temperatures as the shop reads it."""
    unit = job.setup.machine.unit
    return said("degrees", degrees=Figure(degrees_apart(kelvins, unit), 1), unit=unit)


def temperatures(job: Job) -> Said | None:
    """Those that were read, None for none."""
    found = job.own.get(TABLE)
    return _temperatures(job, found) if isinstance(found, TableReady) else None


def _temperatures(job: Job, found: TableReady) -> Said | None:
    unit = job.setup.machine.unit
    every = zip(read_at(job), (found.temperature_c, found.machine_c, found.ring_c), strict=False)
    shown = [
        said("degrees-of", of=of, degrees=Figure(degrees(celsius, unit), 1), unit=unit)
        for of, celsius in every
        if celsius is not None
    ]
    return listed(shown) if shown else None


def kept(job: Job) -> tuple[Said, ...]:
    """What was not done and why, the temperature and the numbers, for whoever signs."""
    found = job.own.get(TABLE)
    return told(job, found) if isinstance(found, TableReady) else ()


def told(job: Job, found: TableReady) -> tuple[Said, ...]:
    """The same of a card."""
    shown: list[Said] = []
    if found.not_done:
        what = tuple(tick(job, key) for key in found.not_done)
        shown.append(said("table-not-done", what=what, why=found.why))
    warm = _temperatures(job, found)
    if warm is not None:
        shown.append(said("table-temperatures", of=warm))
    if found.thermometer:
        shown.append(said("table-thermometer", number=found.thermometer))
    if found.wrench:
        shown.append(said("table-wrench", number=found.wrench))
    return (*shown, *_overdue(job, found))


def _overdue(job: Job, found: TableReady) -> Iterator[Said]:
    """Those of the tools named on the card whose calibration had run out by that day."""
    used = {"thermometer": found.thermometer, "wrench": found.wrench}
    for tool in job.setup.tools:
        due = tool.due
        if due is not None and tool.number == used[tool.kind] and due.isoformat() < job.setup.day:
            yield said("tool-overdue", tool=tool.kind, number=tool.number, day=due.isoformat())
