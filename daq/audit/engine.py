"""The engine: which stage decides a command, what the command needs, and where it leads."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import reduce
from typing import Any, Final, cast

from daq.audit import addendum, amended, good_enough, opening
from daq.audit.anytime import COMMANDS, ZEROED, ending, gauge
from daq.audit.apply import evolve, opened
from daq.audit.events import AuditOpened, Data
from daq.audit.folding import in_unit
from daq.audit.foreseeing import foreseen
from daq.audit.input import Input, Need, Refused
from daq.audit.parts import Next
from daq.audit.stage import Handler
from daq.audit.stages import STAGES
from daq.audit.stages.park.at_once import parked_at_once
from daq.audit.state import Job, Shop
from daq.settings import quoted
from daq.words import Command, Stamp

NO_TIME: Final = Stamp(0, 0, "", utc_trusted=False)

OF_MACHINES: Mapping[str, Callable[[Shop, Input], tuple[Data, ...]]] = {
    "open": opening.open_audit,
    "made-safe": ending.made_safe,
    "keep-answer": good_enough.keep_answer,
    "add-to-signed": addendum.add,
    "amend-report": amended.amend,
}
"""Commands that belong to no open audit."""

AFTER_SIGNING: Final = ("add-to-signed", "amend-report")
"""Those of a signed audit, which need not be the last one."""

KINDS: Final = frozenset(
    {"zeroed", *COMMANDS, *(kind for stage in STAGES.values() for kind in stage.commands)}
)
"""Every command that belongs to an open audit."""

NOTICES = ("zeroed", "gauge-fault", "gauge-back", "gauge-noted", "restarted")
"""What only the service itself may say."""


def needs(shop: Shop, command: Command) -> Need:
    """What the service must bring before it asks for the decision.

    Raises:
        Refused: the command makes no sense now, whatever the gauge reads.
    """
    if command.kind in OF_MACHINES:
        return Need()
    job, handler = _find(shop, command)
    if handler.place is not None:
        handler.place(job, command)
    whole = handler.need.whole or handler.whole(job)
    return replace(handler.need, spread_mm=_spread(job, handler), whole=whole)


def _spread(job: Job, handler: Handler) -> float:
    """How still the number must be: the gauge's noise, or more while that is not known."""
    return handler.spread(job) if handler.need.kind == "settled" else 0.0


def decide(shop: Shop, given: Input) -> tuple[Data, ...]:
    """The events that follow from one input, in order, with what the screens show of them.

    Raises:
        Refused: it makes no sense now; what it says is for the person.
    """
    job = shop.machine(given.command.machine).job
    found = _decided(shop, given)
    return found if job is None else foreseen(job, found)


def _decided(shop: Shop, given: Input) -> tuple[Data, ...]:
    if given.command.kind in OF_MACHINES:
        return _by_way_of(None, OF_MACHINES[given.command.kind](shop, given))
    job, handler = _find(shop, given.command)
    if handler.binds:
        opening.check_gauges_free(shop, given.command.machine, job.setup)
    if handler.need.kind != "settled":
        return _by_way_of(job, handler.act(job, given))
    given.check_settled(_spread(job, handler))
    noted = gauge.unit_read(job, given)
    shown = in_unit(job, noted[0]) if noted else job
    found = (*noted, *_by_way_of(job, handler.act(shown, given)))
    return (*found, *parked_at_once(_after(job, found), found))


def _by_way_of(job: Job | None, found: tuple[Data, ...]) -> tuple[Data, ...]:
    """The events, leading first to the stages in front of the one they lead to."""
    made: tuple[Data, ...] = ()
    for data in found:
        made = (*made, _diverted(job, made, data))
    return made


def _diverted(job: Job | None, before: tuple[Data, ...], data: Data) -> Data:
    to = getattr(data, "next", None)
    here = "" if job is None else job.step
    if not isinstance(to, Next) or to.step == here:
        return data
    row = _row(to.step)
    if len(row) == 1:
        return data
    ahead = row[row.index(here) + 1 :] if here in row else row
    after = _after(job, (*before, data))
    step = next(key for key in ahead if key == to.step or STAGES[key].when(after))
    # Where it goes is as it was, unless something is to be done first.
    return data if step == to.step else replace(cast(Any, data), next=Next(step, to.axis))


def _row(step: str) -> tuple[str, ...]:
    """The stages in front of one, in their order, and then that one."""
    before = [key for key, stage in STAGES.items() if stage.before == step]
    return (*(each for key in before for each in _row(key)), step)


def _after(job: Job | None, found: tuple[Data, ...]) -> Job:
    """The audit after these events; they open one where there is none."""
    if job is None:
        job, found = opened(cast(AuditOpened, found[0]), "", NO_TIME), found[1:]
    since = job.since
    return reduce(lambda job, data: evolve(job, data, 0, since), found, job)


def _find(shop: Shop, command: Command) -> tuple[Job, Handler]:
    if command.kind not in KINDS:
        known = ", ".join(sorted({*OF_MACHINES, *KINDS} - set(NOTICES)))
        raise Refused("no-such-command", found=quoted(command.kind), allowed=known)
    job = shop.machine(command.machine).job
    if job is None:
        raise Refused("no-audit")
    if command.audit is not None and command.audit != job.id:
        raise Refused("another-audit", open=job.short)
    stage = STAGES[job.step]
    handler = stage.commands.get(command.kind) or COMMANDS.get(command.kind)
    if isinstance(handler, str):
        handler = cast(Handler, STAGES[handler].commands[command.kind])
    if command.kind == "zeroed" and stage.heeds_zero:
        handler = ZEROED
    if handler is None:
        raise Refused("not-this-step", step=job.step, asked=command.kind)
    return job, handler
