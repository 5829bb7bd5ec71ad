"""The verdict is signed: by whom, and which sweeps count."""

import datetime
import re
from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.borne_out import borne_out, stated
from daq.audit.facts import asks_for_past, is_look, word_of
from daq.audit.input import Input, Refused, head_only
from daq.audit.laid import from_now_on
from daq.audit.measurand import measurand
from daq.audit.papers import noted, speaks_against
from daq.audit.parts import Listed, Verdict
from daq.audit.stage import Handler, Shows, Stage
from daq.audit.state import Job
from daq.audit.views.common import again
from daq.audit.views.handed import persons
from daq.audit.views.remarks import remarks
from daq.audit.views.step import Action, Choice, Field, Wording
from daq.audit.views.table import kept
from daq.metrology.rule import Rule
from daq.settings import quoted
from daq.words import Said, Word, in_a_row, said

_ISO: Final = re.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}")
VERDICTS: Final[dict[Word, Verdict]] = {
    "in": "conforms",
    "out": "does-not-conform",
    "close": "cannot-be-decided",
}
"""The screens' word as the report says it."""
LOOKED: Final[dict[Word, Verdict]] = {"in": "nothing-moved", "out": "look-closer"}
"""The same of a check that holds nothing against a tolerance."""


@dataclass(frozen=True)
class Sign:
    """The payload of `sign`.

    `as_left`: the number of the sweep that shows how the head is left, when it is not the
    first after the last tightening; `as_left_why`: why another. `as_found`: that of the sweep
    that shows how it was found, when it is not the first before anything was loosened;
    `as_found_why`: why another. With nothing loosened both are the same sweep. `all_the_same`:
    why it is signed although something speaks against the gauge or the dates.
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
    all_the_same: str = ""


def sign(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The verdict, with who did it."""
    written = vars(given.payload(Sign))
    sheet = Sign(**{field: str(value).strip() for field, value in written.items()})
    if job.check is not None:
        sweeps = ("as_found", "as_found_why", "as_left", "as_left_why")
        head_only(job, **{field: getattr(sheet, field) for field in sweeps})
        if job.round is None:
            raise Refused("no-round")
        return (replace(_signed(job, sheet, given.today, job.round.word), round=job.round),)
    unread = job.sweeps.off_scale or job.sweeps.set_back
    if job.sweeps.as_found is None and not unread:
        raise Refused("no-as-found")
    sheet = sheet if job.sweeps.loosened else _both(sheet)
    found, left = _found(job, sheet), _left(job, sheet)
    return (
        replace(
            _signed(job, sheet, given.today, word_of(left)),
            as_found=found.results if found is not None else None,
            as_left=left.results,
            moves=job.moves.made,
            off_scale=_off_scale(job),
            set_back=job.sweeps.set_back,
            left_alone=job.moves.left_alone,
            as_found_why=sheet.as_found_why,
            as_left_why=sheet.as_left_why,
            sweeps=tuple(_listed(sweep, found, left) for sweep in job.sweeps.done),
            shifts=job.tightening.shifts,
            whole=left.whole,
            stated=stated(job, left, given.today),
            borne_out=borne_out(job, found, given.today),
            known=from_now_on(job),
        ),
    )


def _off_scale(job: Job) -> Said | None:
    """How far off the gauge's scale the head was found.

    Off scale later is what setting it back or bringing it closer came to.
    """
    found = () if job.sweeps.set_back else job.sweeps.off_scale
    return found[0].said if found else None


def _signed(job: Job, sheet: Sign, today: str, word: Word) -> e.Signed:
    """What every signature says: who, what became of the work, and the verdict."""
    _check_who_and_past(job, sheet, today)
    against = speaks_against(job)
    if against and not sheet.all_the_same:
        raise Refused("no-reason-to-sign", facts=in_a_row(against))
    return e.Signed(
        done_by=sheet.done_by,
        reviewed_by=sheet.reviewed_by,
        note=sheet.note,
        last_good=sheet.last_good,
        disposition=sheet.disposition,
        verdict=LOOKED[word] if is_look(job) else VERDICTS[word],
        as_found=None,
        as_left=None,
        moves=0,
        against=against,
        all_the_same=sheet.all_the_same if against else "",
        noted=noted(job),
        rule=_rule(job),
        measurand=measurand(job),
        handed=job.handed,
    )


def _rule(job: Job) -> Rule | None:
    """By which it was judged; of another check each figure is by itself, or nothing is."""
    rule = job.setup.machine.verdict
    if is_look(job):
        return None
    return rule if job.check is None else replace(rule, together="each")


def _both(sheet: Sign) -> Sign:
    """Nothing was loosened: the head is left as it was found, and one choice is for both."""
    found, left = sheet.as_found, sheet.as_left
    if found and left and found != left:
        raise Refused("found-and-left-differ", found=found, left=left)
    return replace(
        sheet,
        as_found=found or left,
        as_left=found or left,
        as_found_why=sheet.as_found_why or sheet.as_left_why,
        as_left_why=sheet.as_left_why or sheet.as_found_why,
    )


def _found(job: Job, sheet: Sign) -> e.SweepDone | None:
    """The sweep that shows how the head was found; none when it was off the gauge's scale."""
    first = job.sweeps.as_found
    if first is None:
        if sheet.as_found:
            raise Refused("as-found-never-read", found=sheet.as_found)
        return None
    return _chosen("as_found", sheet.as_found, sheet.as_found_why, first, job.sweeps.founds)


