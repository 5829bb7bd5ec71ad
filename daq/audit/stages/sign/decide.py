"""Clearing away, signing, abandoning, taking back."""

import datetime
from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit.events import (
    Data,
    Signed,
    SweepDone,
)
from daq.audit.facts import asks_for_past, word_of
from daq.audit.input import Input, Refused, head_only
from daq.audit.parts import Listed, Verdict
from daq.audit.state import Job
from daq.settings import quoted
from daq.words import Word

VERDICTS: Final[dict[Word, Verdict]] = {
    "in": "conforms",
    "out": "does-not-conform",
    "close": "cannot-be-decided",
}
"""The screens' word as the report says it."""


@dataclass(frozen=True)
class Sign:
    """The payload of `sign`.

    `as_left`: the number of the sweep that shows how the head is left, when it is not the
    first after the last tightening; `as_left_why`: why another. `as_found`: that of the sweep
    that shows how it was found, when it is not the first before anything was loosened;
    `as_found_why`: why another. With nothing loosened both are the same sweep.
    """

    done_by: str
    reviewed_by: str = ""
    note: str = ""
    last_good: str = ""
    disposition: str = ""
    as_left: int | str = ""
    as_left_why: str = ""
    as_found: int | str = ""
    as_found_why: str = ""


def sign(job: Job, given: Input) -> tuple[Data, ...]:
    """The verdict, with who did it."""
    said = given.payload(Sign)
    if job.check is not None:
        return (_signed_round(job, said, given.today),)
    if job.sweeps.as_found is None and not job.sweeps.off_scale:
        raise Refused("no-as-found")
    said = said if job.sweeps.loosened else _both(said)
    found, left = _found(job, said), _left(job, said)
    _check_who_and_past(job, said, given.today)
    return (
        Signed(
            done_by=said.done_by.strip(),
            reviewed_by=said.reviewed_by.strip(),
            note=said.note.strip(),
            last_good=said.last_good.strip(),
            disposition=said.disposition.strip(),
            verdict=VERDICTS[word_of(left)],
            as_found=found.results if found is not None else None,
            as_left=left.results,
            moves=job.moves.made,
            # Off scale again later is what bringing it closer came to, not how it was found.
            off_scale=job.sweeps.off_scale[0].said if job.sweeps.off_scale else None,
            as_found_why=said.as_found_why.strip(),
            as_left_why=said.as_left_why.strip(),
            sweeps=tuple(_listed(sweep, found, left) for sweep in job.sweeps.done),
            shifts=job.tightening.shifts,
            whole=left.whole,
        ),
    )


def _signed_round(job: Job, said: Sign, today: str) -> Signed:
    """What another check than the sweep came to: its latest round."""
    head_only(
        job,
        as_found=said.as_found,
        as_found_why=said.as_found_why,
        as_left=said.as_left,
        as_left_why=said.as_left_why,
    )
    if job.round is None:
        raise Refused("no-round")
    _check_who_and_past(job, said, today)
    return Signed(
        done_by=said.done_by.strip(),
        reviewed_by=said.reviewed_by.strip(),
        note=said.note.strip(),
        last_good=said.last_good.strip(),
        disposition=said.disposition.strip(),
        verdict=VERDICTS[job.round.word],
        as_found=None,
        as_left=None,
        moves=0,
        round=job.round,
    )


def _both(said: Sign) -> Sign:
    """Nothing was loosened: the head is left as it was found, and one choice is for both."""
    found, left = str(said.as_found).strip(), str(said.as_left).strip()
    if found and left and found != left:
        raise Refused("found-and-left-differ", found=found, left=left)
    found_why, left_why = said.as_found_why.strip(), said.as_left_why.strip()
    return replace(
        said,
        as_found=found or left,
        as_left=found or left,
        as_found_why=found_why or left_why,
        as_left_why=left_why or found_why,
    )


def _found(job: Job, said: Sign) -> SweepDone | None:
    """The sweep that shows how the head was found; none when it was off the gauge's scale."""
    first = job.sweeps.as_found
    if first is None:
        if str(said.as_found).strip():
            raise Refused("as-found-never-read", found=str(said.as_found))
        return None
    return _chosen("as_found", said.as_found, said.as_found_why, first, job.sweeps.founds)


def _left(job: Job, said: Sign) -> SweepDone:
    """The sweep that shows how the head is left: the first proof, or another with a reason."""
    first = job.sweeps.as_left
    if first is None:
        raise Refused("no-as-left")
    return _chosen("as_left", said.as_left, said.as_left_why, first, job.sweeps.proofs)


def _chosen(
    field: Literal["as_found", "as_left"],
    number: int | str,
    why: str,
    first: SweepDone,
    among: tuple[SweepDone, ...],
) -> SweepDone:
    """The first sweep, or the one of that number if it is one of them and a reason is given."""
    wanted = str(number).strip()
    if wanted in ("", str(first.number)):
        return first
    chosen = [sweep for sweep in among if str(sweep.number) == wanted]
    if not chosen:
        numbers = ", ".join(str(sweep.number) for sweep in among)
        raise Refused("no-such-sweep", field=field, found=wanted, allowed=numbers)
    if not why.strip():
        raise Refused("sweep-without-why", field=field, chosen=wanted, first=first.number)
    return chosen[0]


def _listed(sweep: SweepDone, found: SweepDone | None, left: SweepDone) -> Listed:
    return Listed(
        number=sweep.number,
        purpose=sweep.purpose,
        why=sweep.why,
        usable=sweep.usable,
        words=sweep.results.map(lambda each: each.word),
        as_left=sweep.number == left.number,
        as_found=found is not None and sweep.number == found.number,
    )


def _check_who_and_past(job: Job, said: Sign, today: str) -> None:
    """Who did it is named. The past is asked for when the machine was found out."""
    if not said.done_by.strip():
        raise Refused("signed-by-nobody")
    asked = asks_for_past(job)
    if asked or said.last_good.strip():
        _check_date(said.last_good.strip(), today)
    if asked and not said.disposition.strip():
        raise Refused("no-disposition")


def _check_date(last_good: str, today: str) -> None:
    try:
        day = datetime.date.fromisoformat(last_good)
    except ValueError:
        day = None
    if day is None or day.isoformat() > today:
        raise Refused("last-good-no-date", found=quoted(last_good), today=today)
