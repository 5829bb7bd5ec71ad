"""Takes under way: from the press of a button to a settled window, or to saying why not."""

from collections.abc import Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field

from daq.audit.decide import Want
from daq.metrology.settle import SettleRules, Window, settle
from daq.words import Ack, Command, Sample


@dataclass(frozen=True)
class Pending:
    """One command waiting for its gauge to settle, and everyone who waits for the answer."""

    command: Command
    want: Want
    gauge: str
    take_ns: int
    rules: SettleRules
    replies: list["Future[Ack]"] = field(default_factory=list)


@dataclass(frozen=True)
class Expired:
    """The gauge did not settle in time."""

    say: str


def look(pending: Pending, samples: Sequence[Sample], now_ns: int) -> Window | Expired | None:
    """The settled window of a pending take, why it never came, or None while it may still come."""
    found = settle(samples, pending.take_ns, now_ns, pending.rules, pending.want.spread_mm)
    if isinstance(found, Window):
        return found
    if found.expired:
        return Expired(f"No reading: {found.say}. Hands off, then take again.")
    return None
