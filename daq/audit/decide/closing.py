"""Clearing away, signing, abandoning, taking back."""

import datetime
from dataclasses import dataclass
from typing import Final

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
from daq.audit.parts import Listed, Verdict, Word
from daq.audit.state import Job

VERDICTS: Final[dict[Word, Verdict]] = {
    "in": "conforms",
    "out": "does not conform",
    "close": "cannot be decided",
}
"""The screens' word as the report says it."""


@dataclass(frozen=True)
class Sign:
    """The payload of `sign`.

    `as_left`: the number of the sweep that shows how the head is left, when it is not the
    first after the last tightening; `as_left_why`: why another.
    """

    done_by: str
    reviewed_by: str = ""
    note: str = ""
    last_good: str = ""
    disposition: str = ""
    as_left: int | str = ""
    as_left_why: str = ""


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
    if job.as_found is None and not job.off_scale:
        raise Refused("There is no full sweep of the head as it was found to sign for.")
    left = _left(job, said)
    if not said.done_by.strip():
        raise Refused("done_by: found nothing; allowed: the name or initials of who did the audit")
    _check_past(said, given.today, asks_for_past(job))
    found = job.as_found
    return (
        Signed(
            done_by=said.done_by.strip(),
            reviewed_by=said.reviewed_by.strip(),
            note=said.note.strip(),
            last_good=said.last_good.strip(),
            disposition=said.disposition.strip(),
            verdict=VERDICTS[word_of(left)],
            as_found=(found.side, found.nod) if found is not None else (),
            as_left=(left.side, left.nod),
            moves=job.moves,
            as_found_say="; ".join(off.say for off in job.off_scale),
            as_left_why=said.as_left_why.strip(),
            sweeps=tuple(_listed(sweep, left) for sweep in job.sweeps),
            shifts=job.shifts,
        ),
    )


def _left(job: Job, said: Sign) -> SweepDone:
    """The sweep that shows how the head is left: the first proof, or another with a reason."""
    first = job.as_left
    if first is None:
        raise Refused("There is no full sweep since the bolts were last touched: sweep first.")
    wanted = str(said.as_left).strip()
    if wanted in ("", str(first.number)):
        return first
    chosen = [sweep for sweep in job.proofs if str(sweep.number) == wanted]
    if not chosen:
        numbers = ", ".join(str(sweep.number) for sweep in job.proofs)
        raise Refused(f"as_left: found {said.as_left}; allowed: {numbers}")
    if not said.as_left_why.strip():
        raise Refused(
            f"as_left_why: found nothing; allowed: why sweep {said.as_left} counts and not the "
            f"first after the last tightening, which is sweep {first.number}"
        )
    return chosen[0]


def _listed(sweep: SweepDone, left: SweepDone) -> Listed:
    return Listed(
        number=sweep.number,
        purpose=sweep.purpose,
        why=sweep.why,
        usable=sweep.usable,
        side=sweep.side.word,
        nod=sweep.nod.word,
        as_left=sweep.number == left.number,
    )


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
