"""The whole ledger looked at behind a start: its file, its chain, and what its rows come to."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Protocol

from daq.audit.apply import apply
from daq.audit.seal import sealed
from daq.audit.state import Shop
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.seal import SEAL_NAME
from daq.ledger.verify import walk
from daq.ledger.view import LedgerView
from daq.service.rests import Rests
from daq.service.sealing import Begun
from daq.service.turns import Turns
from daq.words import Event, Said, said

AT_ONCE_S: Final = 0.2
"""So long it goes on without a rest: a small ledger is done by then."""

SAID_S: Final = 5.0
"""A check that takes longer is told of on the screens."""

STOPS_S: Final = 1.0


class Proven(Protocol):
    """What is known of the record that the service goes by."""

    @property
    def wait(self) -> Said | None:
        """Why signing has to wait: how far its check has come; None once it is over."""

    @property
    def say(self) -> Said | None:
        """The same for the screens, which need not be told of a check that is soon over."""

    @property
    def fault(self) -> Said | None:
        """What is wrong with it: nothing may be added to it then. None while nothing is known."""


@dataclass(frozen=True)
class Known:
    """A record that nothing more is to be found out of."""

    wait: Said | None = None
    say: Said | None = None
    fault: Said | None = None


class _SealedOtherwise(Exception):
    """The seal says something else than the rows up to it come to."""


class _Ended(Exception):
    """The service stops before the check is over."""


class Proof:
    """Checks a ledger from its first row on, with a connection and a thread of its own.

    `rows`: how many are good so far. What was taken from a seal must be what they come to.
    """

    def __init__(self, folder: Path, last: int, begun: Begun, failed: Callable[[], None]) -> None:
        """Nothing runs before `start`. `last`: the ledger's last row; `failed` is called once
        if the record is not as it must be."""
        self._folder = folder
        self._last = last
        self._begun = begun
        self._failed = failed
        self._shop = Shop()
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="proof", daemon=True)
        self._began = 0.0
        self.turns = Turns()
        self._rests = Rests(self.turns, self._ending)
        self.rows = 0
        self.fault: Said | None = None
        self.done = False

    @property
    def say(self) -> Said | None:
        """How far it has come, if it lasts."""
        return self.wait if time.monotonic() - self._began >= SAID_S else None

    @property
    def wait(self) -> Said | None:
        """How far it has come."""
        if self.done:
            return None
        share = min(99, 100 * self.rows // self._last)
        return said("record-under-check", share=share)

    def start(self) -> None:
        """Begin."""
        self._began = time.monotonic()
        self._thread.start()

    def stop(self) -> None:
        """End, done or not; a disk that holds it up is left behind."""
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def _work(self) -> None:
        self._rests.begin(AT_ONCE_S)
        try:
            self.fault = self._look()
        except LedgerError as error:
            self.fault = error.said
        except _Ended:
            pass
        except Exception as error:  # whatever it is, the record was not found to be sound
            self.fault = said("check-broke-off", error=f"{type(error).__name__}: {error}")
        if self._ending.is_set():
            self.fault = None
            return
        self.done = True
        if self.fault:
            self._failed()
        self.turns.rest()

    def _look(self) -> Said | None:
        with LedgerView.open(self._folder) as view:
            view.asks(self._rests.turn)
            fault = view.file_fault("integrity_check")
            if fault or self._ending.is_set():
                return fault
            try:
                report = walk(view, each=self._row)
            except _SealedOtherwise:
                return said(
                    "sealed-otherwise", path=str(view.path), seal=SEAL_NAME, n=self._begun.at
                )
            except ValueError as error:  # a row, or what was sealed, that cannot be folded
                return of_file(view.path, str(error))
        return None if report.ok else report.say

    def _row(self, event: Event) -> None:
        """One more row is as it was written: what do they come to?"""
        if event.seq <= self._begun.at:
            self._shop = apply(self._shop, event)
        if event.seq == self._begun.at:
            if sealed(self._shop) != self._begun.sealed:
                raise _SealedOtherwise
            self._shop = Shop()  # it is not wanted any more
        self.rows = event.seq
        if self._rests.turn():
            raise _Ended
