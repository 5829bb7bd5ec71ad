"""Whom a machine's record names, and when it was last left good: proposed, never taken as said."""

from dataclasses import replace
from typing import Final

from daq.audit.closing_events import Addendum, HandedOver, ReportAmended, Signed
from daq.audit.events import Data
from daq.audit.history import LastGood, day_of
from daq.audit.reasons import REASONS
from daq.audit.state import MachineState
from daq.words import Event

MOST: Final = 8
"""So many people are proposed: a name among more is no quicker chosen than typed."""


def known_here(state: MachineState, event: Event, data: Data) -> MachineState:
    """The machine after an event, with those it names in front of all before them."""
    named = _named(data)
    if not named:
        return state
    people = tuple(dict.fromkeys((*named, *state.people)))[:MOST]
    return replace(state, people=people, good={**state.good, **_good(state, event, data)})


def _named(data: Data) -> tuple[str, ...]:
    """The ids of those who did it; whoever did most comes first."""
    match data:
        case Signed():
            hands = (each.what for each in reversed(data.handed))
            through = (who for what in hands for who in (what.taken_by, what.left_by))
            found = (data.done_by, data.reviewed_by, *through)
        case Addendum() | ReportAmended():
            found = (data.done_by,)
        case HandedOver():
            found = (data.taken_by, data.left_by)
        case _:
            found = ()
    return tuple(each for each in found if each)


def _good(state: MachineState, event: Event, data: Data) -> dict[str, LastGood]:
    """By what was checked, "" for the head: the audit just signed, if it was left good."""
    last = state.last
    if not isinstance(data, Signed) or data.verdict != "conforms" or last is None:
        return {}
    if not REASONS[last.reason].kept:
        return {}
    kind = last.check.kind if last.check is not None else ""
    return {kind: LastGood(last.short, day_of(event.stamp), event.stamp.utc_trusted)}
