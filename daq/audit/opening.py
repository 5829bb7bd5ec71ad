"""Opening an audit, the preparation card, and the touch test."""

import hashlib
import uuid
from dataclasses import dataclass, replace

from daq.audit.anytime import restart
from daq.audit.chosen import chosen
from daq.audit.events import AuditOpened, Data, FreeRead, Prepared, Pushed
from daq.audit.facts import first_read, points, reads_as_free, shown_face
from daq.audit.input import Input, Nothing, Refused, head_only
from daq.audit.parts import Next
from daq.audit.setup import MOST_SWUNG, Reason
from daq.audit.state import Job, Shop
from daq.metrology.jump import zero_noticed
from daq.settings import quoted
from daq.squaring.learned import Learned
from daq.units import UnitError, parse
from daq.words import said

FREE_SPREAD_MM = 0.02
"""What a gauge hanging free may still wander within a window; its noise is not known yet."""

LEAST_PUSH_MM = 0.1
"""A push by hand moves a contact further than this; vibration does not."""

_AUDITS = uuid.UUID("6b0f6a2e-4a0e-5c56-9d3a-0f7f0f9b1d11")
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"


@dataclass(frozen=True)
class Open:
    """The payload of `open`; `check`: one that the machine's file offers besides squaring."""

    reason: Reason
    check: str = ""


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
    wish = given.payload(Open)
    setup = given.setup
    if setup is None:
        raise Refused("no-such-machine", machine=quoted(given.command.machine))
    for gauge in setup.gauges:
        check_free(shop, given.command.machine, gauge.key)
    short = short_form(audit_id(given.command.id))
    known = shop.machine(given.command.machine).started(setup)
    if not wish.check:
        return (AuditOpened(short, wish.reason, known),)
    offered = sorted(setup.machine.checks)
    if wish.check not in offered:
        allowed = ", ".join(offered) or "-"
        raise Refused("no-such-check", found=quoted(wish.check), allowed=allowed)
    # One gauge reads it: what a bar's other one shows is of no station.
    known = replace(known, second_gauge=None)
    return (AuditOpened(short, wish.reason, known, chosen(setup.machine, wish.check)),)


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
    card = given.payload(Confirm)
    head_only(job, ram_moved=card.ram_moved, ram_angle=card.ram_angle, cracked=card.cracked)
    number = card.serial_number.strip()
    if number != job.setup.gauge.serial_number:
        known = repr(job.setup.gauge.serial_number)
        raise Refused("other-gauge", found=quoted(number), known=known)
    anew = restart.meanwhile(job, card.touched, card.cracked)
    return (Prepared(number, _new_head(job, card), anew is not None, anew, card.cracked),)


def _new_head(job: Job, card: Confirm) -> Learned | None:
    """What is known of a head whose ram or turret was moved: the file's, at its angle now."""
    if not card.ram_moved:
        return None
    machine = job.setup.machine
    if not card.ram_angle.strip():
        return machine.prior()
    try:
        angle = parse(card.ram_angle, "angle")
    except UnitError as error:
        found = quoted(card.ram_angle)
        raise Refused("ram-angle-no-angle", found=found) from error
    if abs(angle) > MOST_SWUNG:
        found = quoted(card.ram_angle)
        raise Refused("ram-angle-too-far", found=found)
    return machine.prior(angle)


def free_reading(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge with its contact in the air: unit, free reading, noise; later on, its zero."""
    reading = given.reading(None)
    pushed_mm = job.setup.gauge.pushed(reading.mean_mm)
    shift = _shift(job, pushed_mm)
    told = None
    if job.resume is not None:
        told = said("zeroed-read-again") if shift else said("not-zeroed-carry-on")
    return (
        FreeRead(
            reading=reading,
            unit=given.window[-1].unit,
            pushed_mm=pushed_mm,
            spread_mm=max(5 * job.setup.gauge.resolution, 8 * reading.sd_mm),
            points=points({p: m + shift for p, m in job.circle.known.items()}),
            restart=bool(shift and job.reads.taken),
            said=told,
            next=job.resume or Next("touch-push"),
        ),
    )


def _shift(job: Job, pushed_mm: float) -> float:
    """How far the zero has moved since the free reading before; 0 when it has not."""
    back = job.anew is not None and job.anew.why == "restart"
    if job.gauge.free_pushed_mm is None or (job.resume is None and not back):
        return 0.0
    shift = pushed_mm - job.gauge.free_pushed_mm
    return 0.0 if abs(shift) <= max(5 * job.setup.gauge.resolution, job.gauge.spread_mm) else shift


def pushed(job: Job, given: Input) -> tuple[Data, ...]:
    """Whether the number moved, and the right way, when the contact was pushed in."""
    given.payload(Nothing)
    free = job.gauge.free_pushed_mm or 0.0
    travel = [job.setup.gauge.pushed(s.value_mm) - free for s in given.samples]
    furthest = max(travel, key=abs, default=0.0)
    moved = job.setup.gauge.face(furthest)
    zero = zero_noticed(given.samples, job.setup.gauge.resolution)
    if zero is not None and not reads_as_free(job, job.setup.gauge.pushed(zero.after_mm)):
        return (Pushed(False, moved, said("zeroed-at-the-push"), Next("touch-free")),)
    if abs(furthest) < LEAST_PUSH_MM:
        return (Pushed(False, moved, said("pushed-unmoved"), Next("touch-push")),)
    by = shown_face(job, moved, plus=True)
    if furthest < 0:
        counts = "up" if job.setup.gauge.counts_up else "down"
        told = said("pushed-wrong-way", moved=by, counts=counts)
        return (Pushed(False, moved, told, Next("touch-push")),)
    follows = job.anew.next if job.anew else first_read(job)
    return (Pushed(True, moved, said("gauge-answers", moved=by), follows),)
