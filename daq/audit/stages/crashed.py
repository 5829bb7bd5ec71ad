"""After a crash: a wrench on every bolt of head, ram and turret, before the gauge is trusted.

What moved under the wrench is ticked. A crash may have bent the spindle too: where the machine's
file offers a run-out, it may be read first, in this audit's place.
"""

from dataclasses import dataclass, replace

from daq.audit.chosen import chosen
from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Next
from daq.audit.rounds import Chosen
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.by_kind import isolate
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Wording
from daq.settings import quoted
from daq.words import Said, said

KEY = "crashed"
RUN_OUT = "runout"


@dataclass(frozen=True)
class MovedBolt:
    """The payload of `bolt-moved`: its name, as the machine's file gives it."""

    bolt: str


@dataclass(frozen=True)
class BoltMoved(OfStage):
    """This one moved under the wrench."""

    bolt: str


@dataclass(frozen=True)
class BoltsTried(OfStage):
    """A wrench was on every one of them; which of them moved, and were pulled up."""

    bolts: tuple[str, ...]
    moved: tuple[str, ...]
    next: Next


@dataclass(frozen=True)
class CheckFirst(OfStage):
    """The audit is one of the spindle's run-out; the head is squared in another."""

    check: Chosen
    next: Next


@dataclass(frozen=True)
class Tried:
    """What moved so far."""

    moved: tuple[str, ...] = ()


def bolt_moved(job: Job, given: Input) -> tuple[Data, ...]:
    """One bolt moved."""
    bolt = given.payload(MovedBolt).bolt
    left = _left(job)
    if bolt not in left:
        raise Refused("not-to-be-tried", found=quoted(bolt), allowed=", ".join(left) or "-")
    return (BoltMoved(bolt),)


def bolts_tried(job: Job, given: Input) -> tuple[Data, ...]:
    """The wrench was on every bolt."""
    given.payload(Nothing)
    return (BoltsTried(job.setup.machine.crash_bolts, _moved(job), Next("prepare")),)


def check_first(job: Job, given: Input) -> tuple[Data, ...]:
    """The spindle's run-out first."""
    given.payload(Nothing)
    if not _offers_run_out(job):
        raise Refused("no-such-check", found=quoted(RUN_OUT), allowed="-")
    return (CheckFirst(chosen(job.setup.machine, RUN_OUT), Next("prepare")),)


def _moved(job: Job) -> tuple[str, ...]:
    tried = job.own.get(KEY)
    return tried.moved if isinstance(tried, Tried) else ()


def _left(job: Job) -> tuple[str, ...]:
    """The bolts that were not said to have moved."""
    return tuple(bolt for bolt in job.setup.machine.crash_bolts if bolt not in _moved(job))


def _offers_run_out(job: Job) -> bool:
    return RUN_OUT in job.setup.machine.checks and not _moved(job)


def _ticked(job: Job, data: BoltMoved) -> Job:
    return replace(job, own={**job.own, KEY: Tried((*_moved(job), data.bolt))})


def _tried(job: Job, data: BoltsTried) -> Job:
    return go(job, data.next)


def _checked_first(job: Job, data: CheckFirst) -> Job:
    """One gauge reads it, as any check that is none of the head."""
    return replace(
        go(job, data.next), check=data.check, setup=replace(job.setup, second_gauge=None)
    )


def _says(job: Job) -> Wording:
    bolts = tuple(said("name", name=bolt) for bolt in job.setup.machine.crash_bolts)
    moved = tuple(said("has-moved", bolt=bolt) for bolt in _moved(job))
    notes = (*moved, said("ram-bolt-too")) if moved else ()
    return Wording(said("try-the-bolts"), said("bolts-to-try", bolts=bolts), notes)


def _buttons(job: Job) -> list[Action]:
    done = Action("bolts-tried", said("bolts-tried", moved=len(_moved(job))), primary=True)
    ticks = [Action("bolt-moved", said("has-moved", bolt=b), {"bolt": b}) for b in _left(job)]
    first = [Action("check-first", said("run-out-first"))] if _offers_run_out(job) else []
    return [done, *first, *ticks]


def _moved_detail(job: Job, data: BoltMoved) -> tuple[Said, ...]:
    """Which one."""
    return (said("name", name=data.bolt),)


def _tried_detail(job: Job, data: BoltsTried) -> tuple[Said, ...]:
    """All of them, and those that moved."""
    tried = tuple(said("name", name=bolt) for bolt in data.bolts)
    moved = tuple(said("name", name=bolt) for bolt in data.moved)
    return (said("row-tried", bolts=tried), said("row-tried-moved", bolts=moved, many=len(moved)))


def _first_detail(job: Job, data: CheckFirst) -> tuple[Said, ...]:
    """What is checked."""
    return (data.check.name,)


STAGES = (
    Stage(
        KEY,
        shows=Shows(
            "prepare",
            _says,
            _buttons,
            cautions=lambda job: (isolate(job.setup.machine), said("crash-bolts-held"), FIRST),
        ),
        commands={
            "bolt-moved": Handler(bolt_moved),
            "bolts-tried": Handler(bolts_tried),
            "check-first": Handler(check_first),
        },
        took={
            BoltMoved: Took(
                _ticked, undoable=True, told=said("bolt-has-moved"), detail=_moved_detail
            ),
            BoltsTried: Took(
                _tried, undoable=True, told=said("bolts-were-tried"), detail=_tried_detail
            ),
            CheckFirst: Took(
                _checked_first, undoable=True, told=said("run-out-was-first"), detail=_first_detail
            ),
        },
        heeds_zero=False,
    ),
)
