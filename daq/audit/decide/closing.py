"""Clearing away, signing, abandoning, taking back."""

import datetime
from dataclasses import dataclass

from daq.audit.decide.common import Input, Nothing, Refused
from daq.audit.events import (
    Abandoned,
    Cleared,
    Data,
    Signed,
    SweepDone,
    Voided,
)
from daq.audit.facts import asks_for_past, word_of
from daq.audit.parts import (
    AxisResult,
)
from daq.audit.state import Job


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


def cleared(job: Job, given: Input) -> tuple[Data, ...]:
    """The arm is out and the wrench off the drawbar."""
    given.payload(Nothing)
    return (Cleared(),)


def sign(job: Job, given: Input) -> tuple[Data, ...]:
    """The verdict, with who did it."""
    said = given.payload(Sign)
    found, left = job.as_found, job.latest
    if found is None or left is None:
        raise Refused("There is no full sweep to sign for.")
    if not said.done_by.strip():
        raise Refused("done_by: found nothing; allowed: the name or initials of who did the audit")
    _check_past(said, given.today, asks_for_past(job))
    return (
        Signed(
            done_by=said.done_by.strip(),
            reviewed_by=said.reviewed_by.strip(),
            note=said.note.strip(),
            last_good=said.last_good.strip(),
            disposition=said.disposition.strip(),
            verdict="conforms" if word_of(left) == "in" else "does not conform",
            as_found=_pair(found),
            as_left=_pair(left),
            moves=job.moves,
        ),
    )


def _pair(sweep: SweepDone) -> tuple[AxisResult, AxisResult]:
    return (sweep.side, sweep.nod)


def _check_past(said: Sign, today: str, asked: bool) -> None:
    """The past is asked for when the machine was found out; what is said must make sense."""
    if asked or said.last_good.strip():
        _check_date(said.last_good.strip(), today)
    if asked and not said.disposition.strip():
        raise Refused(
            "disposition: found nothing; allowed: what becomes of the work done since then, "
            "because the machine was found out of tolerance"
        )


def _check_date(last_good: str, today: str) -> None:
    try:
        day = datetime.date.fromisoformat(last_good)
    except ValueError:
        day = None
    if day is None or day.isoformat() > today:
        raise Refused(
            f"last_good: found {last_good!r}; allowed: the date the machine was last known "
            f"good, such as 2026-03-31, not after today ({today})"
        )


def abandon(job: Job, given: Input) -> tuple[Data, ...]:
    """The audit ends without a verdict; why is recorded."""
    why = given.payload(Why).why.strip()
    if not why:
        raise Refused("Say why the audit is abandoned.")
    return (Abandoned(why),)


def undo(job: Job, given: Input) -> tuple[Data, ...]:
    """The last step is taken back, if it only read or answered something."""
    given.payload(Nothing)
    if not job.trail:
        raise Refused(
            "Nothing here can be taken back: what was turned stays turned, and a finished sweep "
            "stays listed. Sweep again instead."
        )
    return (Voided(job.trail[-1][0]),)
