"""The checks besides the sweep: which a machine offers, and the table of the one chosen."""

from collections.abc import Mapping
from typing import Any

from daq.audit.facts import unit_of
from daq.audit.parts import ReadAt
from daq.audit.rounds import Chosen, Offer
from daq.audit.setup import MachineSetup
from daq.audit.state import Job
from daq.checks.kinds import kind
from daq.checks.station import Table
from daq.settings import build


def offers(machine: MachineSetup) -> tuple[Offer, ...]:
    """What a machine's file offers besides squaring, in the order of their keys."""
    return tuple(Offer(key, kind(key).name) for key in sorted(machine.checks))


def chosen(machine: MachineSetup, key: str) -> Chosen:
    """One of them, as the audit that is opened for it keeps it."""
    options = machine.checks[key].options
    table = kind(key).table(_built(key, options), machine.unit)
    return Chosen(key, kind(key).name, options, table.cautions, table.ends)


def options_of(check: Chosen) -> object:
    """The options of a check as its kind takes them, whatever limits hold today."""
    return _built(check.kind, check.options)


def table_of(job: Job, check: Chosen) -> Table:
    """What is to be read, in the gauge's unit."""
    return kind(check.kind).table(options_of(check), unit_of(job))


def read_at(job: Job, check: Chosen) -> tuple[ReadAt, ...]:
    """Every reading in its order, as the screens tell of it."""
    sequence = table_of(job, check).sequence
    return tuple(ReadAt(s.key, s.name, s.hands, s.lap) for s in sequence)


def _built(key: str, options: Mapping[str, Any]) -> object:
    return build(kind(key).options, options, f"checks.{key}", quantities="plain", limits=False)
