"""What the service notices of the gauge besides a zero.

It went or came back; its unit key, travel, contact; a number that stopped.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit.anytime.zero import PARKED_STEPS
from daq.audit.chosen import read_at
from daq.audit.events import Data, GaugeBack, GaugeFault, GaugeNoted
from daq.audit.facts import at_the_end, reads_as_free
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.metrology.jump import Jump, preset_noticed
from daq.metrology.stuck import never_moved, stands_still
from daq.words import Said, Sample, Unit, said

Code = Literal[
    "unit-changed",
    "travel-ended",
    "contact-lifted",
    "number-jumped",
    "number-stuck",
    "number-moves",
    "jumped-at-rest",
]

STAYED = 10
"""Samples in a row that must show a thing before it is said."""

RECENT_NS = 2_000_000_000
"""In which a jump is looked for."""

QUARTER_NS = 120_000_000
"""In less than this no hand turns a spindle to the next spot, from rest to rest (common practice,
no source); a gauge that sends less often cannot tell."""

COMPARED_STEPS = ("as-found", "final", "check")
"""Where a number that is read is held against those before it."""

WATCHED_STEPS = ("as-found", "final", "park", "loosen", "move", "check", "tighten")
"""Where a number is read or watched."""

SAID: Final[Mapping[Code, Said]] = {
    "travel-ended": said("travel-ended"),
    "contact-lifted": said("contact-lifted"),
    "number-jumped": said("number-jumped"),
    "number-stuck": said("number-stuck"),
    "number-moves": said("number-moves"),
    "jumped-at-rest": said("jumped-at-rest", touch=said("touch-again")),
}


@dataclass(frozen=True)
class Noted:
    """The payload of `gauge-noted`."""

    code: Code


@dataclass(frozen=True)
class Fault:
    """The payload of `gauge-fault`."""

    code: str


@dataclass(frozen=True)
class Back:
    """The payload of `gauge-back`."""

    run: str
    gauge: str


def condition(job: Job, samples: Sequence[Sample]) -> Code | None:
    """What these samples show that the person must know, or None."""
    if len(samples) < STAYED or job.gauge.free_pushed_mm is None or not job.has_gauge:
        return None
    last = samples[-STAYED:]
    if all(s.unit != job.gauge.unit for s in last):
        return "unit-changed"
    return _parked(job, samples) or _still(job, samples) or _jumped(job, samples)


def _parked(job: Job, samples: Sequence[Sample]) -> Code | None:
    """What must be known of a gauge that is parked for a move."""
    if job.step not in PARKED_STEPS:
        return None
    last = samples[-STAYED:]
    pushed = [job.setup.gauge.pushed(s.value_mm) for s in last]
    if all(reads_as_free(job, m) for m in pushed):
        return "contact-lifted" if job.step in ("loosen", "move") else None
    if all(at_the_end(job, m) for m in pushed):
        return "travel-ended"
    return None if job.base is None or _jump(job, samples) is None else "number-jumped"


def _jump(job: Job, samples: Sequence[Sample]) -> Jump | None:
    # Longer ago, or from a gauge with less than ten in that time, a turn looks the same.
    recent = [s for s in samples if s.mono_ns >= samples[-1].mono_ns - RECENT_NS]
    return preset_noticed(recent, job.setup.gauge.resolution)


def _jumped(job: Job, samples: Sequence[Sample]) -> Code | None:
    """Whether the number at a spot became another one at once, with others read before it.

    A contact that springs from the surface, or is pushed to its stop, does so by itself.
    """
    if job.step not in COMPARED_STEPS or not job.reads.taken:
        return None
    jump = _jump(job, samples)
    if jump is None or jump.took_ns > QUARTER_NS:
        return None
    pushed = [job.setup.gauge.pushed(mm) for mm in (jump.before_mm, jump.after_mm)]
    sprung = any(reads_as_free(job, mm) or at_the_end(job, mm) for mm in pushed)
    return None if sprung else "jumped-at-rest"


def _still(job: Job, samples: Sequence[Sample]) -> Code | None:
    """Whether the number stopped where it ought to flicker, said once a step; or goes again."""
    if job.is_told("number-stuck"):
        return None if stuck(job, samples) else "number-moves"
    watched = job.step in WATCHED_STEPS and not job.is_told("number-moves")
    return "number-stuck" if watched and stuck(job, samples) else None


def stuck(job: Job, samples: Sequence[Sample]) -> bool:
    """Whether a gauge that flickers in at least every second reading shows one number only.

    With its contact in the air, or pushed in to its stop, a sound one may do so.
    """
    flickers = 0 < job.gauge.read <= 2 * job.gauge.flickered
    if not flickers or not stands_still(samples):
        return False
    pushed_mm = job.setup.gauge.pushed(samples[-1].value_mm)
    return not reads_as_free(job, pushed_mm) and not at_the_end(job, pushed_mm)


def check_moves(job: Job, given: Input) -> None:
    """Refuse what was watched with a gauge that may be stuck, until its number changes."""
    if stuck(job, given.samples):
        raise Refused("maybe-stuck")


def check_turned(job: Job, given: Input) -> None:
    """Refuse the end of a turn through which a gauge showed one number that flickered before."""
    share = job.gauge.flickered / job.gauge.read if job.gauge.read else 0.0
    if 0.0 < share < 1.0 and never_moved(given.samples, share):
        raise Refused("maybe-stuck")


def noted(job: Job, given: Input) -> tuple[Data, ...]:
    """The event for what the samples show."""
    code = given.payload(Noted).code
    if condition(job, given.samples) != code:
        raise Refused("not-shown-by-samples")
    if code == "unit-changed":
        return (_unit(job, given.samples[-1].unit),)
    return (GaugeNoted(SAID[code], None, _next(job, code)),)


def unit_read(job: Job, given: Input) -> tuple[GaugeNoted, ...]:
    """The change of unit that a settled reading itself shows: it is followed at once.

    The lengths are the same in both; a touch test takes the unit up by itself.
    """
    unit = given.window[-1].unit
    changed = unit != job.gauge.unit and job.step != "touch-free"
    return (_unit(job, unit),) if changed else ()


def _unit(job: Job, unit: Unit) -> GaugeNoted:
    shown = replace(job, gauge=replace(job.gauge, unit=unit))
    stations = () if job.check is None else read_at(shown, job.check)
    return GaugeNoted(said("unit-changed", unit=unit), unit, None, stations)


def _next(job: Job, code: Code) -> Next | None:
    """After a jump nobody knows what is left of the base."""
    if code != "number-jumped":
        return None
    return Next("check" if job.axis in job.loose else "park", job.axis)


def gauge_fault(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge stopped giving readings."""
    return (GaugeFault(given.payload(Fault).code),)


def gauge_back(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge gives readings again; what was read before may have another zero."""
    back = given.payload(Back)
    run = back.run
    if back.gauge != job.setup.gauge.key:
        return (GaugeBack(run, None, None),)
    if job.base is not None and job.base.run != run and job.step in PARKED_STEPS:
        if job.axis in job.loose:
            return (GaugeBack(run, said("away-while-loose"), Next("check", job.axis)),)
        return (GaugeBack(run, said("away-while-parked"), Next("park", job.axis)),)
    if job.step == "check" and job.reads.taken and job.reads.taken[0].run != run:
        return (GaugeBack(run, said("away-in-check"), Next("check", job.axis)),)
    return (GaugeBack(run, None, None),)
