"""What the service notices of the gauge by itself: its zero moved, it went, it came back."""

from dataclasses import dataclass

from daq.audit.decide.common import Input, Refused
from daq.audit.events import Data, GaugeBack, GaugeFault, Zeroed
from daq.audit.facts import points, reads_as_free
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.metrology.jump import Jump, zero_noticed

PARKED_STEPS = ("park", "question", "loosen", "move")


@dataclass(frozen=True)
class Fault:
    """The payload of `gauge-fault`."""

    code: str
    say: str


@dataclass(frozen=True)
class Back:
    """The payload of `gauge-back`."""

    run: str
    gauge: str


def zeroed(job: Job, given: Input) -> tuple[Data, ...]:
    """The number jumped to zero. Differences stand; the stop-at does not.

    A gauge that was zeroed in the air reads zero there too: then only the free reading,
    taken again, can tell a zeroed gauge from a lifted contact.
    """
    jump = zero_noticed(given.samples, job.setup.gauge.resolution)
    if jump is None:
        raise Refused("No zero in these samples.")
    lifted = reads_as_free(job, job.setup.gauge.pushed(jump.after_mm))
    if lifted and job.setup.machine.seat == "block" and job.step in ("as-found", "final", "check"):
        raise Refused("The contact is lifted to move the block: that is no zero.")
    shift = 0.0 if lifted else job.setup.gauge.pushed(jump.after_mm - jump.before_mm)
    known = {p: m + shift for p, m in job.known.items()}
    free = None if job.free_pushed_mm is None else job.free_pushed_mm + shift
    say, to = _after(job)
    if lifted:
        say = "Zeroed, or the contact was lifted: let it hang free and take the reading."
    return (
        Zeroed(
            before_face_mm=jump.before_mm,
            after_face_mm=jump.after_mm,
            lost_face_mm=_lost(job, jump),
            resume=to if lifted else None,
            restart=bool(job.taken) and not lifted,
            free_pushed_mm=free,
            points=points(known),
            say=say,
            next=Next("touch-free", to.axis) if lifted else to,
        ),
    )


def _lost(job: Job, jump: Jump) -> float | None:
    """The value a base is carried over from; the first of several zeros in a row counts."""
    if job.base is None or job.question is not None:
        return None
    return jump.before_mm if job.lost_face_mm is None else job.lost_face_mm


def _after(job: Job) -> tuple[str, Next]:
    if job.step in PARKED_STEPS:
        return "Zeroed: read this spot again.", Next("park", job.axis)
    if job.taken:
        return "Zeroed in the middle: start again with the first position.", _same(job)
    return "Zeroed: noted.", _same(job)


def _same(job: Job) -> Next:
    return Next(job.step, job.axis)


def gauge_fault(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge stopped giving readings."""
    fault = given.payload(Fault)
    return (GaugeFault(fault.code, fault.say),)


def gauge_back(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge gives readings again; what was read before may have another zero."""
    back = given.payload(Back)
    run = back.run
    if back.gauge != job.setup.gauge.key:
        return (GaugeBack(run, "", None),)
    if job.base is not None and job.base.run != run and job.step in PARKED_STEPS:
        say = "The gauge was away: read this spot again."
        if job.axis in job.loose:
            say = "The gauge was away and the bolts are loose: check this axis again."
            return (GaugeBack(run, say, Next("check", job.axis)),)
        return (GaugeBack(run, say, Next("park", job.axis)),)
    if job.step == "check" and job.taken and job.taken[0].run != run:
        say = "The gauge was away in the middle of the check: start it again."
        return (GaugeBack(run, say, Next("check", job.axis)),)
    return (GaugeBack(run, "", None),)
