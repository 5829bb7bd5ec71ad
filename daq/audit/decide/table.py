"""Which command may come at which step, what it needs, and who decides it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from daq.audit.decide import (
    answering,
    closing,
    moving,
    noticing,
    opening,
    parking,
    resuming,
    sweeping,
    zeroing,
)
from daq.audit.decide.common import Input, Refused, Want
from daq.audit.decide.foreseeing import foreseen
from daq.audit.events import Data
from daq.audit.parts import Step
from daq.audit.state import Job, Shop
from daq.settings import quoted
from daq.words import Command

Act = Callable[[Job, Input], tuple[Data, ...]]
Place = Callable[[Job, Command], object]

ANY: tuple[Step, ...] = ()
NOTHING = Want()
HISTORY = Want("history")


@dataclass(frozen=True)
class Handler:
    """One command: the steps it belongs to (none: all), its decision and its need.

    `place` refuses a take at the wrong place before anyone waits for it to settle.
    """

    steps: tuple[Step, ...]
    act: Act
    want: Want = NOTHING
    place: Place | None = None


SETTLED = Want("settled")
WATCHED = Want("settled", whole=True)

HANDLERS: dict[str, tuple[Handler, ...]] = {
    "prepared": (Handler(("prepare",), opening.prepared),),
    "take": (
        Handler(("touch-free",), opening.free_reading, SETTLED),
        Handler(("as-found", "final"), sweeping.take, SETTLED, sweeping.place),
        Handler(("park",), parking.take, SETTLED, parking.place),
        Handler(("check",), moving.take, SETTLED, moving.place),
    ),
    "pushed": (Handler(("touch-push",), opening.pushed, HISTORY),),
    "answer": (Handler(("question",), answering.answer),),
    "loosened": (Handler(("loosen",), moving.loosened, WATCHED),),
    "stopped": (Handler(("move", "question"), moving.stopped, WATCHED),),
    "tightened": (
        Handler(
            ("tighten", "park", "question", "loosen", "move", "check"), moving.tightened, HISTORY
        ),
    ),
    "bolt": (Handler(("tighten",), moving.bolt, WATCHED),),
    "off-scale": (Handler(("as-found", "final"), sweeping.off_scale, HISTORY),),
    "closer": (Handler(("closer",), sweeping.closer),),
    "touch": (Handler(("as-found", "final", "park", "check"), opening.touch),),
    "stop-here": (Handler(("park", "check"), sweeping.stop_here),),
    "again": (Handler(("as-found", "final", "park", "check", "clear", "sign"), sweeping.again),),
    "cleared": (Handler(("clear",), closing.cleared),),
    "sign": (Handler(("sign",), closing.sign),),
    "abandon": (Handler(ANY, closing.abandon),),
    "undo": (Handler(ANY, closing.undo),),
    "zeroed": (
        Handler(
            (
                "as-found",
                "final",
                "park",
                "question",
                "loosen",
                "move",
                "check",
                "tighten",
                "closer",
                "clear",
                "sign",
            ),
            zeroing.zeroed,
        ),
    ),
    "not-zeroed": (Handler(ANY, zeroing.not_zeroed),),
    "gauge-fault": (Handler(ANY, zeroing.gauge_fault),),
    "gauge-back": (Handler(ANY, zeroing.gauge_back),),
    "gauge-noted": (Handler(ANY, noticing.noted),),
    "restarted": (Handler(ANY, resuming.restarted),),
}

OF_MACHINES: Mapping[str, Callable[[Shop, Input], tuple[Data, ...]]] = {
    "open": opening.open_audit,
    "made-safe": closing.made_safe,
}
"""Commands that belong to no open audit."""

NOTICES = ("zeroed", "gauge-fault", "gauge-back", "gauge-noted", "restarted")
"""What only the service itself may say."""


def wants(shop: Shop, command: Command) -> Want:
    """What the service must bring before it asks for the decision.

    Raises:
        Refused: the command makes no sense now, whatever the gauge reads.
    """
    if command.kind in OF_MACHINES:
        return NOTHING
    job, handler = _find(shop, command)
    if handler.place is not None:
        handler.place(job, command)
    return replace(handler.want, spread_mm=_spread(job, handler))


def _spread(job: Job, handler: Handler) -> float:
    """How still the number must be: the gauge's noise, or more while that is not known."""
    if job.step == "touch-free":
        return max(opening.FREE_SPREAD_MM, 3 * job.setup.gauge.resolution)
    return job.spread_mm if handler.want.kind == "settled" else 0.0


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
        return OF_MACHINES[given.command.kind](shop, given)
    job, handler = _find(shop, given.command)
    if handler.want.kind == "settled":
        given.check_settled(_spread(job, handler))
        noted = noticing.unit_read(job, given)
        shown = replace(job, unit=noted[0].unit) if noted else job
        return (*noted, *handler.act(shown, given))
    return handler.act(job, given)


def _find(shop: Shop, command: Command) -> tuple[Job, Handler]:
    handlers = HANDLERS.get(command.kind)
    if handlers is None:
        known = ", ".join(sorted({*OF_MACHINES, *HANDLERS} - set(NOTICES)))
        raise Refused("no-such-command", found=quoted(command.kind), allowed=known)
    job = shop.machine(command.machine).job
    if job is None:
        raise Refused("no-audit")
    if command.audit is not None and command.audit != job.id:
        raise Refused("another-audit", open=job.short)
    for handler in handlers:
        if not handler.steps or job.step in handler.steps:
            return job, handler
    raise Refused("not-this-step", step=job.step, asked=command.kind)
