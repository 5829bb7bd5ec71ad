"""Raw samples of closed audits let go by the shop's policy: once a start, and once a day.

What they came to (means, sweeps, verdicts) stays in the rows, and so do their digests.
"""

import logging
import threading
import uuid
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final

from daq.audit.codec import encode
from daq.audit.events import Abandoned, Signed
from daq.audit.record_events import SamplesLetGo
from daq.ledger.aged import Batch, Rules, batches
from daq.ledger.chain import digest_bytes, list_digest
from daq.ledger.errors import LedgerError
from daq.ledger.progress import SILENT, Progress
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.service.clock import Clock
from daq.service.proof import Proven
from daq.service.rests import Rests
from daq.service.turns import Turns
from daq.settings import Range
from daq.words import Draft, Event, Stamp, said

DAY_US: Final = 86_400_000_000
DAY_NS: Final = 1000 * DAY_US
LOOKS_S: Final = 0.5
STOPS_S: Final = 1.0
CLOSING: Final = frozenset({Signed.__name__, Abandoned.__name__})

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class RecordRules:
    """`[record]` in shop.toml. `keep_samples_days`: so long after their audit was closed raw
    samples are kept; None for ever."""

    keep_samples_days: Annotated[int, Range(1, 36_500)] | None = None


def drafted(batch: Batch, days: int, stamp: Stamp, engine: str) -> Draft:
    """The row that lets a batch go."""
    listed = list_digest(map(digest_bytes, batch.digests))
    data = SamplesLetGo(len(batch.digests), listed, batch.up_to, days)
    kind, version, fields = encode(data)
    cause: Mapping[str, object] = {
        "id": str(uuid.uuid4()), "kind": "let-go", "payload": {}, "engine": engine,
    }  # fmt: skip
    return Draft(kind, version, "", "", stamp, "service", cause, fields)


def by_hand(
    data: Path,
    days: int,
    clock: Clock,
    engine: str,
    *,
    any_clock: bool = False,
    progress: Progress = SILENT,
) -> Iterator[Event]:
    """Let go what is older, with the service stopped; gives each row that says so.

    `any_clock`: dates count though no time server had set the clock. Raises LedgerError.
    """
    with Ledger.open(data, stamp=clock.stamp()) as ledger:
        now = clock.stamp()
        if not (now.utc_trusted or any_clock):
            raise LedgerError(said("no-date-to-let-go-by"))
        rules = Rules(now.utc_us - days * DAY_US, CLOSING, any_clock)
        progress.begin("looked at", ledger.seq)
        for batch in batches(ledger, rules, lambda event: progress.at(event.seq)):
            yield ledger.let_go(drafted(batch, days, clock.stamp(), engine), batch.digests)


class LettingGo:
    """Finds what may go, on a thread of its own; whoever writes the ledger asks for it."""

    def __init__(
        self,
        folder: Path,
        rules: RecordRules,
        proof: Proven,
        clock: Clock,
        forwarded: Callable[[], int | None] = lambda: None,
    ) -> None:
        """Nothing runs before `start`, or without a policy.

        Nothing goes before `proof` has found the record sound, or after the row that `forwarded`
        gives; None where rows are forwarded to nobody.
        """
        self.days = rules.keep_samples_days
        self._folder = folder
        self._proof = proof
        self._clock = clock
        self._forwarded = forwarded
        self._began_ns: int | None = None
        self._waits: Batch | None = None
        self._answered = threading.Event()
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="letting-go", daemon=True)
        self.turns = Turns()
        self._rests = Rests(self.turns, self._ending)
        self._well = False

    @property
    def waits(self) -> Batch | None:
        """What is to be let go next, None for nothing now."""
        return self._waits

    def answer(self, *, well: bool) -> None:
        """It was let go; or it could not be, and is not tried again before tomorrow."""
        self._well, self._waits = well, None
        self._answered.set()

    def start(self) -> None:
        """Begin."""
        if self.days is not None:
            self._thread.start()

    def stop(self) -> None:
        """End; a disk that holds it up is left behind."""
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def _work(self) -> None:
        while not self._ending.wait(LOOKS_S):
            self.turns.turn()
            if self._due():
                self._began_ns = self._clock.mono_ns()
                try:
                    self._look()
                except LedgerError as error:  # whose alarm is the check's, and the writer's
                    _log.warning("no more samples are let go before tomorrow: %s", error)
        self.turns.rest()

    def _due(self) -> bool:
        """Whether a day has passed, the record is known to be sound, and the date is known."""
        began_ns, proof = self._began_ns, self._proof
        if began_ns is not None and self._clock.mono_ns() - began_ns < DAY_NS:
            return False
        return not (proof.wait or proof.fault) and self._clock.stamp().utc_trusted

    def _look(self) -> None:
        assert self.days is not None
        before_us = self._clock.stamp().utc_us - self.days * DAY_US
        rules = Rules(before_us, CLOSING, last=self._forwarded())
        with LedgerView.open(self._folder) as view:
            self._rests.begin()
            for batch in batches(view, rules, lambda _: self._rests.turn()):
                if self._ending.is_set() or not self._handed_over(batch):
                    return

    def _handed_over(self, batch: Batch) -> bool:
        """Whether the writer has let it go."""
        self._answered.clear()
        self._waits = batch
        while not self._answered.wait(LOOKS_S):
            self.turns.turn()
            if self._ending.is_set():
                return False
        return self._well
