"""What may be wished for at several stages: another sweep, another touch test, no more moves."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.events import Data, StopHere, SweepWanted, TouchWanted
from daq.audit.facts import has_sweep_to_compare
from daq.audit.input import Input, Nothing, Refused, Why, head_only
from daq.audit.next_move import sweep_next
from daq.audit.parts import Anew, Next, Turned
from daq.audit.rings import Mark, lies_now
from daq.audit.safe import maybe_loose
from daq.audit.state import Job
from daq.words import Said, said


@dataclass(frozen=True)
class Again:
    """The payload of `again`: why, or what was turned half round; `arm`: where it was meanwhile.
    `mark`: where a named ring's points now, taken up or not.

    `because`: one of the usual reasons, "other" for none; `why`: one's own words, which count.
    """

    because: Literal["", "chip", "bumped", "unsure", "other"] = ""
    why: str = ""
    turned: Turned = ""
    arm: Literal["", "in", "out"] = ""
    mark: Mark = ""


def again(job: Job, given: Input) -> tuple[Data, ...]:
    """Another full sweep, with the reason it is wanted for, or with something turned half round."""
    wish = given.payload(Again)
    head_only(job, turned=wish.turned)
    if wish.turned and not has_sweep_to_compare(job):
        raise Refused("no-sweep-to-compare")
    if wish.turned == "ring" and not job.setup.machine.seat_turns:
        raise Refused("no-ring-to-turn")
    if wish.turned:
        why: str | Said = said("turned-half-round", turned=wish.turned)
    else:
        usual = wish.because not in ("", "other")
        why = wish.why.strip() or (said("because", because=wish.because) if usual else "")
    if not why:
        raise Refused("sweep-again-without-why")
    to = sweep_next(job)
    lies = job.sweeps.laid if wish.turned else lies_now(job, wish.mark)
    if job.step != "sign" and wish.arm != "out":
        return (SweepWanted(why, to, wish.turned, laid=lies),)
    if wish.turned:
        raise Refused("arm-was-out")
    return (SweepWanted(why, Next("prepare"), anew=Anew("again", to), laid=lies),)


def stop_here(job: Job, given: Input) -> tuple[Data, ...]:
    """No more moves: report what is, after a full sweep if bolts were loosened since the last."""
    why = given.payload(Why).why.strip()
    if not why:
        raise Refused("stopped-without-why")
    proof = sweep_next(job)
    swept = not job.sweeps.disturbed and not maybe_loose(job)
    return (StopHere(why, Next("clear") if swept else proof),)


def touch(job: Job, given: Input) -> tuple[Data, ...]:
    """The person says the gauge was zeroed: the free reading, taken again, shows by how much."""
    given.payload(Nothing)
    return (TouchWanted(Next(job.step, job.axis), Next("touch-free", job.axis)),)
