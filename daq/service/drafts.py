"""Events as they are handed to the writer: what was decided, and the whole input it came from."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, astuple
from typing import Any

from daq.audit.addendum import audit_of
from daq.audit.codec import encode
from daq.audit.events import Data
from daq.audit.input import Input
from daq.audit.opening import audit_id
from daq.audit.state import MachineState
from daq.words import Draft, Stamp


def drafted(
    found: Iterable[Data], given: Input, missed: bool, state: MachineState, stamp: Stamp, by: str
) -> list[Draft]:
    """Return the drafts of what was decided on a machine that stood at `state`.

    `missed`: samples that belong to the evidence are no longer there. `by`: the release.
    """
    command = given.command
    audit = state.job.id if state.job is not None else audit_id(command.id)
    if command.kind == "made-safe" and state.last is not None:
        audit = state.last.id
    return [
        Draft(
            type=kind,
            v=version,
            machine=command.machine,
            audit=audit_of(each, audit),
            stamp=stamp,
            actor=command.actor,
            cause=_cause(given, missed, by),
            data=data,
            evidence=(given.evidence,) if given.evidence else (),
        )
        for each in found
        for kind, version, data in (encode(each),)
    ]


def _cause(given: Input, missed: bool, by: str) -> Mapping[str, Any]:
    """The whole input, so that the decision can be made again from the record."""
    return {
        "id": given.command.id,
        "kind": given.command.kind,
        "payload": dict(given.command.payload),
        "arrived_ns": given.arrived_ns,
        "window": [given.first_n, given.last_n],
        "second_window": list(given.second_n) if given.second_n else None,
        **({"passed": [list(astuple(each)) for each in given.passed]} if given.passed else {}),
        "missed": missed,
        "asker": asdict(given.command.asker),
        "engine": by,
    }
