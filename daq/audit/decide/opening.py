"""Opening an audit, the preparation card, and the touch test."""

import hashlib
import uuid
from dataclasses import dataclass

from daq.audit.decide.common import Input, Refused, face_text
from daq.audit.events import AuditOpened, Data, FreeRead, Prepared, Pushed
from daq.audit.setup import Reason
from daq.audit.state import Job, Shop

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
    """The payload of `prepared`: the number read off the gauge."""

    serial_number: str


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
        raise Refused(f"There is no machine called {given.command.machine!r} in this shop's files.")
    check_free(shop, given.command.machine, setup.gauge.key)
    short = short_form(audit_id(given.command.id))
    return (AuditOpened(short, reason, setup, given.engine),)


def check_free(shop: Shop, machine: str, gauge: str) -> None:
    """Refuse when the machine has an audit open, or the gauge is bound to another's."""
    if shop.machine(machine).job is not None:
        raise Refused("An audit is open on this machine. Finish or abandon it first.")
    other = shop.bound(gauge)
    if other is not None and other.job is not None:
        raise Refused(
            f"The gauge is in use: audit {other.job.short} on {other.job.setup.machine.name}."
        )


def prepared(job: Job, given: Input) -> tuple[Data, ...]:
    """The card was read, and the number on the gauge is the file's."""
    number = given.payload(Confirm).serial_number.strip()
    if number != job.setup.gauge.serial_number:
        raise Refused(
            f"The number on the gauge is {number!r}; its file says "
            f"{job.setup.gauge.serial_number!r}. Put the right gauge on, or correct its file."
        )
    return (Prepared(number),)


def free_reading(job: Job, given: Input) -> tuple[Data, ...]:
    """The gauge with its contact in the air: unit, free reading, noise."""
    reading = given.reading(None)
    least = 3 * job.setup.gauge.resolution
    return (
        FreeRead(
            reading=reading,
            unit=given.window[-1].unit,
            pushed_mm=job.setup.gauge.pushed(reading.mean_mm),
            spread_mm=max(least, 8 * reading.sd_mm),
        ),
    )


def pushed(job: Job, given: Input) -> tuple[Data, ...]:
    """Whether the number moved, and the right way, when the contact was pushed in."""
    free = job.free_pushed_mm or 0.0
    travel = [job.setup.gauge.pushed(s.value_mm) - free for s in given.samples]
    furthest = max(travel, key=abs, default=0.0)
    moved = job.setup.gauge.face(furthest)
    if abs(furthest) < LEAST_PUSH_MM:
        say = (
            "The number did not move. Push the contact in and let it go, then press again; "
            "if it still does not move, the gauge is stuck."
        )
        return (Pushed(False, moved, say),)
    if furthest < 0:
        counts = "up" if job.setup.gauge.counts_up else "down"
        say = (
            f"The number went the wrong way ({face_text(job, moved, plus=True)}): the gauge's "
            f"file says it counts {counts} when pushed in. Push the contact in, or correct "
            "the file."
        )
        return (Pushed(False, moved, say),)
    return (Pushed(True, moved, f"The gauge answers: {face_text(job, moved, plus=True)}."),)
