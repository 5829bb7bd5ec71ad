"""A stage of an audit: what may be commanded there, what its events change, what it shows.

A stage is a file or folder in `stages/`, found by scanning; nothing else names it. It owns its
commands, their decisions, its events and how they fold, and what the screens show meanwhile.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from daq.audit.events import Data
from daq.audit.input import Input, Need
from daq.audit.state import Job
from daq.audit.views.step import Action, ByHand, Do, Wording
from daq.words import Command, Said

T = TypeVar("T")

SETTLED = Need("settled")
WATCHED = Need("settled", whole=True)
HISTORY = Need("history")
PASSED = Need("history", passed=True)


def _never(job: Job) -> bool:
    return False


def _no_more(job: Job, data: object) -> tuple[Said, ...]:
    return ()


def _usual_spread(job: Job) -> float:
    return job.gauge.spread_mm


@dataclass(frozen=True)
class Handler:
    """One command: its decision and its need.

    `place` refuses a take at the wrong place before anyone waits for it to settle; `spread`: how
    still the number must be for that, mm; `whole`: whether its evidence reaches back to the last
    step even so. `binds`: the audit has its gauge from then on, so that
    no other machine's may.
    """

    act: Callable[[Job, Input], tuple[Data, ...]]
    need: Need = field(default_factory=Need)
    place: Callable[[Job, Command], object] | None = None
    spread: Callable[[Job], float] = _usual_spread
    binds: bool = False
    whole: Callable[[Job], bool] = _never


@dataclass(frozen=True)
class Took:
    """The open audit after an event of a type; `undoable`: it only read or answered.

    `told`: what happened, for a screen that was drawn before it. `detail`: the rest of it, told
    for a reader of the record; it is handed the audit as the event came upon it.
    """

    change: Callable[[Job, Any], Job]
    undoable: bool = False
    told: Said | None = None
    detail: Callable[[Job, Any], tuple[Said, ...]] = _no_more


def just(value: T) -> Callable[[Job], T]:
    """The same at every moment of a stage."""
    return lambda job: value


_NO_HANDS, _NO_CAUTION, _GOES_ON = just(ByHand("nothing")), just(()), just(None)
_NEVER, _ALWAYS = just(False), just(True)


def half_read(job: Job) -> bool:
    """Once there is a reading."""
    return bool(job.reads.taken)


@dataclass(frozen=True)
class Shows:
    """What the screens show at a stage, as codes and numbers.

    `part`: which part of the audit the wall marks, none while it rests. `says`: the
    instruction; `buttons`: what may be pressed besides what always may; `hands`: what is done
    before the first of them; `cautions`: what to heed; `halt`: what to say, and what hands are
    to do, while there is no number (None: it goes on without one). `lowered`: whether the
    contact is taken to stand as it was set before, so that after a touch test it is to be
    brought down again first.
    """

    part: str
    says: Callable[[Job], Wording]
    buttons: Callable[[Job], list[Action]]
    hands: Callable[[Job], Do] = _NO_HANDS
    cautions: Callable[[Job], tuple[Said, ...]] = _NO_CAUTION
    halt: Callable[[Job], tuple[Said, Said | None] | None] = _GOES_ON
    lowered: Callable[[Job], bool] = _NEVER


@dataclass(frozen=True)
class Stage:
    """One stage.

    `commands`: a key in a handler's place is the stage's that decides it here as well.
    `before`: the stage it is put in front of: whatever leads there from elsewhere comes here
    first, opening an audit included; several make a row. `when`: whether it has anything to ask
    of the audit as it then stands; else it is passed over. `heeds_zero`: whether it matters here
    that the gauge was zeroed.
    """

    key: str
    shows: Shows
    commands: Mapping[str, Handler | str]
    took: Mapping[type, Took] = field(default_factory=dict)
    before: str = ""
    when: Callable[[Job], bool] = _ALWAYS
    heeds_zero: bool = True
