"""Which audits are wanted, and what the index answers."""

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Annotated, Any, Final, Literal

from daq.audit.history import WORDS
from daq.audit.parts import Verdict
from daq.records.index import Index, built
from daq.records.listed import AuditLine
from daq.settings import Range
from daq.words import Word

YesNo = Literal["", "yes", "no"]


@dataclass(frozen=True)
class Wanted:
    """What of the list; "" and None leave a question open.

    `kind`: "squaring" or the key of another check. `since`, `until`: days, both included, that an
    audit was signed or ended on, or was opened on while it is open. `verdict`: as a report has
    it, or "in", "out", "close". `gauge`: a key or a serial number. `by`: a person's name, or a
    part of it. `voided`: something of it was taken back; `open`: it is, or it rests.
    `failed_check`: a gauge it used failed its check on that day or later, and had not passed one
    since. `before`: the row of an audit, to go on after it.
    """

    machine: str = ""
    kind: str = ""
    since: datetime.date | None = None
    until: datetime.date | None = None
    verdict: Word | Verdict | Literal[""] = ""
    gauge: str = ""
    by: str = ""
    voided: YesNo = ""
    practice: YesNo = ""
    open: YesNo = ""
    failed_check: datetime.date | None = None
    before: Annotated[int, Range(1, 2**63 - 1)] | None = None
    limit: Annotated[int, Range(1, 200)] = 50


@dataclass(frozen=True)
class Failed:
    """A check that a gauge did not pass, and for how long that may have been so.

    `day`: that of the check, in row `row`. `since`: the day of the last check it passed before, or
    of its calibration, None where neither is known; `passed`: the row of that check. `audits`: how
    many used it meanwhile.
    """

    gauge: str
    number: str
    day: str
    row: int
    since: str | None
    passed: int
    audits: int = 0


@dataclass(frozen=True)
class Found:
    """The audits of one answer, newest first.

    `more`: what to ask for as `before` to be given those after them, None where there are none.
    `failed`: the checks that were asked about.
    """

    audits: tuple[AuditLine, ...]
    more: int | None
    failed: tuple[Failed, ...] = ()


def answer(index: Index, wanted: Wanted, names: Mapping[str, str]) -> Found:
    """Return the audits that are wanted; `names`: what people are called, by id.

    Raises:
        Unusable: the index cannot be read, or a line of it is not as it was written.
    """
    failed: tuple[Failed, ...] = ()
    asked = list(_conditions(wanted, names))
    if wanted.failed_check is not None:
        failed = tuple(
            each for each in failed_since(index, wanted.failed_check)
            if wanted.gauge in ("", each.gauge, each.number)
        )  # fmt: skip
        asked.append(_any_of([_used_meanwhile(each) for each in failed]))
    if wanted.before is not None:
        asked.append(("opened < ?", (wanted.before,)))
    where, values = _all_of(asked)
    rows = index.rows(
        f"SELECT line, digest FROM audits WHERE {where} ORDER BY opened DESC LIMIT ?",
        (*values, wanted.limit + 1),
    )
    audits = tuple(built(*row) for row in rows[: wanted.limit])
    return Found(audits, audits[-1].opened.row if len(rows) > wanted.limit else None, failed)


def failed_since(index: Index, day: datetime.date) -> tuple[Failed, ...]:
    """Return every check that a gauge failed on that day or later, newest first.

    Raises Unusable.
    """
    rows = index.rows(_FAILED, (day.isoformat(),))
    return tuple(_failed(index, *row) for row in rows)


def _failed(index: Index, row: int, gauge: str, number: str, day: str) -> Failed:
    passed = index.rows(_PASSED, (number, gauge, row))
    calibrated = index.rows(_CALIBRATED, (number, gauge, day))[0][0]
    at, since = passed[0] if passed else (0, None)
    if calibrated is not None and (since is None or calibrated > since):
        at, since = 0, calibrated
    found = Failed(gauge, number, day, row, since, at)
    where, values = _used_meanwhile(found)
    count = index.rows(f"SELECT count(*) FROM audits WHERE {where}", values)
    return replace(found, audits=count[0][0])


_Asked = tuple[str, tuple[Any, ...]]
"""A condition, and what stands in its places."""

_FAILED: Final = (
    "SELECT at, gauge, number, day FROM checks WHERE NOT passed AND day >= ? ORDER BY at DESC"
)
_PASSED: Final = (
    "SELECT at, day FROM checks WHERE number = ? AND (number <> '' OR gauge = ?)"
    " AND passed AND at < ? ORDER BY at DESC LIMIT 1"
)
_CALIBRATED: Final = (
    "SELECT max(calibrated) FROM gauges WHERE number = ? AND (number <> '' OR key = ?)"
    " AND calibrated <= ?"
)

_OF_DAYS: Final = (
    "opened IN (SELECT opened FROM audits INDEXED BY audits_by_day WHERE day >= ? AND day <= ?)"
)
"""Along the index of days: else every line would be looked at."""


def _used_meanwhile(failed: Failed) -> _Asked:
    """Audits with that gauge which were not over when it last was known to be good.

    It is told by its serial number, by its key only where its file names none. What a clock that
    nobody had set dated may be of any day.
    """
    where = (
        "opened IN (SELECT opened FROM gauges WHERE number = ? AND (number <> '' OR key = ?)"
        " AND opened < ?) AND (closed IS NULL OR (closed > ? AND (day >= ? OR NOT sure)))"
    )
    since = "" if failed.passed else failed.since or ""
    return where, (failed.number, failed.gauge, failed.row, failed.passed, since)


def _conditions(wanted: Wanted, names: Mapping[str, str]) -> Iterator[_Asked]:
    for column in ("machine", "kind"):
        if value := getattr(wanted, column):
            yield f"{column} = ?", (value,)
    if wanted.since is not None or wanted.until is not None:
        days = (wanted.since or datetime.date.min, wanted.until or datetime.date.max)
        yield _OF_DAYS, tuple(day.isoformat() for day in days)
    if wanted.verdict:
        codes = tuple(code for code, word in WORDS.items() if wanted.verdict in (code, word))
        yield f"verdict IN ({_places(codes)})", codes
    if wanted.gauge:
        yield (
            (
                "opened IN (SELECT opened FROM gauges WHERE number = ?"
                " UNION SELECT opened FROM gauges WHERE key = ?)"
            ),
            (wanted.gauge, wanted.gauge),
        )
    if wanted.by:
        ids = _called(wanted.by, names)
        yield f"opened IN (SELECT opened FROM people WHERE person IN ({_places(ids)}))", ids
    for column in ("voided", "practice"):
        if value := getattr(wanted, column):
            yield f"{column} = ?", (value == "yes",)
    if wanted.open:
        states = ("open", "at-rest") if wanted.open == "yes" else ("signed", "given-up")
        yield f"state IN ({_places(states)})", states


def _called(by: str, names: Mapping[str, str]) -> tuple[str, ...]:
    """The ids of those whose name has that in it, however it is spaced and capitalised."""
    wanted = " ".join(by.split()).casefold()
    return tuple(person for person, name in names.items() if wanted in name.casefold())


def _places(values: tuple[str, ...]) -> str:
    return ", ".join("?" * len(values))


def _all_of(asked: list[_Asked]) -> _Asked:
    return " AND ".join(each for each, _ in asked) or "1", tuple(v for _, vs in asked for v in vs)


def _any_of(asked: list[_Asked]) -> _Asked:
    either = " OR ".join(f"({each})" for each, _ in asked)
    return f"({either or '0'})", tuple(v for _, vs in asked for v in vs)
