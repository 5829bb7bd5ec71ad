"""Clearing away, signing, abandoning, taking back; and what the service notices by itself."""

import datetime
from dataclasses import dataclass

from daq.audit.decide.common import Input, Refused
from daq.audit.events import (
    Abandoned,
    Cleared,
    Data,
    GaugeBack,
    GaugeFault,
    Signed,
    SweepDone,
    Voided,
)
from daq.audit.parts import (
    AxisResult,
)
from daq.audit.state import Job

EXPECTED_OUT = ("after-angled-work", "practice")
"""Reasons for which an as-found out of tolerance says nothing about earlier work."""


@dataclass(frozen=True)
class Sign:
    """The payload of `sign`."""

    done_by: str
    reviewed_by: str = ""
    note: str = ""
    last_good: str = ""
    disposition: str = ""


@dataclass(frozen=True)
class Why:
    """The payload of `abandon`."""

    why: str


@dataclass(frozen=True)
class Fault:
    """The payload of the service's `gauge-fault`."""

    code: str
    say: str


@dataclass(frozen=True)
class Back:
    """The payload of the service's `gauge-back`."""

    run: str


def cleared(job: Job, given: Input) -> tuple[Data, ...]:
    """The arm is out and the wrench off the drawbar."""
    return (Cleared(),)


def asks_for_past(job: Job) -> bool:
    """Whether signing asks since when the machine was out, and what became of the work."""
    found = job.as_found
    return found is not None and found.word == "out" and job.reason not in EXPECTED_OUT


def sign(job: Job, given: Input) -> tuple[Data, ...]:
    """The verdict, with who did it."""
    said = given.payload(Sign)
    found, left = job.as_found, job.latest
    if found is None or left is None:
        raise Refused("There is no full sweep to sign for.")
    if not said.done_by.strip():
        raise Refused("done_by: found nothing; allowed: the name or initials of who did the audit")
    if asks_for_past(job):
        _check_past(said)
    return (
        Signed(
            done_by=said.done_by.strip(),
            reviewed_by=said.reviewed_by.strip(),
            note=said.note.strip(),
            last_good=said.last_good.strip(),
            disposition=said.disposition.strip(),
            verdict="conforms" if left.word == "in" else "does not conform",
            as_found=_pair(found),
            as_left=_pair(left),
            moves=job.moves,
        ),
    )


def _pair(sweep: SweepDone) -> tuple[AxisResult, AxisResult]:
    return (sweep.side, sweep.nod)


def _check_past(said: Sign) -> None:
    try:
        datetime.date.fromisoformat(said.last_good.strip())
    except ValueError:
        raise Refused(
            f"last_good: found {said.last_good!r}; allowed: the date the machine was last known "
            "good, such as 2026-03-31, because it was found out of tolerance"
        ) from None
    if not said.disposition.strip():
        raise Refused(
            "disposition: found nothing; allowed: what becomes of the work done since then, "
            "because the machine was found out of tolerance"
        )


def abandon(job: Job, given: Input) -> tuple[Data, ...]:
    """The audit ends without a verdict; why is recorded."""
    why = given.payload(Why).why.strip()
    if not why:
        raise Refused("Say why the audit is abandoned.")
    return (Abandoned(why),)


def undo(job: Job, given: Input) -> tuple[Data, ...]:
    """The last step is taken back, if it only read or answered something."""
    if not job.trail:
        raise Refused("Nothing here can be taken back: bolts that were turned stay turned.")
    return (Voided(job.trail[-1][0]),)


def gauge_fault(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge stopped giving readings."""
    fault = given.payload(Fault)
    return (GaugeFault(fault.code, fault.say),)


def gauge_back(job: Job, given: Input) -> tuple[Data, ...]:
    """The bound gauge gives readings again."""
    return (GaugeBack(given.payload(Back).run),)
