"""Opening an audit: its id, its short form, and whether machine and gauge are free for it."""

import hashlib
import uuid
from dataclasses import dataclass, replace

from daq.audit.chosen import chosen, compared, compares
from daq.audit.events import AuditOpened, Data
from daq.audit.input import Input, Refused
from daq.audit.laid import grown
from daq.audit.last_sweep import last_sweep
from daq.audit.parts import Next
from daq.audit.reasons import REASONS, Reason
from daq.audit.setup import AuditSetup
from daq.audit.state import Shop
from daq.settings import quoted

_AUDITS = uuid.UUID("6b0f6a2e-4a0e-5c56-9d3a-0f7f0f9b1d11")
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"


@dataclass(frozen=True)
class Open:
    """The payload of `open`; `check`: one that the machine's file offers besides squaring."""

    reason: Reason
    check: str = ""


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
    check_free(shop, given.command.machine)
    check_gauges_free(shop, given.command.machine, setup)
    short = short_form(audit_id(given.command.id))
    known = shop.machine(given.command.machine).started(setup)
    rings = grown(setup.rings, shop.rings, setup.machine.diameter, given.today)
    rise = None if REASONS[wish.reason].bearings else known.rise
    known = replace(known, day=given.today, rings=rings, rise=rise)
    if not wish.check:
        to = Next(REASONS[wish.reason].asks or "prepare")
        return (AuditOpened(short, wish.reason, known, next=to),)
    offered = sorted(setup.machine.checks)
    if wish.check not in offered:
        allowed = ", ".join(offered) or "-"
        raise Refused("no-such-check", found=quoted(wish.check), allowed=allowed)
    # One gauge reads it: what a bar's other one shows is of no station.
    known = replace(known, second_gauge=None)
    if compares(wish.check):
        last = last_sweep(shop.machine(given.command.machine), known, wish.reason)
        return (AuditOpened(short, wish.reason, known, compared(setup.machine, wish.check, last)),)
    return (AuditOpened(short, wish.reason, known, chosen(setup.machine, wish.check)),)


def check_free(shop: Shop, machine: str) -> None:
    """Refuse when the machine is open, or not safe yet."""
    state = shop.machine(machine)
    if state.job is not None:
        raise Refused("audit-open")
    if state.unsafe is not None:
        raise Refused("machine-unsafe")


def check_gauges_free(shop: Shop, machine: str, setup: AuditSetup) -> None:
    """Refuse while another machine's audit has a gauge that this one needs."""
    for gauge in setup.gauges:
        other = shop.bound(gauge.key)
        if other is not None and other.job is not None and other.machine != machine:
            raise Refused(
                "gauge-in-use",
                gauge=repr(gauge.key),
                audit=other.job.short,
                machine=other.job.setup.machine.name,
            )
