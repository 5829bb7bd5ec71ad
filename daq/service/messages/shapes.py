"""Every message: what its JSON holds. A field that is added or goes makes another `v`."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Final, Literal

from daq.audit.parts import Verdict
from daq.service.delivery.note import AxisNote
from daq.settings import plain
from daq.words import Stamp

V: Final = 1
Presence = Literal["online", "offline"]


@dataclass(frozen=True)
class StatusMessage:
    """Retained: whether headsweep is there; of a broken connection the broker says "offline".

    `utc`: when it was written, which of that "offline" is when the connection was made. From an
    "offline" on nothing that was sent as live is. `machine` is "": it is of all.
    """

    v: Literal[1]
    kind: Literal["status"]
    machine: str
    utc: str
    status: Presence
    release: str


@dataclass(frozen=True)
class LiveMessage:
    """What a machine's gauge shows, never retained; `utc`: of this message, ISO 8601.

    `value_mm` and `text` in `unit` are the gauge's own face, `age_ms` old by then. It may be shown
    as live only while `fresh`, and for `fresh_for_ms` from `utc` on. A gauge that went silent sends
    one message more, without a value. `keyed`: sent by a press of the gauge's own key, never live.
    `state`: how its reader does, "ok" or a fault's name. `clock_set`: by a time server.
    """

    v: Literal[1]
    kind: Literal["live"]
    machine: str
    utc: str
    clock_set: bool
    gauge: str
    state: str
    text: str
    unit: Literal["mm", "in", ""]
    value_mm: float | None
    age_ms: int
    fresh: bool
    fresh_for_ms: int
    keyed: bool


@dataclass(frozen=True)
class OfRow:
    """What every message of a row of the ledger has.

    `ledger` and `seq` are the row's, the same each time it is sent: who has seen them has seen it.
    `utc`: when it was recorded, ISO 8601; `clock_set`: whether a time server had set the clock.
    """

    v: Literal[1]
    kind: str
    machine: str
    utc: str
    clock_set: bool
    ledger: str
    seq: int
    audit: str


@dataclass(frozen=True)
class GaugeMean:
    """What one gauge read: mean and standard deviation of `count` samples on its own face, mm."""

    gauge: str
    mean_mm: float
    sd_mm: float
    count: int


@dataclass(frozen=True)
class TakeMessage(OfRow):
    """A reading was taken. `event`: which row of the record; `place`: spot or station, "" for none.

    `second`: what the other gauge of a bar read at the same take.
    """

    kind: Literal["take"]
    event: str
    place: str
    reading: GaugeMean
    second: GaugeMean | None


@dataclass(frozen=True)
class TakenBackMessage(OfRow):
    """Rows were taken back by a person: what was sent of these `rows` holds no more."""

    kind: Literal["taken-back"]
    rows: tuple[int, ...]


@dataclass(frozen=True)
class VerdictMessage(OfRow):
    """An audit was signed. `check`: its kind, "" for the head against its table.

    `as_found`, `as_left`: by axis, across the sweep; null where there is none. `anchor`: what shows
    that a ledger's end was cut off, should this message still be there.
    """

    kind: Literal["verdict"]
    short: str
    reason: str
    check: str
    verdict: Verdict
    moves: int
    as_found: dict[str, AxisNote] | None
    as_left: dict[str, AxisNote] | None
    anchor: str


@dataclass(frozen=True)
class FaultMessage(OfRow):
    """In an open audit the gauge went or came back, was zeroed, or did what must be known.

    `code`: what, as the record names it; "back" once it reads again.
    """

    kind: Literal["fault"]
    event: str
    code: str


Message = (
    StatusMessage | LiveMessage | TakeMessage | TakenBackMessage | VerdictMessage | FaultMessage
)


def body(of: Message) -> bytes:
    """Its bytes: JSON in one line, the same each time."""
    return json.dumps(plain(of), sort_keys=True, ensure_ascii=False, allow_nan=False).encode()


def moment(stamp: Stamp) -> str:
    """When that was: UTC, ISO 8601, to the millisecond."""
    seconds, us = divmod(stamp.utc_us, 1_000_000)
    when = datetime.fromtimestamp(seconds, UTC)
    return f"{when:%Y-%m-%dT%H:%M:%S}.{us // 1000:03d}Z"


def topic(prefix: str, machine: str, kind: str) -> str:
    """Where it goes; what a topic may not hold is written %XX, as in an address."""
    safe = "".join(f"%{ord(each):02X}" if each in "%+#/" else each for each in machine)
    return "/".join(each for each in (prefix, safe, kind) if each)
