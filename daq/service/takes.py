"""Takes under way: from the press of a button to a settled window, or to saying why not."""

from collections.abc import Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field

from daq.audit.decide import Want
from daq.metrology.presses import pressed
from daq.metrology.settle import SettleRules, Unsettled, Window, settle
from daq.says import language
from daq.words import Ack, Command, Sample, said

HOLD_STILL = "A reading is being taken: hold still."
"""Why a press during a take is refused."""


@dataclass(frozen=True)
class Pending:
    """One command waiting for its gauge to settle, and everyone who waits for the answer.

    `presses`: how often the key of a gauge that sends on its key must be pressed for one
    reading; None for a gauge that sends without it.
    """

    command: Command
    want: Want
    gauge: str
    take_ns: int
    rules: SettleRules
    presses: int | None = None
    replies: list["Future[Ack]"] = field(default_factory=list)


@dataclass(frozen=True)
class Expired:
    """The gauge did not settle in time."""

    say: str


def look(pending: Pending, samples: Sequence[Sample], now_ns: int) -> Window | Expired | None:
    """The settled window of a pending take, why it never came, or None while it may still come."""
    found = _found(pending, samples, now_ns)
    if isinstance(found, Window):
        return found
    if found.expired:
        by = "touch" if pending.presses is None else "key"
        return Expired(language().words(said("no-reading", why=found.why, by=by)))
    return None


def _found(pending: Pending, samples: Sequence[Sample], now_ns: int) -> Window | Unsettled:
    spread_mm = pending.want.spread_mm
    if pending.presses is None:
        return settle(samples, pending.take_ns, now_ns, pending.rules, spread_mm)
    return pressed(samples, pending.take_ns, now_ns, pending.rules, spread_mm, pending.presses)
