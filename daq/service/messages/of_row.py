"""What a row of the ledger says to the shop's own systems, if anything."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from daq.audit.codec import decode
from daq.audit.events import (
    BaseRead,
    Data,
    FreeRead,
    GaugeBack,
    GaugeFault,
    GaugeNoted,
    Parked,
    ReadingTaken,
    Signed,
    Voided,
    Zeroed,
)
from daq.audit.reasons import REASONS
from daq.audit.stages.stations import StationRead
from daq.ledger.anchors import token
from daq.ledger.view import LedgerView
from daq.service.delivery.note import axes
from daq.service.messages.shapes import (
    FaultMessage,
    GaugeMean,
    Message,
    TakeMessage,
    TakenBackMessage,
    V,
    VerdictMessage,
    moment,
)
from daq.words import Event, Reading

READ: Final = (FreeRead, ReadingTaken, StationRead, Parked, BaseRead)
FAULTS: Final = (GaugeFault, GaugeBack, GaugeNoted, Zeroed)
SENT: Final = tuple(each.__name__ for each in (*READ, *FAULTS, Voided, Signed))
"""The events that are sent, each as a message of its own."""


def rows_in(events: Iterable[Event]) -> list[int]:
    """Those of these rows that are sent."""
    return [event.seq for event in events if event.type in SENT]


def rows_after(view: LedgerView, seq: int) -> list[int]:
    """Every row after that one which is sent."""
    last, _ = view.last() or (0, b"")
    return [event.seq for event in view.of_types(SENT, seq, last)]


@dataclass(frozen=True)
class Rows:
    """Reads rows of the ledger in `data`, from any one thread at a time."""

    data: Path

    def message(self, row: int) -> Message | None:
        """What that row says; None of a row that says nothing, as practice does.

        Raises:
            LedgerError: it cannot be read.
            UnknownEvent: this release does not know it.
        """
        with LedgerView.open(self.data) as view:
            event = view.event(row)
            opened = None if event is None else view.first(event.audit)
            if event is None or opened is None or event.type not in SENT:
                return None
            if not REASONS[opened.data["reason"]].kept:
                return None
            return _message(event, decode(event), opened, view.hash_of(row) or "")


def _message(event: Event, data: Data, opened: Event, head: str) -> Message:
    common: dict[str, Any] = {
        "v": V,
        "machine": event.machine,
        "utc": moment(event.stamp),
        "clock_set": event.stamp.utc_trusted,
        "ledger": event.ledger,
        "seq": event.seq,
        "audit": event.audit,
    }
    if isinstance(data, READ):
        second = data.second if isinstance(data, ReadingTaken) else None
        place = data.station if isinstance(data, StationRead) else data.reading.position or ""
        other = None if second is None else _mean(second)
        return TakeMessage(
            **common, kind="take", event=event.type, place=place,
            reading=_mean(data.reading), second=other,
        )  # fmt: skip
    if isinstance(data, Voided):
        return TakenBackMessage(**common, kind="taken-back", rows=data.voids)
    if isinstance(data, Signed):
        check = opened.data.get("check")
        return VerdictMessage(
            **common, kind="verdict", short=opened.data["short"], reason=opened.data["reason"],
            check=check["kind"] if check else "", verdict=data.verdict, moves=data.moves,
            as_found=axes(data.as_found), as_left=axes(data.as_left),
            anchor=token(event.ledger, event.seq, head),
        )  # fmt: skip
    return FaultMessage(**common, kind="fault", event=event.type, code=_code(data))


def _mean(of: Reading) -> GaugeMean:
    return GaugeMean(of.gauge, of.mean_mm, of.sd_mm, of.count)


def _code(data: Data) -> str:
    if isinstance(data, GaugeFault):
        return data.code
    return data.said.code if isinstance(data, GaugeNoted | Zeroed) else "back"
