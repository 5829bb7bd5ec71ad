"""What an addendum changes of a machine: it is marked where the audit it belongs to is kept."""

from dataclasses import replace

from daq.audit.events import Addendum
from daq.audit.history import LaterRow, day_of, noted
from daq.audit.state import MachineState
from daq.words import Event


def added(state: MachineState, data: Addendum, event: Event) -> MachineState:
    """The machine after it: marked where it keeps that audit, and nothing else changes."""
    row = LaterRow(event.seq, day_of(event.stamp), event.stamp.utc_trusted, data)
    last = state.last
    if last is not None and last.id == data.of:
        last = replace(last, later=last.later.then(row))
    history = replace(state.history, latest=noted(state.history.latest, data.of))
    checked = dict(zip(state.checked, noted(state.checked.values(), data.of), strict=True))
    return replace(state, last=last, history=history, checked=checked)
