"""The note that is posted once an audit is signed, or its report says something new: its JSON."""

import datetime
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from daq.audit.closing_events import Addendum, AddendumKind, Signed
from daq.audit.parts import AxisResult, Verdict
from daq.ledger.anchors import token
from daq.records.record import AuditRecord
from daq.report.number import number
from daq.settings import plain
from daq.words import Both, Stamp, Word

SCHEMA: Final = "headsweep-note-1"


@dataclass(frozen=True)
class AxisNote:
    """One axis, across the sweep: how far out, the limit on that side, the standard uncertainty.

    `word`: in, out or too close to tell, by the rule it was judged by.
    """

    error_mm: float
    limit_mm: float
    u_mm: float
    word: Word


@dataclass(frozen=True)
class AddedNote:
    """What was added to a signed audit, by whom and when (UTC, ISO 8601)."""

    kind: AddendumKind
    text: str
    done_by: str
    at: str


@dataclass(frozen=True)
class Note:
    """An audit that was signed, something `added` to it since, or its report issued anew.

    `row` and `hash` are the ledger's last row of it; `anchor`: what is looked for in anything that
    was given out, to find a ledger whose end was cut off. `machine` is its key, `check` "" for the
    head against its table. Moments are UTC, ISO 8601; `clock_set`: whether a time server had set
    the clock. `report`: the number of its report, which `replaces` another one, `because` of
    something, or ""; `files`: what those are called that go into the shop's folder.
    """

    schema: Literal["headsweep-note-1"]
    ledger: str
    row: int
    hash: str
    anchor: str
    report: str
    replaces: str
    because: str
    audit: str
    short: str
    machine: str
    machine_name: str
    asset: str
    place: str
    customer: str
    check: str
    reason: str
    verdict: Verdict
    signed_at: str
    clock_set: bool
    done_by: str
    reviewed_by: str
    last_good: str
    disposition: str
    as_found: Mapping[str, AxisNote] | None
    as_left: Mapping[str, AxisNote] | None
    added: AddedNote | None
    files: tuple[str, ...]


def note(record: AuditRecord, names: Mapping[str, str], files: tuple[str, ...]) -> Note:
    """Return the note of a signed audit as its rows stand; `names`: what people are called."""
    signed, closed, last = record.signed, record.closed, record.last
    assert isinstance(signed, Signed) and closed is not None
    opened, event = record.opened, last.event
    setup, which = opened.setup, number(record)
    return Note(
        schema=SCHEMA,
        ledger=event.ledger,
        row=event.seq,
        hash=last.hash,
        anchor=token(event.ledger, event.seq, last.hash),
        report=which.text,
        replaces=which.replaces,
        because=which.because if isinstance(which.because, str) else "",
        audit=record.audit,
        short=opened.short,
        machine=record.machine,
        machine_name=setup.machine.name,
        asset=setup.machine.asset,
        place=setup.machine.place,
        customer=setup.machine.customer or setup.shop.customer,
        check=opened.check.kind if opened.check is not None else "",
        reason=opened.reason,
        verdict=signed.verdict,
        signed_at=_moment(closed.event.stamp),
        clock_set=closed.event.stamp.utc_trusted,
        done_by=names.get(signed.done_by, ""),
        reviewed_by=names.get(signed.reviewed_by, ""),
        last_good=signed.last_good,
        disposition=signed.disposition,
        as_found=axes(signed.as_found),
        as_left=axes(signed.as_left),
        added=_added(record, names),
        files=files,
    )


def body(of: Note) -> bytes:
    """Its bytes: the same each time, in one line."""
    return json.dumps(plain(of), sort_keys=True, ensure_ascii=False, allow_nan=False).encode()


def _moment(stamp: Stamp) -> str:
    moment = datetime.datetime.fromtimestamp(stamp.utc_us // 1_000_000, datetime.UTC)
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def axes(results: Both[AxisResult] | None) -> dict[str, AxisNote] | None:
    """What is told of each axis's result."""
    if results is None:
        return None
    return {
        axis: AxisNote(each.error_mm, each.limit_mm, each.u_mm, each.word)
        for axis, each in results.items()
    }


def _added(record: AuditRecord, names: Mapping[str, str]) -> AddedNote | None:
    row = record.rows[-1]
    if not isinstance(row.data, Addendum):
        return None
    by = names.get(row.data.done_by, "")
    return AddedNote(row.data.kind, row.data.text, by, _moment(row.event.stamp))