def _left(job: Job, sheet: Sign) -> e.SweepDone:
    """The sweep that shows how the head is left: the first proof, or another with a reason."""
    first = job.sweeps.as_left
    if first is None:
        raise Refused("no-as-left")
    return _chosen("as_left", sheet.as_left, sheet.as_left_why, first, job.sweeps.proofs)


def _chosen(
    field: Literal["as_found", "as_left"],
    wanted: int | str,
    why: str,
    first: e.SweepDone,
    among: tuple[e.SweepDone, ...],
) -> e.SweepDone:
    """The first sweep, or the one of that number if it is one of them and a reason is given."""
    if wanted in ("", str(first.number)):
        return first
    chosen = [sweep for sweep in among if str(sweep.number) == wanted]
    if not chosen:
        numbers = ", ".join(str(sweep.number) for sweep in among)
        raise Refused("no-such-sweep", field=field, found=wanted, allowed=numbers)
    if not why:
        raise Refused("sweep-without-why", field=field, chosen=wanted, first=first.number)
    return chosen[0]


def _listed(sweep: e.SweepDone, found: e.SweepDone | None, left: e.SweepDone) -> Listed:
    return Listed(
        number=sweep.number,
        purpose=sweep.purpose,
        why=sweep.why,
        usable=sweep.usable,
        words=sweep.results.map(lambda each: each.word),
        as_left=sweep.number == left.number,
        as_found=found is not None and sweep.number == found.number,
    )


def _check_who_and_past(job: Job, sheet: Sign, today: str) -> None:
    """Who did it is named. The past is asked for when the machine was found out."""
    if not sheet.done_by:
        raise Refused("signed-by-nobody")
    asked = asks_for_past(job)
    if asked or sheet.last_good:
        _check_date(sheet.last_good, today, sure=job.since.utc_trusted)
    if asked and not sheet.disposition:
        raise Refused("no-disposition")


def _check_date(last_good: str, today: str, *, sure: bool) -> None:
    """Refuse what is no day as YYYY-MM-DD, or one to come by a clock that is `sure`."""
    try:
        day = datetime.date.fromisoformat(last_good) if _ISO.fullmatch(last_good) else None
    except ValueError:
        day = None
    if day is None:
        raise Refused("last-good-no-date", found=quoted(last_good))
    if sure and last_good > today:
        raise Refused("last-good-ahead", found=last_good, today=today)


def _says(job: Job) -> Wording:
    """What is signed, and of the head what that says nothing of."""
    of_head = () if job.check is not None else (said("verdict-of-table"),)
    notes = (*kept(job), *of_head, *remarks(job))
    return Wording(said("sign-audit"), said("recorded-already"), notes)


def _past(job: Job) -> tuple[Field, Field]:
    """Since when it may have been out, as the record has it, and what becomes of the work."""
    good, say = job.meanwhile.good, said("last-good")
    since = Field("last_good", say, "date")
    if good is not None:
        sure = "yes" if good.utc_trusted else "no"
        why = said("last-good-why", audit=good.short, sure=sure)
        since = Field("last_good", say, "date", value=good.day, note=why)
    choices = job.setup.shop.dispositions
    return since, Field("disposition", said("disposition"), suggests=choices)


def _buttons(job: Job) -> list[Action]:
    people = persons(job.meanwhile.people)
    asked = [Field("done_by", said("done-by"), suggests=people)]
    against = speaks_against(job)
    if against:
        asked.append(Field("all_the_same", said("all-the-same")))
    if asks_for_past(job):
        asked += _past(job)
    if job.sweeps.loosened and len(job.sweeps.founds) > 1 and job.sweeps.as_found is not None:
        first = job.sweeps.as_found
        why = said("as-found-why", number=first.number)
        asked.append(_which("as_found", said("as-found-sweep"), job.sweeps.founds, first))
        asked.append(Field("as_found_why", why, required=False))
    if len(job.sweeps.proofs) > 1 and job.sweeps.as_left is not None:
        first = job.sweeps.as_left
        why = said("as-left-why", number=first.number)
        asked.append(_which("as_left", said("as-left-sweep"), job.sweeps.proofs, first))
        asked.append(Field("as_left_why", why, required=False))
    asked.append(Field("reviewed_by", said("reviewed-by"), required=False, suggests=people))
    asked.append(Field("note", said("note"), required=False))
    facts = in_a_row(against) if against else None
    button = Action("sign", said("sign"), primary=True, fields=tuple(asked), confirm=facts)
    return [button, again(job)]


def _which(name: str, say: Said, sweeps: tuple[e.SweepDone, ...], first: e.SweepDone) -> Field:
    """Which sweep counts: the first is chosen unless another is."""
    ordered = sorted(sweeps, key=lambda sweep: sweep != first)
    choices = tuple(
        Choice(
            str(s.number),
            said("sweep-came-to", number=s.number, word=said("word", word=word_of(s))),
        )
        for s in ordered
    )
    return Field(name, say, "choice", False, choices, choices[0].key)


STAGES = (
    Stage(
        "sign",
        shows=Shows("sign", _says, _buttons),
        commands={"sign": Handler(sign), "again": Handler(wish.again)},
        heeds_zero=False,
    ),
)
