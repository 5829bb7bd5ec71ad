"""A line of the list as it is shown: the same for pages, the API and the command."""

import datetime
from dataclasses import dataclass

from daq.audit.history import WORDS
from daq.audit.parts import Verdict
from daq.audit.reasons import Reason
from daq.audit.views.figures import same_place
from daq.records.listed import AuditLine, Came, State, Used, WrittenAt
from daq.records.wanted import Failed, Found
from daq.words import Axis, Both, Person, Shown, Text, Unit, Word, said


@dataclass(frozen=True, slots=True)
class RecordLine:
    """One audit of the list; its fields are as in `AuditLine`.

    `signed`, `opened`, `ended`: UTC, ISO; `signed` is None of one that was not, `ended` while it
    is open. `report`: the number of its latest report. `sure`: a time server had set the clock
    that dated it last. `word`: the verdict in the wall's words. `what`, `came`, `side`, `nod`: what
    was checked, how it came out, and each axis as found and as left, in words.
    """

    audit: str
    short: str
    machine: str
    name: str
    kind: str
    what: Text
    reason: Reason
    practice: bool
    state: State
    verdict: Verdict | None
    word: Word | None
    came: Text
    opened: str
    signed: str | None
    ended: str | None
    day: str
    zone: str
    sure: bool
    opened_row: int
    ended_row: int | None
    as_found: Both[Came] | None
    as_left: Both[Came] | None
    side: Text
    nod: Text
    moves: int
    gauges: tuple[Used, ...]
    opened_by: Person | None
    done_by: Person | None
    reviewed_by: Person | None
    hands: tuple[Person, ...]
    taken_back: int
    addenda: int
    report: str | None


@dataclass(frozen=True, slots=True)
class FailedLine:
    """A check that a gauge failed, and how many audits used it since it was last known to be good.

    `since`: that day, None where it is not known; `say`: all of it in words.
    """

    gauge: str
    number: str
    day: str
    since: str | None
    audits: int
    say: Text


@dataclass(frozen=True, slots=True)
class RecordsView:
    """Some audits of the list, newest first.

    `more`: what to ask for as `before` to be given those after them; None: there are none.
    `failed`: the failed checks of gauges that were asked about. `behind`: so many of the ledger's
    rows are not in the list yet.
    """

    records: tuple[RecordLine, ...]
    more: int | None
    failed: tuple[FailedLine, ...]
    behind: int


def shown(found: Found, behind: int) -> RecordsView:
    """What is found, to be shown."""
    lines, failed = map(line_shown, found.audits), map(failed_shown, found.failed)
    return RecordsView(tuple(lines), found.more, tuple(failed), behind)


def line_shown(line: AuditLine) -> RecordLine:
    """One audit."""
    check = said("check-head") if line.check is None else line.check
    ended = line.closed or line.opened
    signed = line.closed if line.state == "signed" else None
    return RecordLine(
        audit=line.audit,
        short=line.short,
        machine=line.machine,
        name=line.name,
        kind=line.kind,
        what=said("listed-what", check=check, reason=said("reason", reason=line.reason)),
        reason=line.reason,
        practice=line.practice,
        state=line.state,
        verdict=line.verdict,
        word=WORDS[line.verdict] if line.verdict else None,
        came=said("listed-came", came=line.verdict or line.state),
        opened=_time(line.opened),
        signed=_time(signed) if signed else None,
        ended=_time(line.closed) if line.closed else None,
        day=line.day,
        zone=line.zone,
        sure=ended.sure,
        opened_row=line.opened.row,
        ended_row=line.closed.row if line.closed else None,
        as_found=line.as_found,
        as_left=line.as_left,
        side=_axis(line, "side"),
        nod=_axis(line, "nod"),
        moves=line.moves,
        gauges=line.gauges,
        opened_by=_person(line.opened_by),
        done_by=_person(line.done_by),
        reviewed_by=_person(line.reviewed_by),
        hands=tuple(map(Person, line.hands)),
        taken_back=line.taken_back,
        addenda=line.addenda,
        report=f"{line.short}-{line.report}" if line.report else None,
    )


def failed_shown(failed: Failed) -> FailedLine:
    """One failed check."""
    say = said(
        "listed-failed",
        gauge=failed.number or failed.gauge,
        day=failed.day,
        audits=failed.audits,
        since=failed.since or "",
        known="yes" if failed.since else "no",
    )
    return FailedLine(failed.gauge, failed.number, failed.day, failed.since, failed.audits, say)


def _axis(line: AuditLine, axis: Axis) -> Text:
    """An axis as found and as left, to the same place."""
    if line.as_left is None:
        return None
    left, unit = line.as_left[axis], line.unit
    found = None if line.as_found is None else line.as_found[axis]
    digits = same_place(left.error_mm, (left.limit_mm,), unit, left.doubt_mm)
    came = said(
        "listed-left",
        left=_off(left.error_mm, unit, digits),
        doubt=_off(left.doubt_mm, unit, digits),
        limit=_off(left.limit_mm, unit, digits),
        unit=unit,
    )
    if found is None:
        return came
    return said("listed-found", found=_off(found.error_mm, unit, digits), unit=unit, left=came)


def _off(mm: float, unit: Unit, digits: int) -> Shown:
    return Shown(abs(mm), unit, digits)


def _time(when: WrittenAt) -> str:
    moment = datetime.datetime.fromtimestamp(when.utc_us / 1e6, datetime.UTC)
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def _person(person: str) -> Person | None:
    return Person(person) if person else None
