"""The checks besides the sweep: which a machine offers, and the table of the one chosen."""

from collections.abc import Mapping
from typing import Any, cast

from daq.audit.facts import unit_of
from daq.audit.parts import ReadAt
from daq.audit.rounds import Chosen, ComparedWith, Offer
from daq.audit.setup import MachineSetup
from daq.audit.state import Job
from daq.checks.kinds import OfHead, kind
from daq.checks.last import LastSweep, TwoSpots
from daq.checks.station import Table
from daq.settings import build, plain


def offers(machine: MachineSetup) -> tuple[Offer, ...]:
    """What a machine's file offers besides squaring, in the order of their keys."""
    return tuple(Offer(key, kind(key).name) for key in sorted(machine.checks))


def chosen(machine: MachineSetup, key: str) -> Chosen:
    """One of them, as the audit that is opened for it keeps it."""
    options = machine.checks[key].options
    table = kind(key).table(_built(kind(key).options, key, options), machine.unit)
    return Chosen(key, kind(key).name, options, table.cautions, table.ends)


def compares(key: str) -> bool:
    """Whether it compares with the last signed sweep, and judges nothing else."""
    return isinstance(kind(key), OfHead)


def compared(machine: MachineSetup, key: str, last: LastSweep) -> Chosen:
    """One that does, with that sweep in it."""
    one = cast(OfHead[Any], kind(key))
    filled = one.filled(_built(kind(key).options, key, machine.checks[key].options), last)
    table = kind(key).table(filled, machine.unit)
    against = ComparedWith(last.audit, last.day, last.diameter_mm, filled.blind)
    options = cast(Mapping[str, Any], plain(filled))
    return Chosen(key, kind(key).name, options, table.cautions, against=against)


def options_of(check: Chosen) -> object:
    """The options of a check as its kind takes them, whatever limits hold today."""
    made = TwoSpots if compares(check.kind) else kind(check.kind).options
    return _built(made, check.kind, check.options)


def table_of(job: Job, check: Chosen) -> Table:
    """What is to be read, in the gauge's unit."""
    return kind(check.kind).table(options_of(check), unit_of(job))


def read_at(job: Job, check: Chosen) -> tuple[ReadAt, ...]:
    """Every reading in its order, as the screens tell of it."""
    sequence = table_of(job, check).sequence
    return tuple(ReadAt(s.key, s.name, s.hands, s.lap) for s in sequence)


def _built(made: type[object], key: str, options: Mapping[str, Any]) -> object:
    return build(made, options, f"checks.{key}", quantities="plain", limits=False)
