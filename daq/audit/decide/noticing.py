"""What the service notices of the gauge besides a zero: its unit key, its travel, its contact."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from daq.audit.decide.common import Input, Refused
from daq.audit.decide.zeroing import PARKED_STEPS
from daq.audit.events import Data, GaugeNoted
from daq.audit.facts import reads_as_free
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.metrology.jump import preset_noticed
from daq.words import Sample

Code = Literal["unit", "travel", "off-contact", "jumped"]

TRAVEL_COUNTS = 5
"""This near its end a plunger no longer follows."""

STAYED = 10
"""Samples in a row that must show a thing before it is said."""

NAMES = {"mm": "millimetres", "in": "inches"}


@dataclass(frozen=True)
class Noted:
    """The payload of `gauge-noted`."""

    code: Code


def condition(job: Job, samples: Sequence[Sample]) -> Code | None:
    """What these samples show that the person must know, or None."""
    if len(samples) < STAYED or job.free_pushed_mm is None:
        return None
    last = samples[-STAYED:]
    if job.unit is not None and all(s.unit != job.unit for s in last):
        return "unit"
    if job.step not in PARKED_STEPS:
        return None
    pushed = [job.setup.gauge.pushed(s.value_mm) for s in last]
    if all(reads_as_free(job, m) for m in pushed):
        return "off-contact" if job.step in ("loosen", "move") else None
    if all(_at_the_end(job, m) for m in pushed):
        return "travel"
    if job.base is None or preset_noticed(samples, job.setup.gauge.resolution) is None:
        return None
    return "jumped"


def _at_the_end(job: Job, pushed_mm: float) -> bool:
    free = job.free_pushed_mm or 0.0
    margin = TRAVEL_COUNTS * job.setup.gauge.resolution
    return pushed_mm - free > job.setup.gauge.travel - margin


def noted(job: Job, given: Input) -> tuple[Data, ...]:
    """The event for what the samples show."""
    code = given.payload(Noted).code
    if condition(job, given.samples) != code:
        raise Refused("These samples do not show that.")
    unit = given.samples[-1].unit if code == "unit" else None
    say = {
        "unit": f"The unit key was pressed: everything is in {NAMES[unit or 'mm']} now.",
        "travel": "The gauge is at the end of its travel: stop, and set it anew.",
        "off-contact": "The contact is off the surface: bring the gauge down.",
        "jumped": "The number jumped: preset or bumped? Read again.",
    }[code]
    return (GaugeNoted(code, say, unit, _next(job, code)),)


def _next(job: Job, code: Code) -> Next | None:
    """After a jump nobody knows what is left of the base."""
    if code != "jumped":
        return None
    return Next("check" if job.axis in job.loose else "park", job.axis)
