"""A stage of an audit: what may be commanded there, and what its events change.

A stage is one file in `stages/`, found by scanning; nothing else names it. It owns its commands,
their decisions, its events and how they fold.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from daq.audit.decide.common import Input, Want
from daq.audit.events import Data
from daq.audit.move_changes import Change
from daq.audit.state import Job
from daq.words import Command

SETTLED = Want("settled")
WATCHED = Want("settled", whole=True)
HISTORY = Want("history")


@dataclass(frozen=True)
class Handler:
    """One command: its decision and its need.

    `place` refuses a take at the wrong place before anyone waits for it to settle.
    """

    act: Callable[[Job, Input], tuple[Data, ...]]
    want: Want = field(default_factory=Want)
    place: Callable[[Job, Command], object] | None = None


@dataclass(frozen=True)
class Took:
    """What an event type changes in the open audit; `undoable`: it only read or answered."""

    change: Callable[[Job, Any], Change]
    undoable: bool = False


@dataclass(frozen=True)
class Stage:
    """One stage.

    `before`: the stage it is put in front of: whatever leads there from elsewhere comes here
    first. `heeds_zero`: whether it matters here that the gauge was zeroed.
    """

    key: str
    commands: Mapping[str, Handler]
    took: Mapping[type, Took] = field(default_factory=dict)
    before: str = ""
    heeds_zero: bool = True
