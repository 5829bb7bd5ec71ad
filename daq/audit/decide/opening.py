"""Opening an audit, the preparation card, and the touch test."""

import hashlib
import uuid
from dataclasses import dataclass

from daq.audit.decide import resuming
from daq.audit.decide.common import Input, Nothing, Refused
from daq.audit.events import AuditOpened, Data, FreeRead, Prepared, Pushed, TouchWanted
from daq.audit.facts import face_text, points, reads_as_free
from daq.audit.parts import Next
from daq.audit.setup import MOST_SWUNG, Reason
from daq.audit.state import Job, Shop
from daq.metrology.jump import zero_noticed
from daq.settings import quoted
from daq.squaring.learned import Learned
from daq.units import UnitError, parse

FREE_SPREAD_MM = 0.02
"""What a gauge hanging free may still wander within a window; its noise is not known yet."""

LEAST_PUSH_MM = 0.1
"""A push by hand moves a contact further than this; vibration does not."""

_AUDITS = uuid.UUID("6b0f6a2e-4a0e-5c56-9d3a-0f7f0f9b1d11")
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"


@dataclass(frozen=True)
class Open:
    """The payload of `open`."""

    reason: Reason


@dataclass(frozen=True)
class Confirm:
    """The payload of `prepared`: the number read off the gauge, and whether the ram moved.

    `ram_angle`: how far the ram is swung now, anticlockwise seen from above; nothing: as the
    machine's file says. `touched`: the gauge or the head was, while the service was off;
    `cracked`: so were the bolts that were to be cracked when it went off.
    """

    serial_number: str
    ram_moved: bool = False
    ram_angle: str = ""
    touched: bool = False
    cracked: bool = False


def audit_id(command_id: str) -> str:
    """The new audit's UUID; it follows from the command's, so a decision can be computed again."""
    return str(uuid.uuid5(_AUDITS, command_id))


def short_form(audit: str) -> str:
    """Four characters a person can say aloud, without look-alikes, after an A."""
    number = int.from_bytes(hashlib.sha256(audit.encode()).digest()[:4], "big")
    return "A-" + "".join(_LETTERS[(number >> (5 * i)) % 32] for i in range(4))


def open_audit(shop: Shop, given: Input) -> tuple[Data, ...]:
    """A new audit, if the machine has none open and its gauge is free."""
    reason = given.payload(Open).reason
    setup = given.setup
    if setup is None:
        raise Refused("no-such-machine", machine=quoted(given.command.machine))
    for gauge in setup.gauges:
        check_free(shop, given.command.machine, gauge.key)
    short = short_form(audit_id(given.command.id))
    known = shop.machine(given.command.machine).started(setup)
    return (AuditOpened(short, reason, known),)


def check_free(shop: Shop, machine: str, gauge: str) -> None:
    """Refuse when the machine is open, or not safe yet, or the gauge is bound to another's."""
    state = shop.machine(machine)
    if state.job is not None:
        raise Refused("audit-open")
    if state.unsafe is not None:
        raise Refused("machine-unsafe")
    other = shop.bound(gauge)
    if other is not None and other.job is not None:
        raise Refused(
            "gauge-in-use",
            gauge=repr(gauge),
            audit=other.job.short,
            machine=other.job.setup.machine.name,
        )


def prepared(job: Job, given: Input) -> tuple[Data, ...]:
    """The card was read, and the number on the gauge is the file's."""
    said = given.payload(Confirm)
    number = said.serial_number.strip()
    if number != job.setup.gauge.serial_number:
        known = repr(job.setup.gauge.serial_number)
        raise Refused("other-gauge", found=quoted(number), known=known)
    anew = resuming.meanwhile(job, said.touched, said.cracked)
    return (Prepared(number, _new_head(job, said), anew is not None, anew, said.cracked),)


def _new_head(job: Job, said: Confirm) -> Learned | None:
    """What is known of a head whose ram or turret was moved: the file's, at its angle now."""
    if not said.ram_moved:
        return None
    machine = job.setup.machine
    if not said.ram_angle.strip():
        return machine.prior()
    try:
        angle = parse(said.ram_angle, "angle")
    except UnitError as error:
        found = quoted(said.ram_angle)
        raise Refused("ram-angle-no-angle", found=found) from error
    if abs(angle) > MOST_SWUNG:
        found = quoted(said.ram_angle)
        raise Refused("ram-angle-too-far", found=found)
    return machine.prior(angle)


def free_reading(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge with its contact in the air: unit, free reading, noise; later on, its zero."""
    reading = given.reading(None)
    pushed_mm = job.setup.gauge.pushed(reading.mean_mm)
    shift = _shift(job, pushed_mm)
    say = ""
    if job.resume is not None:
        say = "Zeroed: read this spot again." if shift else "Not zeroed: carry on."
    return (
        FreeRead(
            reading=reading,
            unit=given.window[-1].unit,
            pushed_mm=pushed_mm,
            spread_mm=max(5 * job.setup.gauge.resolution, 8 * reading.sd_mm),
            points=points({p: m + shift for p, m in job.known.items()}),
            restart=bool(shift and job.taken),
            say=say,
            next=job.resume or Next("touch-push"),
        ),
    )


def _shift(job: Job, pushed_mm: float) -> float:
    """How far the zero has moved since the free reading before; 0 when it has not."""
    back = job.anew is not None and job.anew.why == "restart"
    if job.free_pushed_mm is None or (job.resume is None and not back):
        return 0.0
    shift = pushed_mm - job.free_pushed_mm
    return 0.0 if abs(shift) <= max(5 * job.setup.gauge.resolution, job.spread_mm) else shift


def pushed(job: Job, given: Input) -> tuple[Data, ...]:
    """Whether the number moved, and the right way, when the contact was pushed in."""
    given.payload(Nothing)
    free = job.free_pushed_mm or 0.0
    travel = [job.setup.gauge.pushed(s.value_mm) - free for s in given.samples]
    furthest = max(travel, key=abs, default=0.0)
    moved = job.setup.gauge.face(furthest)
    zero = zero_noticed(given.samples, job.setup.gauge.resolution)
    if zero is not None and not reads_as_free(job, job.setup.gauge.pushed(zero.after_mm)):
        say = "The gauge was zeroed meanwhile: let it hang free and take the reading again."
        return (Pushed(False, moved, say, Next("touch-free")),)
    if abs(furthest) < LEAST_PUSH_MM:
        say = (
            "The number did not move. Push the contact in and let it go, then press again; "
            "if it still does not move, the gauge is stuck."
        )
        return (Pushed(False, moved, say, Next("touch-push")),)
    if furthest < 0:
        counts = "up" if job.setup.gauge.counts_up else "down"
        say = (
            f"The number went the wrong way ({face_text(job, moved, plus=True)}): the gauge's "
            f"file says it counts {counts} when pushed in. Push the contact in, or correct "
            "the file."
        )
        return (Pushed(False, moved, say, Next("touch-push")),)
    say = f"The gauge answers: {face_text(job, moved, plus=True)}."
    return (Pushed(True, moved, say, job.anew.next if job.anew else Next("as-found")),)


def touch(job: Job, given: Input) -> tuple[Data, ...]:
    """The person says the gauge was zeroed: the free reading, taken again, shows by how much."""
    given.payload(Nothing)
    return (TouchWanted(Next(job.step, job.axis), Next("touch-free", job.axis)),)
