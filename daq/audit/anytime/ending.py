"""An audit given up, what it left unsafe put right, a step taken back."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.events import Abandoned, Data, MadeSafe, Voided
from daq.audit.facts import kind_of
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Leaving
from daq.audit.safe import maybe_unsafe, unsafe
from daq.audit.state import Job, Shop


@dataclass(frozen=True)
class Abandon:
    """The payload of `abandon`; `left`: how the machine is left, nothing: as far as is known."""

    why: str
    left: Leaving | Literal[""] = ""


def abandon(job: Job, given: Input) -> tuple[Data, ...]:
    """The audit ends without a verdict; why is recorded, and what is not safe yet or put right."""
    wish = given.payload(Abandon)
    why = wish.why.strip()
    if not why:
        raise Refused("abandoned-without-why")
    if wish.left == "safe":
        return (Abandoned(why, put_right=maybe_unsafe(job)),)
    return (Abandoned(why, maybe_unsafe(job) if wish.left else unsafe(job)),)


def made_safe(shop: Shop, given: Input) -> tuple[Data, ...]:
    """Everything that an abandoned audit left loose is tight, and the arm is out."""
    given.payload(Nothing)
    if shop.machine(given.command.machine).unsafe is None:
        raise Refused("nothing-unsafe")
    return (MadeSafe(),)


def undo(job: Job, given: Input) -> tuple[Data, ...]:
    """The last step is taken back, if it only read or answered something."""
    given.payload(Nothing)
    if not job.trail:
        raise Refused("nothing-to-take-back", of=kind_of(job))
    return (Voided(job.trail[-1][0]),)
