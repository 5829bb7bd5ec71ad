"""What hands are told by the kind of machine: locking out, bringing the contact down, support.

All of it is common practice, no source; the machine's manual comes first on every card.
"""

from typing import Final

from daq.audit.setup import AxisSetup, MachineSetup
from daq.audit.state import Job
from daq.audit.views.figures import with_unit
from daq.units import MM_PER_INCH
from daq.words import Said, Shown, said

CRACK: Final = said("crack-only")
CLEAR: Final = said("hands-clear")
NOBODY_BENEATH: Final = said("nobody-beneath")
KEEP_LOCK: Final = said("keep-the-lock")
_BRAKE: Final = {"none": (), "hand": (said("brake-by-hand"),), "spring": (said("brake-holds"),)}


def lock_out(machine: MachineSetup) -> tuple[Said, ...]:
    """The order of making it safe, and how its spindle comes free all the same."""
    return (isolate(machine), *_BRAKE[machine.brake], KEEP_LOCK)


def isolate(machine: MachineSetup) -> Said:
    """The order of making it safe."""
    air = "vented" if machine.air else "none"
    return said("lock-out", air=air, people=machine.people)


def contact_down(job: Job) -> Said:
    """How the contact comes down onto what it reads, when it is set."""
    return said("contact-down", z=job.setup.machine.z, preload=preload(job))


def as_it_was(job: Job) -> Said:
    """How the contact comes down to where it was set before."""
    return said("contact-as-it-was", z=job.setup.machine.z)


def out_of_the_way(job: Job, about: Said) -> Said:
    """How the contact is brought out of the way of a nod that is about so big."""
    return said("big-nod", z=job.setup.machine.z, about=about)


def preload(job: Job) -> Said:
    """A plunger about a millimetre, a lever within its 0.1 to 0.25: common practice, no source."""
    if job.setup.gauge.kind == "lever":
        inch, metric = Shown(0.008 * MM_PER_INCH, "in", 3), Shown(0.2, "mm", 1)
    else:
        inch, metric = Shown(0.050 * MM_PER_INCH, "in", 3), Shown(1.0, "mm", 0)
    return with_unit(inch if job.gauge.unit == "in" else metric)


def clearance(job: Job) -> Said:
    """How far above what it reads a contact is left, to be brought down by hand."""
    inch, metric = Shown(0.050 * MM_PER_INCH, "in", 3), Shown(1.0, "mm", 0)
    return with_unit(inch if job.gauge.unit == "in" else metric)


def support_first(*axes: AxisSetup) -> tuple[Said, ...]:
    """That a head is supported before anything is cracked, where its bolts alone hold it."""
    by = {axis.held_by for axis in axes} - {"adjuster"}
    if not by:
        return ()
    return (said("held-by-bolts", by="sling" if "sling" in by else "block"),)


def cracking(*axes: AxisSetup) -> tuple[Said, ...]:
    """What to heed where the bolts of these axes are cracked."""
    racks = tuple(
        said("rack-runs-back", adjuster=axis.adjuster)
        for axis in axes
        if axis.adjust.kind == "rack"
    )
    return (*support_first(*axes), *racks, CRACK, CLEAR)


def nip_back(axis: AxisSetup) -> Said:
    """How slack the bolts are for the move: as little as lets the head be moved at all."""
    return said("nip-back", kind="hand" if axis.adjust.kind == "hand" else "screw")


def worked_on(job: Job) -> tuple[AxisSetup, ...]:
    """The axes whose bolts are cracked next: the one that is worked on, else either."""
    machine = job.setup.machine
    return tuple(machine.axes.values()) if job.axis is None else (machine.axis(job.axis),)


def supported(*axes: AxisSetup) -> Said:
    """How the head is held before its bolts are cracked and it is moved by hand."""
    by = {axis.held_by for axis in axes}
    first = next((each for each in ("sling", "block") if each in by), "adjuster")
    return said("support-head", by=first)


def power_for_drawbar(machine: MachineSetup) -> tuple[Said, ...]:
    """What to heed where the arm comes out by a drawbar that needs power."""
    if machine.drawbar != "power":
        return ()
    return said("power-for-drawbar"), said("start-nothing")


def arm_away(machine: MachineSetup) -> Said:
    """The gauge away from under the head, the arm with it unless only power lets it go."""
    return said("arm-and-gauge-out", drawbar=machine.drawbar)


def arm_back(machine: MachineSetup) -> Said:
    """What was taken away goes back."""
    return said("arm-and-gauge-back", drawbar=machine.drawbar)
