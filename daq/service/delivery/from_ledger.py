"""What a row delivers: the audit as it stood with that row, its files' names, its note."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime, tzinfo
from functools import partial
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from daq.audit.closing_events import Addendum, ReportAmended, Signed
from daq.audit.reasons import REASONS
from daq.ledger.view import LedgerView
from daq.records.read import read_from
from daq.records.record import AuditRecord
from daq.report.number import number
from daq.service.delivery import webhook
from daq.service.delivery.config import OnSigning
from daq.service.delivery.folder import drop
from daq.service.delivery.note import body, note
from daq.words import Event

DELIVERS: Final = tuple(each.__name__ for each in (Signed, Addendum, ReportAmended))
"""The events after which a report says something new."""

Made = Callable[[LedgerView, AuditRecord, str], bytes]
"""Makes the report of an audit as a file of that ending."""


@dataclass(frozen=True)
class FromLedger:
    """Delivers rows of the ledger in `data`, as the shop's file says; each raises NotDelivered."""

    data: Path
    config: OnSigning
    made: Made

    def into_folder(self, row: int) -> None:
        """The reports of that row."""
        with LedgerView.open(self.data) as view:
            record = record_at(view, row)
            if record is not None:
                files = {
                    name: partial(self.made, view, record, ending)
                    for name, ending in self._files(record)
                }
                drop(Path(self.config.folder), files)

    def to_address(self, row: int) -> None:
        """The note of that row."""
        with LedgerView.open(self.data) as view:
            record = record_at(view, row)
            names = view.people()
        if record is None:
            return
        files = tuple(name for name, _ in self._files(record)) if self.config.folder else ()
        text = body(note(record, names, files))
        delivery = f"{record.last.event.ledger}:{row}"
        of = webhook.headers(text, delivery, self.config.secret)
        webhook.post(self.config.url, text, of)

    def _files(self, record: AuditRecord) -> Iterator[tuple[str, str]]:
        for ending in self.config.formats:
            yield f"{name_of(record)}.{ending}", ending


def record_at(view: LedgerView, row: int) -> AuditRecord | None:
    """The audit up to that row; None of a row that delivers nothing, as practice does."""
    event = view.event(row)
    if event is None or event.type not in DELIVERS:
        return None
    record = read_from(view, event.audit)
    if record.signed is None or not REASONS[record.opened.reason].kept:
        return None
    return replace(record, rows=tuple(each for each in record.rows if each.seq <= row))


def name_of(record: AuditRecord) -> str:
    """What its files are called: machine, day of the signature in the shop, the report's number."""
    assert record.closed is not None
    stamp = record.closed.event.stamp
    moment = datetime.fromtimestamp(stamp.utc_us // 1_000_000, UTC)
    day = moment.astimezone(_zone(record)).date().isoformat()
    return f"{record.machine}-{day}-{number(record).text}"


def _zone(record: AuditRecord) -> tzinfo:
    with suppress(KeyError, ValueError, OSError):  # one that this computer does not know
        return ZoneInfo(record.opened.setup.shop.time_zone)
    return UTC


def rows_after(view: LedgerView, seq: int) -> list[int]:
    """Every row after that one which is to be delivered."""
    return rows_in(view.events(after=seq))


def rows_in(events: Iterable[Event]) -> list[int]:
    """Those of these."""
    return [event.seq for event in events if event.type in DELIVERS]
